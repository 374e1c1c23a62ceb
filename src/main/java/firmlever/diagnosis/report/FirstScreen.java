package firmlever.diagnosis.report;

import static firmlever.belief.Chance.inTen;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Outcome;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.RideVerdict;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.hearing.Heard;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.report.HeardReport;
import firmlever.plan.Plan.Result;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.CheckKind;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * What a good mechanic would say in ten seconds: to be ridden or not, what is wrong, what to do
 * now, and what to mind meanwhile. At most {@link #LINES} lines of 80 columns; all reasons stand in
 * {@link TextReport}.
 */
public final class FirstScreen {
  /** The most lines of a diagnosis on a first screen of 80 columns. */
  public static final int LINES = 12;

  private static final int OTHERS = 2;

  /** What follows a step is told of so many outcomes, the likeliest first. */
  private static final int WAYS_SHOWN = 3;

  private static final double WORTH_NAMING = 0.1;
  private static final double STANDS_OUT = 0.25;
  private static final double EVEN = 0.5;
  private static final double CLEARED = 0.5;
  private static final double AS_GOOD_AS_CERTAIN = 0.9;

  private final Vocabulary vocabulary;
  private final int width;
  private final boolean bold;

  public FirstScreen(Vocabulary vocabulary, int width, boolean bold) {
    this.vocabulary = vocabulary;
    this.width = width;
    this.bold = bold;
  }

  /** A paragraph; of those that may be left out the last ones go first. */
  private record Said(String lead, String words, boolean needed) {}

  /**
   * A line of the first screen.
   *
   * @param lead what it speaks of, such as {@code Ride}; empty where it goes on
   */
  public record Line(String lead, String words) {}

  /** The diagnosis on one screen. */
  public String of(Diagnosis d) {
    return page(d, kept(d));
  }

  /** What stands on that screen below its heading, for pages that lay it out themselves. */
  public List<Line> lines(Diagnosis d) {
    return kept(d).stream().map(said -> new Line(said.lead().strip(), said.words())).toList();
  }

  private List<Said> kept(Diagnosis d) {
    List<Said> said = new ArrayList<>();
    said.add(new Said("Ride   ", ride(d), true));
    if (!d.contradictions().isEmpty()) {
      said.add(
          new Said(
              "First  ",
              "look again, these cannot both be: " + d.contradictions().get(0).why(),
              true));
    }
    said.add(new Said("Wrong  ", wrong(d), true));
    said.add(new Said("Now    ", now(d), true));
    d.firstStep()
        .flatMap(step -> otherwise(d, step))
        .ifPresent(w -> said.add(new Said("       ", w, false)));
    said.add(new Said("Mind   ", mind(d), true));
    d.heard()
        .ifPresent(
            heard ->
                said.add(
                    new Said(
                        "Heard  ",
                        heardWords(d, heard),
                        notAllClear(heard) || !deniedBy(d, heard).isEmpty())));
    boolean unread = d.heard().filter(FirstScreen::nothingKnown).isPresent();
    if (!unread) {
      notYet(d).ifPresent(words -> said.add(new Said("Not yet  ", words, false)));
    }
    ask(d, unread).ifPresent(words -> said.add(new Said("Ask    ", words, unread)));
    int last = said.size();
    String text = page(d, said);
    while (text.lines().count() > LINES && last > 0) {
      last--;
      if (!said.get(last).needed()) {
        said.remove(last);
        text = page(d, said);
      }
    }
    return said;
  }

  private String page(Diagnosis d, List<Said> said) {
    Page page = new Page(width, bold);
    page.heading(d.caseId() + ": " + d.brake());
    said.forEach(each -> page.hanging(each.lead(), each.words()));
    page.hanging("Why    ", "triage --why tells all reasons, the other causes and the whole plan");
    return page.toString();
  }

  private String ride(Diagnosis d) {
    RideVerdict ride = d.ride();
    String more =
        switch (ride.because().size()) {
          case 0, 1 -> "";
          case 2 -> " (and 1 more reason)";
          default -> " (and " + (ride.because().size() - 1) + " more reasons)";
        };
    return switch (ride.verdict()) {
      case STOP -> "NO. " + because(ride.because().get(0)) + more;
      case NOT_CLEARED ->
          "not cleared"
              + (ride.because().isEmpty() ? "" : ". " + because(ride.because().get(0)) + more)
              + notLooked(ride);
      case FINE -> "yes, once the acceptance checks are passed";
    };
  }

  private String because(Because each) {
    if (!each.isCause()) {
      return vocabulary.symptom(each.id()).name() + ": " + each.why();
    }
    // How the chance stands to its limit is told by all reasons.
    String how = each.why().split(";", 2)[0];
    if (each.probability() < STANDS_OUT) {
      return how
          + ": several causes may be behind it, likeliest "
          + vocabulary.name(each.id())
          + " ("
          + inTen(each.probability())
          + ")";
    }
    return vocabulary.name(each.id()) + " (" + inTen(each.probability()) + "): " + how;
  }

  private String notLooked(RideVerdict ride) {
    String looks =
        ride.notLooked().stream()
            .limit(OTHERS + 1L)
            .map(id -> vocabulary.symptom(id).name())
            .collect(Collectors.joining(", "));
    return looks.isEmpty() ? "" : "; nobody has ruled out: " + looks;
  }

  private String wrong(Diagnosis d) {
    if (d.causes().isEmpty() || d.noFaultFound() >= CLEARED) {
      return "probably nothing: no fault at all, " + inTen(d.noFaultFound());
    }
    CauseBelief first = d.causes().get(0);
    List<CauseBelief> others =
        d.causes().stream()
            .skip(1)
            .filter(cause -> cause.probability() >= WORTH_NAMING)
            .filter(TextReport::likelierThanAnywhere)
            .limit(OTHERS)
            .toList();
    // Two faults at once are likelier there than not: no "maybe".
    String both = named(others, cause -> cause.probability() > EVEN);
    String maybe = named(others, cause -> cause.probability() <= EVEN);
    return (first.probability() < STANDS_OUT ? "nothing stands out; likeliest " : "")
        + vocabulary.name(first.id())
        + seen(first)
            .map(finding -> ": " + vocabulary.symptom(finding).name() + ", " + shownBy(d, finding))
            .orElseGet(() -> " (" + inTen(first.probability()) + ")")
        + (both.isEmpty() ? "" : "; and " + both)
        + (maybe.isEmpty() ? "" : "; maybe also " + maybe);
  }

  private String named(List<CauseBelief> causes, Predicate<CauseBelief> which) {
    return causes.stream()
        .filter(which)
        .map(cause -> vocabulary.name(cause.id()) + " (" + inTen(cause.probability()) + ")")
        .collect(Collectors.joining(", "));
  }

  /** The finding that is the cause to the eye, where it was looked for and seen. */
  private Optional<String> seen(CauseBelief cause) {
    if (cause.probability() < AS_GOOD_AS_CERTAIN) {
      return Optional.empty();
    }
    return cause.symptoms().stream()
        .filter(w -> w.present() && !w.hinted() && w.weight() > 2)
        .filter(w -> Set.of(CheckKind.LOOK, CheckKind.MEASURE).contains(kind(w)))
        .max(Comparator.comparingDouble(Weight::weight))
        .map(Weight::symptom);
  }

  /** Whose word a finding is: nobody found what a reading shows or a rider told. */
  private static String shownBy(Diagnosis d, String finding) {
    return d.onlyTold().contains(finding)
        ? "by what the rider says"
        : d.concluded().stream().anyMatch(each -> each.symptom().equals(finding))
            ? "by the readings or the record"
            : "you found it";
  }

  private CheckKind kind(Weight weight) {
    return vocabulary.symptom(weight.symptom()).kind();
  }

  private String now(Diagnosis d) {
    Optional<Step> first = d.firstStep();
    if (first.isEmpty()) {
      return "nothing known here is worth its minutes: ask the maker";
    }
    Step step = first.get();
    if (step.id().equals(Diagnosis.HAND_BACK)) {
      return "make the acceptance checks, and hand it back if all pass";
    }
    String minutes = String.format(Locale.ROOT, " (%.0f min)", step.minutes());
    if (step.kind() == StepKind.CHECK) {
      return vocabulary.lookFor(step.id(), step.looks().size() > 1) + minutes;
    }
    String mends =
        step.outcomes().stream()
            .filter(outcome -> outcome.result() == Result.ALL_RIGHT)
            .findFirst()
            .filter(outcome -> sequel(d, step).isEmpty())
            .map(outcome -> "; all is right then: " + inTen(outcome.probability()))
            .orElse("");
    String seeFirst =
        d.causes().stream()
            .limit(1)
            .flatMap(cause -> seen(cause).stream())
            .filter(d.onlyTold()::contains)
            .map(finding -> "see it yourself first: " + vocabulary.symptom(finding).name() + "; ")
            .findFirst()
            .orElse("");
    return seeFirst + vocabulary.name(step.id()) + minutes + mends;
  }

  /** What follows where the step does not settle it. */
  private Optional<String> otherwise(Diagnosis d, Step step) {
    Optional<String> sequel = step.kind() == StepKind.CHECK ? sameFor(step) : sequel(d, step);
    if (sequel.isPresent()) {
      return sequel.map(next -> "then: " + doing(next));
    }
    Map<String, List<Outcome>> ways = new LinkedHashMap<>();
    step.outcomes().stream()
        .filter(outcome -> outcome.next().isPresent() && outcome.result() != Result.ALL_RIGHT)
        .sorted(Comparator.comparingDouble(outcome -> -outcome.probability()))
        .forEach(
            outcome ->
                ways.computeIfAbsent(outcome.next().get(), next -> new ArrayList<>()).add(outcome));
    return ways.isEmpty()
        ? Optional.empty()
        : Optional.of(
            ways.entrySet().stream()
                .limit(WAYS_SHOWN)
                .sorted(Comparator.comparing(way -> way.getValue().stream().anyMatch(NOTHING)))
                .map(way -> "if " + when(step, way.getValue()) + ": " + doing(way.getKey()))
                .collect(Collectors.joining("; ")));
  }

  /** The look found nothing: said last, after what it may find. */
  private static final Predicate<Outcome> NOTHING = outcome -> outcome.result() == Result.ABSENT;

  private String when(Step step, List<Outcome> outcomes) {
    return outcomes.stream()
        .sorted(Comparator.comparing(NOTHING::test))
        .map(outcome -> when(step, outcome))
        .distinct()
        .collect(Collectors.joining(" or "));
  }

  /** What follows a look whatever it finds. */
  private static Optional<String> sameFor(Step step) {
    Set<String> following =
        step.outcomes().stream()
            .flatMap(outcome -> outcome.next().stream())
            .collect(Collectors.toSet());
    return following.size() == 1 ? following.stream().findFirst() : Optional.empty();
  }

  /** What follows a work in any case, since more is likely wrong than it mends. */
  private static Optional<String> sequel(Diagnosis d, Step step) {
    boolean two = d.causes().stream().filter(cause -> cause.probability() > EVEN).count() > 1;
    return step.outcomes().stream()
        .filter(outcome -> outcome.result() == Result.NOT_ALL_RIGHT)
        .filter(outcome -> two && outcome.probability() > EVEN)
        .flatMap(outcome -> outcome.next().stream())
        .findFirst();
  }

  private String when(Step step, Outcome outcome) {
    boolean several = step.looks().size() > 1;
    return switch (outcome.result()) {
      case PRESENT -> several ? vocabulary.name(outcome.symptom()) : "there";
      case ABSENT -> several ? "none of it" : "not there";
      case ALL_RIGHT, NOT_ALL_RIGHT -> "not";
    };
  }

  private String doing(String step) {
    return vocabulary.symptoms().containsKey(step)
        ? vocabulary.inQuestion(step)
        : vocabulary.name(step);
  }

  /** The cautions of the step at hand, and those that hold whatever is done. */
  private String mind(Diagnosis d) {
    Set<String> ids = new LinkedHashSet<>(d.cautions());
    d.firstStep()
        .ifPresent(
            step -> {
              ids.removeIf(id -> !ALWAYS.contains(id) && !step.cautions().contains(id));
            });
    return ids.stream()
        .map(id -> vocabulary.caution(id).inShort())
        .collect(Collectors.joining("; "));
  }

  private static final Set<String> ALWAYS =
      Set.of("maker-first", "acceptance-first", "not-sure-ask", "hot-rotor");

  private String heardWords(Diagnosis d, Heard heard) {
    String denied = deniedBy(d, heard);
    return new HeardReport(vocabulary).oneLine(heard)
        + (denied.isEmpty() ? "" : "; found otherwise: " + denied);
  }

  /** What was claimed, and the case file says the opposite. */
  private String deniedBy(Diagnosis d, Heard heard) {
    return heard.findings().stream()
        .filter(each -> each.certainty() == Certainty.PRESENT)
        .map(each -> each.symptom())
        .filter(symptom -> Boolean.FALSE.equals(d.findings().get(symptom)))
        .map(symptom -> vocabulary.symptom(symptom).name())
        .collect(Collectors.joining(", "));
  }

  private Optional<String> notYet(Diagnosis d) {
    return d.next().stream()
        .filter(step -> !step.open() && step.kind() == StepKind.WORK)
        .filter(step -> !step.id().equals(Diagnosis.HAND_BACK))
        // What the plan comes to anyway says what it mends, not what it waits for.
        .filter(step -> step.outcomes().isEmpty())
        .findFirst()
        .map(step -> vocabulary.name(step.id()) + ": " + step.why());
  }

  /** What the customer may say, or where nothing was understood what to look at. */
  private Optional<String> ask(Diagnosis d, boolean unread) {
    if (unread) {
      String looks =
          d.next().stream()
              .filter(step -> step.open() && step.kind() == StepKind.CHECK)
              .map(step -> vocabulary.lookFor(step.id(), step.looks().size() > 1))
              .limit(OTHERS + 1L)
              .collect(Collectors.joining("; "));
      return Optional.of("what tells most: " + looks);
    }
    String asked =
        d.next().stream()
            .filter(step -> step.open() && step.kind() == StepKind.CHECK)
            .map(step -> vocabulary.symptoms().get(step.id()))
            .filter(symptom -> symptom.kind() == CheckKind.ASK)
            .map(Vocabulary.Symptom::name)
            .limit(OTHERS)
            .collect(Collectors.joining(", "));
    return asked.isEmpty() ? Optional.empty() : Optional.of("the customer: " + asked + "?");
  }

  /** Something was left aside, or nothing is certain: whoever reads on must know. */
  private static boolean notAllClear(Heard heard) {
    boolean certain =
        !heard.history().isEmpty()
            || heard.findings().stream().anyMatch(each -> each.certainty() != Certainty.UNSURE);
    return !certain || !heard.unheard().isEmpty() || !heard.elsewhere().isEmpty();
  }

  private static boolean nothingKnown(Heard heard) {
    return heard.findings().isEmpty() && heard.history().isEmpty();
  }
}
