package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.WearLimit;
import firmlever.vocabulary.Brings;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.List;

/**
 * A part that was worn out by its own measure before anything else befell it, so that the claimant
 * bears a new one whatever other faults have done to it.
 *
 * @param cause id of the fault that was decided as wear
 * @param part id of the part
 * @param measuredMm the thinnest that was measured, in mm
 * @param limit what it lies below
 * @param others ids of the faults found that harm such a part too
 */
public record DueAnyway(
    String cause, String part, double measuredMm, WearLimit limit, List<String> others) {

  /** The parts of a claim that are due by the readings, each once for each fault it is due for. */
  static List<DueAnyway> of(
      CaseFile file, Policy policy, List<Matter> matters, Vocabulary vocabulary, Brings brings) {
    List<DueAnyway> due = new ArrayList<>();
    for (Matter matter : matters) {
      for (Decision decision : matter.decisions()) {
        if (decision.clause().kind() == Clause.Kind.WEAR
            && decision.probability() >= policy.consider()
            && matter.result().pays() == Payer.CLAIMANT) {
          String part = vocabulary.cause(decision.cause()).part();
          WearLimit limit =
              part.equals("pads")
                  ? WearLimit.ofPads(file.brake())
                  : WearLimit.ofRotor(file.brake());
          limit.below(thicknesses(file, part)).stream()
              .min(Double::compare)
              .ifPresent(
                  least ->
                      due.add(
                          new DueAnyway(
                              decision.cause(),
                              part,
                              least,
                              limit,
                              harming(part, decision, matters, vocabulary, brings))));
        }
      }
    }
    return List.copyOf(due);
  }

  private static List<Double> thicknesses(CaseFile file, String part) {
    return switch (part) {
      case "pads" -> file.readings().padThicknessesMm();
      case "rotor" ->
          Double.isNaN(file.readings().rotorThicknessMm())
              ? List.of()
              : List.of(file.readings().rotorThicknessMm());
      default -> List.of();
    };
  }

  /** The leading faults of the claim, other than this one, that bring a fault of the same part. */
  private static List<String> harming(
      String part, Decision worn, List<Matter> matters, Vocabulary vocabulary, Brings brings) {
    return matters.stream()
        .flatMap(matter -> matter.decisions().stream().limit(1))
        .map(Decision::cause)
        .filter(by -> !by.equals(worn.cause()))
        .filter(
            by ->
                vocabulary.causes().values().stream()
                    .filter(brought -> brought.part().equals(part))
                    .anyMatch(brought -> !brings.why(by, brought.id()).isEmpty()))
        .distinct()
        .toList();
  }
}
