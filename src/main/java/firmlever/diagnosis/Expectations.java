package firmlever.diagnosis;

import firmlever.casefile.CaseFile.Expectation;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Concluded;
import firmlever.diagnosis.Diagnosis.Step;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Compares a diagnosis with what a case expects. */
public final class Expectations {
  private Expectations() {}

  private static final double LIKELY = 0.5;
  private static final double UNLIKELY = 0.25;

  /** Every expectation that the diagnosis misses, each as a sentence; none where all are met. */
  public static List<String> missed(Expectation expected, Diagnosis d) {
    List<String> missed = new ArrayList<>();
    if (!expected.first().isEmpty() && !expected.first().contains(d.first())) {
      missed.add("first should be " + any(expected.first()) + ", is " + leaders(d));
    }
    List<String> leading = d.causes().stream().limit(3).map(CauseBelief::id).toList();
    for (String cause : expected.top3()) {
      if (!leading.contains(cause)) {
        missed.add(cause + " should be among the first three, which are " + leaders(d));
      }
    }
    for (String cause : expected.likely()) {
      if (probability(d, cause) < LIKELY) {
        missed.add(cause + " should be likely, is " + number(probability(d, cause)));
      }
    }
    for (String cause : expected.not()) {
      if (d.first().equals(cause) || probability(d, cause) >= UNLIKELY) {
        missed.add(cause + " should be unlikely, is " + number(probability(d, cause)));
      }
    }
    for (String cause : expected.impossible()) {
      if (d.impossible().stream().noneMatch(each -> each.cause().equals(cause))) {
        missed.add(cause + " should be impossible here");
      }
    }
    steps(expected, d, missed);
    expected
        .stopRide()
        .filter(stop -> stop != d.stopRide())
        .ifPresent(stop -> missed.add("stop-ride should be " + stop));
    if (!expected.ride().isEmpty() && !expected.ride().equals(d.ride().verdict().id())) {
      missed.add("ride should be " + expected.ride() + ", is " + d.ride().verdict().id());
    }
    for (String finding : expected.forbids()) {
      if (d.hazards().stream().noneMatch(each -> each.symptom().equals(finding))) {
        missed.add(finding + " should forbid riding");
      }
    }
    for (String look : expected.notLooked()) {
      if (!d.ride().notLooked().contains(look)) {
        missed.add(look + " should have to be looked for before riding");
      }
    }
    expected.symptoms().forEach((symptom, presence) -> symptom(symptom, presence, d, missed));
    expected
        .contradictory()
        .filter(expects -> expects == d.contradictions().isEmpty())
        .ifPresent(
            expects -> missed.add("the findings should " + (expects ? "" : "not ") + "contradict"));
    for (String caution : expected.cautions()) {
      if (!d.cautions().contains(caution)) {
        missed.add("the caution " + caution + " should be given");
      }
    }
    return missed;
  }

  private static void steps(Expectation expected, Diagnosis d, List<String> missed) {
    String first = d.firstStep().map(Step::id).orElse("nothing");
    List<String> looks = d.firstStep().map(Step::looks).orElse(List.of());
    boolean met =
        expected.next().contains(first) || looks.stream().anyMatch(expected.next()::contains);
    if (!expected.next().isEmpty() && !met) {
      missed.add("the first step should be " + any(expected.next()) + ", is " + first);
    }
    for (String action : expected.notNext()) {
      if (step(d, action).filter(Step::open).isPresent()) {
        missed.add(action + " should not be open yet");
      }
    }
    for (String action : expected.blocked()) {
      if (step(d, action).filter(step -> !step.open()).isEmpty()) {
        missed.add(action + " should be listed as waiting");
      }
    }
  }

  private static void symptom(String symptom, Presence presence, Diagnosis d, List<String> missed) {
    Optional<Concluded> concluded =
        d.concluded().stream().filter(each -> each.symptom().equals(symptom)).findFirst();
    if (concluded.isEmpty() || concluded.get().present() != (presence == Presence.PRESENT)) {
      missed.add(
          symptom
              + " should be concluded "
              + presence.name().toLowerCase(Locale.ROOT)
              + ", is "
              + concluded
                  .map(each -> each.present() ? "present" : "absent")
                  .orElse("not concluded"));
    }
  }

  private static Optional<Step> step(Diagnosis d, String action) {
    return d.next().stream().filter(step -> step.id().equals(action)).findFirst();
  }

  private static double probability(Diagnosis d, String cause) {
    return d.cause(cause).map(CauseBelief::probability).orElse(0.0);
  }

  private static String leaders(Diagnosis d) {
    return d.causes().stream()
            .limit(3)
            .map(cause -> cause.id() + " " + number(cause.probability()))
            .collect(Collectors.joining(", "))
        + ", no fault "
        + number(d.noFaultFound());
  }

  private static String any(List<String> ids) {
    return String.join(" or ", ids);
  }

  private static String number(double probability) {
    return String.format(Locale.ROOT, "%.2f", probability);
  }
}
