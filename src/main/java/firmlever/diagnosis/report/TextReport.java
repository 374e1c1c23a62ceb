package firmlever.diagnosis.report;

import firmlever.belief.Chance;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Turn;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.RideVerdict;
import firmlever.hearing.report.HeardReport;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.hydraulics.ThrowEstimate.Meaning;
import firmlever.plan.Plan.Result;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A diagnosis for the person at the stand. */
public final class TextReport {
  private static final int CAUSES_SHOWN = 4;
  private static final double WORTH_SHOWING = 0.05;
  private static final double LIKELY_ANYWAY = 0.25;
  private static final int WEIGHTS_SHOWN = 4;
  private static final double WORTH_WEIGHING = 0.1;
  private static final int STEPS_SHOWN = 5;

  /** Outcomes less likely than this are not spoken of. */
  private static final double WORTH_LEADING = 0.02;

  private final Vocabulary vocabulary;
  private final int width;
  private final boolean bold;

  public TextReport(Vocabulary vocabulary, int width, boolean bold) {
    this.vocabulary = vocabulary;
    this.width = width;
    this.bold = bold;
  }

  /** The whole diagnosis as text. */
  public String of(Diagnosis d) {
    Page page = new Page(width, bold);
    page.heading(d.caseId() + ": " + d.brake());
    if (!d.overlay().isEmpty()) {
      page.hanging("  ", "With " + d.overlay());
    }
    ride(page, d);
    if (!d.contradictions().isEmpty()) {
      page.heading("These findings cannot all be true");
      d.contradictions().forEach(c -> page.hanging("  ", c.why()));
    }
    measured(page, d);
    d.heard().ifPresent(heard -> new HeardReport(vocabulary).text(page, heard));
    notes(page, d);
    d.throwEstimate().ifPresent(estimate -> throwSays(page, d, estimate));
    wrong(page, d);
    next(page, d);
    if (!d.turning().isEmpty()) {
      page.heading("What would change it");
      List<Turn> turns =
          d.turning().stream()
              .filter(t -> !t.ifPresent().equals(d.first()) || !t.ifAbsent().equals(d.first()))
              .toList();
      turns.forEach(turn -> page.hanging("  ", turned(turn)));
      if (turns.isEmpty()) {
        page.hanging("  ", "None of the next checks, whichever way it comes out.");
      }
    }
    d.stoppedEarly().forEach(what -> page.hanging("  ", what));
    page.heading("Mind");
    d.cautions().forEach(id -> page.hanging("  - ", vocabulary.caution(id).text()));
    return page.toString();
  }

  private void ride(Page page, Diagnosis d) {
    RideVerdict ride = d.ride();
    page.heading(RideWords.heading(ride.verdict()));
    if (ride.verdict() == RideVerdict.Answer.FINE) {
      page.hanging("  ", "What was looked at is in order. The acceptance checks still come first.");
    }
    RideWords.because(vocabulary, ride.because()).forEach(each -> page.hanging("  ", each));
    if (!ride.stop() && !ride.notLooked().isEmpty()) {
      page.hanging("  ", RideWords.notLooked(vocabulary, ride));
    }
  }

  private void measured(Page page, Diagnosis d) {
    List<Diagnosis.Concluded> read =
        d.concluded().stream()
            .filter(c -> c.evidence() && (c.present() || c.probability() > 0.02))
            .toList();
    if (!read.isEmpty()) {
      page.heading("What readings and record show");
      for (Diagnosis.Concluded c : read) {
        String sure = c.probability() > 0.02 && c.probability() < 0.98 ? "; near the limit" : "";
        page.hanging("  ", said(c.symptom(), c.present()) + ": " + c.why() + sure);
      }
    }
  }

  private static void notes(Page page, Diagnosis d) {
    if (!d.notes().isEmpty()) {
      page.heading("Worth knowing");
      d.notes().forEach(note -> page.hanging("  ", note));
    }
  }

  private static void throwSays(Page page, Diagnosis d, ThrowEstimate estimate) {
    page.heading("What the lever throw says");
    ThrowWords.sentences(estimate).forEach(sentence -> page.hanging("  ", sentence));
    if (estimate.meaning() == Meaning.GAS_OR_GIVE
        && Boolean.FALSE.equals(d.findings().get("no-hard-stop"))) {
      page.hanging(
          "  ",
          "But it was found firm at the end, and air or flex would feel soft there: that speaks for"
              + " pads that touch late.");
    }
  }

