package firmlever.jobcard;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heeding.Heeded;
import firmlever.hearing.language.Certainty;
import firmlever.jobcard.Verdict.Checked;
import firmlever.jobcard.Verdict.Result;
import firmlever.jobcard.Verdict.Shift;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.Contradiction;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Acceptance;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Says after a work whether the brake goes back. The case holds what was found after the work; the
 * works of this visit are those on record for the day on which the case was opened.
 */
public final class Acceptor {
  private static final String ADVICE = "advice";
  private static final int SHIFTS = 4;
  private static final int STEPS = 2;

  private final Vocabulary vocabulary;
  private final RuleBase rules;
  private final Diagnostician diagnostician;
  private final JobCards cards;
  private final List<Acceptance> acceptance;

  public Acceptor(
      Vocabulary vocabulary, RuleBase rules, Diagnostician diagnostician, JobCards cards) {
    this.vocabulary = vocabulary;
    this.rules = rules;
    this.diagnostician = diagnostician;
    this.cards = cards;
    this.acceptance = Acceptance.builtIn(vocabulary);
  }

  /**
   * Judges a case after its work.
   *
   * @param heeded the same case with what its complaint was heard to say: what a work has mended no
   *     cause explains any more, but where nothing was done the complaint is as it was
   */
  public Verdict judge(CaseFile file, Heeded heeded) {
    BrakeModel model = rules.consult(file);
    Diagnosis diagnosis = diagnostician.diagnose(file, model, Options.BARE);
    List<Entry> visit = visit(file);
    List<String> works = visit.stream().map(Entry::work).distinct().toList();
    List<Acceptance> made =
        acceptance.stream()
            .filter(
                each -> each.after().isEmpty() || each.after().stream().anyMatch(works::contains))
            .toList();
    List<Checked> checks = made.stream().map(each -> check(each, file, model, visit)).toList();
    Set<String> failing = new LinkedHashSet<>();
    made.forEach(each -> each.failsOn().stream().filter(present(model)).forEach(failing::add));
    List<String> holds = holds(model, diagnosis, works, failing, made);
    Diagnosis untouched =
        works.isEmpty() ? diagnostician.diagnose(heeded, Options.BARE) : diagnosis;
    untouched.kept().ifPresent(holds::add);
    holds.addAll(leftUndone(file, heeded, model, works));
    List<String> failed =
        works.stream().filter(work -> shouldHaveMended(model, work, failing)).toList();
    CaseFile inVain = inVain(file, visit, failed);
    Diagnosis now = failed.isEmpty() ? untouched : diagnostician.diagnose(inVain, Options.BARE);
    boolean bad = !holds.isEmpty() || checks.stream().anyMatch(c -> c.result() == Result.FAILED);
    return new Verdict(
        file.id(),
        diagnosis.brake(),
        works,
        checks,
        holds,
        failed,
        failed.isEmpty() ? List.of() : shifts(diagnosis, now),
        bad
            ? now.next().stream()
                .filter(step -> step.open() && !step.id().equals(Diagnosis.HAND_BACK))
                .limit(STEPS)
                .toList()
            : List.of());
  }

  /** The works of this visit: those of the day on which the case was opened. */
  private static List<Entry> visit(CaseFile file) {
    return file.history().stream()
        .filter(entry -> !entry.work().isEmpty())
        .filter(entry -> entry.daysAgo().orElse(-1) == 0)
        .toList();
  }

  private Checked check(Acceptance each, CaseFile file, BrakeModel model, List<Entry> visit) {
    List<String> doubts =
        model.contradictions().stream()
            .filter(doubt -> bearsOn(doubt, each))
            .map(doubt -> "findings contradict each other: " + doubt.said().why())
            .toList();
    if (!doubts.isEmpty()) {
      return checked(each, Result.FAILED, String.join("; ", doubts));
    }
    List<String> failing =
        vocabulary.finest(each.failsOn().stream().filter(present(model)).toList());
    if (!failing.isEmpty()) {
      return checked(each, Result.FAILED, said(model, failing));
    }
    List<String> untightened = each.torque() ? withoutTorque(file, model, visit) : List.of();
    if (!untightened.isEmpty()) {
      return checked(
          each, Result.NOT_MADE, "no torque is on record for: " + String.join(", ", untightened));
    }
    boolean byWork = visit.stream().anyMatch(entry -> each.works().contains(entry.work()));
    boolean tightened =
        each.torque()
            && visit.stream()
                .anyMatch(entry -> !cards.torques(file, model, entry.work()).isEmpty());
    if (byWork || tightened) {
      return checked(
          each, Result.PASSED, tightened ? "the torque is on record" : "the work is on record");
    }
    List<String> open =
        each.clear().stream()
            .filter(symptom -> !model.findings().containsKey(symptom))
            .map(vocabulary::name)
            .toList();
    if (each.clear().isEmpty() || !open.isEmpty()) {
      return checked(
          each,
          Result.NOT_MADE,
          each.clear().isEmpty()
              ? "no such work is on record"
              : "not noted yet: " + String.join(", ", open));
    }
    return checked(each, Result.PASSED, said(model, each.clear()));
  }

  /** Whether what the check goes by is said both ways. */
  private static boolean bearsOn(Contradiction doubt, Acceptance check) {
    return doubt.symptoms().stream()
        .anyMatch(symptom -> check.failsOn().contains(symptom) || check.clear().contains(symptom));
  }