  private void wrong(Page page, Diagnosis d) {
    page.heading("What is probably wrong");
    boolean cleared = d.first().equals(Vocabulary.NO_FAULT_FOUND);
    if (cleared) {
      page.hanging(
          "  ",
          (d.noFaultFound() < 0.5 ? "No cause stands out" : "Nothing")
              + ": no fault at all is "
              + Chance.withNumber(d.noFaultFound())
              + ".");
    }
    int shown = 0;
    for (CauseBelief cause : worthShowing(d)) {
      shown++;
      page.hanging(
          String.format(Locale.ROOT, "  %d  ", shown),
          cause(cause.id()) + ", " + Chance.withNumber(cause.probability()));
      page.hanging("     for      ", reasons(cause, true));
      page.hanging("     against  ", reasons(cause, false));
    }
    if (!cleared) {
      page.hanging("  ", "No fault at all: " + Chance.withNumber(d.noFaultFound()) + ".");
    }
    for (Diagnosis.Together together : d.together()) {
      if (together.probability() < WORTH_SHOWING) {
        continue;
      }
      page.hanging(
          "  ",
          "Just "
              + together.causes().stream().map(this::cause).collect(Collectors.joining(" and "))
              + " together: "
              + Chance.withNumber(together.probability())
              + ".");
    }
    d.stability()
        .ifPresent(
            s ->
                page.hanging(
                    "  ",
                    String.format(
                        Locale.ROOT,
                        "How firm: with all numbers of the rules shaken, the first cause stays first"
                            + " %.0f times in 100, and the work one would begin with without"
                            + " looking %.0f times.",
                        100 * s.firstCause(),
                        100 * s.firstAction())));
  }

  /** The likeliest causes, without those that are no likelier than in any brake. */
  private static List<CauseBelief> worthShowing(Diagnosis d) {
    return d.causes().stream()
        .filter(cause -> cause.probability() >= WORTH_SHOWING)
        .filter(TextReport::likelierThanAnywhere)
        .limit(CAUSES_SHOWN)
        .toList();
  }

  /** Whether it is likely, or something here speaks for it. */
  static boolean likelierThanAnywhere(CauseBelief cause) {
    return cause.probability() >= LIKELY_ANYWAY
        || Stream.concat(cause.history().stream(), cause.symptoms().stream())
            .anyMatch(w -> w.weight() >= WORTH_WEIGHING);
  }

  private String reasons(CauseBelief cause, boolean speakingFor) {
    List<Weight> all = new ArrayList<>();
    Stream.concat(cause.history().stream(), cause.symptoms().stream())
        .filter(w -> speakingFor ? w.weight() >= WORTH_WEIGHING : w.weight() <= -WORTH_WEIGHING)
        .sorted(Comparator.comparingDouble((Weight w) -> -Math.abs(w.weight())))
        .limit(WEIGHTS_SHOWN)
        .forEach(all::add);
    double prior = cause.prior();
    String common = speakingFor ? "" : String.format(Locale.ROOT, "how rare it is %+.1f", prior);
    String given =
        all.stream()
            .map(w -> reason(w) + String.format(Locale.ROOT, " %+.1f", w.weight()))
            .collect(Collectors.joining("; "));
    if (given.isEmpty()) {
      return speakingFor ? "nothing found" : common;
    }
    return common.isEmpty() ? given : common + "; " + given;
  }

  private String reason(Weight w) {
    if (w.symptom().isEmpty()) {
      return w.why();
    }
    String name = (w.hinted() ? "perhaps " : "") + said(w.symptom(), w.present());
    return w.present() && w.weight() < 0 ? name + ", better explained otherwise" : name;
  }

  private void next(Page page, Diagnosis d) {
    page.heading("What to do next");
    if (!d.contradictions().isEmpty()) {
      page.hanging(
          "  ", "First look again at what contradicts itself above; all below hangs on it.");
    }
    if (d.firstStep().isEmpty()) {
      page.hanging("  ", "Nothing known here is worth its minutes: ask the maker.");
    }
    List<Step> path = d.next().stream().filter(TextReport::onThePath).limit(STEPS_SHOWN).toList();
    int number = 0;
    for (Step step : path) {
      number++;
      page.hanging(String.format(Locale.ROOT, "  %d  ", number), stepLine(step));
      if (step.id().equals(Diagnosis.HAND_BACK)) {
        page.hanging("     ", "once all acceptance checks are passed");
        continue;
      }
      page.hanging("     ", step.why());
      if (!step.outcomes().isEmpty()) {
        page.hanging("     ", leadsTo(step));
      }
    }
    d.next().stream()
        .filter(step -> !onThePath(step) && !step.id().equals(Diagnosis.HAND_BACK))
        .limit(STEPS_SHOWN)
        .forEach(step -> page.hanging("  not yet  ", waiting(step)));
  }

  /** Whether the plan leads to the step: what is only listed because it waits has no outcomes. */
  private static boolean onThePath(Step step) {
    return step.open() || !step.forbidden() && !step.outcomes().isEmpty();
  }

  /** What each outcome leads to. */
  private String leadsTo(Step step) {
    Set<Optional<String>> following =
        step.outcomes().stream()
            .filter(outcome -> outcome.probability() >= WORTH_LEADING)
            .map(Outcome::next)
            .collect(Collectors.toSet());
    if (step.kind() == StepKind.CHECK && following.size() == 1) {
      return "then in any case: " + follows(following.iterator().next());
    }
    return step.outcomes().stream()
        .filter(outcome -> outcome.probability() >= WORTH_LEADING)
        .map(
            outcome ->
                String.format(
                    Locale.ROOT,
                    "%s (%.2f): %s",
                    spoken(outcome, step),
                    outcome.probability(),
                    outcome.result() == Result.ALL_RIGHT
                        ? "hand it back"
                        : follows(outcome.next())))
        .collect(Collectors.joining("; "));
  }

  private String spoken(Outcome outcome, Step step) {
    return switch (outcome.result()) {
      case PRESENT -> step.looks().size() > 1 ? "if " + symptom(outcome.symptom()) : "if there";
      case ABSENT -> step.looks().size() > 1 ? "if none of it" : "if not there";
      case ALL_RIGHT -> "if all right";
      case NOT_ALL_RIGHT -> "if not";
    };
  }

  private String follows(Optional<String> step) {
    return step.map(
            id ->
                vocabulary.symptoms().containsKey(id)
                    ? vocabulary.inQuestion(id)
                    : vocabulary.action(id).name())
        .orElse("triage it anew");
  }

  private String stepLine(Step step) {
    if (step.kind() == StepKind.CHECK) {
      boolean several = step.looks().size() > 1;
      return String.format(
          Locale.ROOT,
          "check: %s (%.0f min%s)%s",
          vocabulary.lookFor(step.id(), several),
          step.minutes(),
          step.minutes() < alone(step) ? " more" : "",
          several
              ? ": " + step.looks().stream().map(this::symptom).collect(Collectors.joining(", "))
              : "");
    }
    return String.format(
        Locale.ROOT, "do: %s (%.0f min)", vocabulary.action(step.id()).name(), step.minutes());
  }

  /** Minutes of the look where nothing before it made part of it. */
  private double alone(Step step) {
    return step.looks().stream()
        .mapToInt(id -> vocabulary.symptom(id).minutes())
        .max()
        .orElseThrow();
  }

  private String waiting(Step step) {
    String name = vocabulary.action(step.id()).name();
    if (step.forbidden()) {
      return name + ": not here, " + step.why();
    }
    return name + ": " + step.why();
  }

  private String turned(Turn turn) {
    return symptom(turn.symptom())
        + ": if present, "
        + outcome(turn.ifPresent())
        + " leads, "
        + Chance.withNumber(turn.ifPresentProbability())
        + "; if absent, "
        + outcome(turn.ifAbsent())
        + ", "
        + Chance.withNumber(turn.ifAbsentProbability());
  }

  private String outcome(String id) {
    return id.equals(Vocabulary.NO_FAULT_FOUND) ? "no fault at all" : cause(id);
  }

  private String said(String symptom, boolean present) {
    return vocabulary.symptom(symptom).said(present);
  }

  private String symptom(String id) {
    return vocabulary.symptom(id).name();
  }

  private String cause(String id) {
    return vocabulary.cause(id).name();
  }
}