  private static Checked checked(Acceptance each, Result result, String why) {
    return new Checked(each.id(), each.name(), result, why, each.how());
  }

  private static Predicate<String> present(BrakeModel model) {
    return symptom ->
        model.findings().containsKey(symptom) && model.findings().get(symptom).present();
  }

  /** The findings in words, with what shows them where a reading does. */
  private String said(BrakeModel model, List<String> symptoms) {
    List<String> said = new ArrayList<>();
    for (String symptom : symptoms) {
      Known known = requireNonNull(model.findings().get(symptom));
      said.add(
          vocabulary.symptom(symptom).said(known.present())
              + (known.recorded() ? "" : " (" + known.said().why() + ")"));
    }
    return String.join("; ", said);
  }

  private List<String> withoutTorque(CaseFile file, BrakeModel model, List<Entry> visit) {
    return visit.stream()
        .filter(entry -> Double.isNaN(entry.torqueNm()))
        .filter(entry -> !cards.torques(file, model, entry.work()).isEmpty())
        .map(
            entry ->
                vocabulary.name(entry.work())
                    + " ("
                    + String.join(", ", cards.torques(file, model, entry.work()))
                        .toLowerCase(java.util.Locale.ROOT)
                    + ")")
        .distinct()
        .toList();
  }

  private List<String> holds(
      BrakeModel model,
      Diagnosis diagnosis,
      List<String> works,
      Set<String> failing,
      List<Acceptance> made) {
    List<String> holds = new ArrayList<>();
    boolean nothingToMend =
        diagnosis.firstStep().map(step -> step.id().equals(Diagnosis.HAND_BACK)).orElse(false);
    if (works.isEmpty() && !nothingToMend) {
      holds.add(
          "no work of this visit is on record: write it into the history with \"days-ago\": 0");
    }
    // Without a stop, the only findings named are those that contradict each other: see below.
    diagnosis.ride().because().stream()
        .filter(each -> diagnosis.stopRide() || each.isCause())
        .filter(each -> !failing.contains(each.id()))
        .forEach(each -> holds.add(vocabulary.name(each.id()) + ": " + each.why()));
    Set<String> checked =
        made.stream().flatMap(each -> each.clear().stream()).collect(Collectors.toSet());
    model.unlooked().stream()
        .filter(look -> !checked.contains(look.symptom()))
        .forEach(
            look ->
                holds.add(
                    vocabulary.name(look.symptom()) + " was not looked for: " + look.said().why()));
    model.contradictions().stream()
        .filter(doubt -> made.stream().noneMatch(check -> bearsOn(doubt, check)))
        .forEach(doubt -> holds.add("findings contradict each other: " + doubt.said().why()));
    return holds;
  }

  /**
   * What the customer told of that nothing at the stand has settled and no work of the visit mends.
   * Telling the rider something mends no brake.
   */
  private List<String> leftUndone(
      CaseFile file, Heeded heeded, BrakeModel model, List<String> works) {
    if (works.isEmpty()) {
      return List.of();
    }
    List<String> mending =
        works.stream()
            .filter(vocabulary.actions()::containsKey)
            .filter(work -> !vocabulary.action(work).group().equals(ADVICE))
            .toList();
    return heeded.heard().stream()
        .flatMap(heard -> heard.findings().stream())
        .filter(each -> each.certainty() == Certainty.PRESENT)
        .map(Finding::symptom)
        .filter(vocabulary.symptoms()::containsKey)
        .filter(symptom -> !file.symptoms().containsKey(symptom))
        .filter(symptom -> !model.findings().containsKey(symptom))
        .filter(
            symptom ->
                mending.stream().noneMatch(work -> shouldHaveMended(model, work, Set.of(symptom))))
        .map(
            symptom ->
                "nothing done today mends what the customer told of: "
                    + vocabulary.symptom(symptom).name())
        .toList();
  }

  /** Whether the work mends a cause that mostly shows one of these symptoms. */
  private static boolean shouldHaveMended(BrakeModel model, String work, Set<String> failing) {
    return model.mends().getOrDefault(work, Map.of()).keySet().stream()
        .map(cause -> model.links().getOrDefault(cause, Map.of()))
        .anyMatch(
            links ->
                failing.stream()
                    .anyMatch(
                        symptom ->
                            Optional.ofNullable(links.get(symptom))
                                .map(link -> link.word().probability() >= 0.5)
                                .orElse(false)));
  }

  /**
   * The case with these works of the visit on record as unchanged, unless their outcome is told.
   */
  private static CaseFile inVain(CaseFile file, List<Entry> visit, List<String> works) {
    List<Entry> history =
        file.history().stream()
            .map(
                entry ->
                    visit.contains(entry)
                            && works.contains(entry.work())
                            && entry.outcome().equals("unknown")
                        ? new Entry(
                            entry.daysAgo(),
                            entry.work(),
                            entry.event(),
                            entry.fluid(),
                            entry.by(),
                            entry.torqueNm(),
                            entry.parts(),
                            entry.lot(),
                            "unchanged",
                            entry.circumstances(),
                            entry.note())
                        : entry)
            .toList();
    return file.with(file.symptoms(), file.onlyTold(), history);
  }

  private static List<Shift> shifts(Diagnosis before, Diagnosis now) {
    return now.causes().stream()
        .limit(SHIFTS)
        .map(
            cause ->
                new Shift(
                    cause.id(),
                    before.cause(cause.id()).map(CauseBelief::probability).orElse(0.0),
                    cause.probability()))
        .toList();
  }
}
