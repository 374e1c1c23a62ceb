package firmlever.warranty;

import firmlever.belief.Network;
import firmlever.casefile.CaseFile.Claim;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Which causes a claim speaks of: those in the part claimed, or that show the complaint. */
final class Scope {
  private Scope() {}

  private static final Set<String> IN_LEVER =
      Set.of("lever", "lever-seals", "diaphragm", "reservoir-lid", "port-screw");
  private static final Set<String> IN_CALIPER =
      Set.of("caliper", "caliper-seals", "pistons", "port-screw");
  private static final Set<String> IN_BRAKE =
      Set.of(
          "brake",
          "lever",
          "lever-seals",
          "diaphragm",
          "reservoir-lid",
          "port-screw",
          "caliper",
          "caliper-seals",
          "pistons",
          "hose",
          "hose-end-parts",
          "fluid");

  /** The parts that are sold and fitted as one, with all that is in them (common practice). */
  private static final Map<String, Set<String>> HOLDS =
      Map.of("lever", IN_LEVER, "caliper", IN_CALIPER, "brake", IN_BRAKE);

  /**
   * Whether the part a cause sits in is the other part, or in it. A fault of the whole brake, such
   * as wrong fluid, is one of every part that fluid reaches.
   */
  static boolean within(String part, String whole) {
    return HOLDS.getOrDefault(whole, Set.of(whole)).contains(part)
        || part.equals("brake") && IN_BRAKE.contains(whole);
  }

  /** Positions of the causes the claim speaks of; all where it names nothing. */
  static List<Integer> of(Claim claim, Network network, Vocabulary vocabulary) {
    List<Integer> scope = new ArrayList<>();
    int symptom = network.symptoms().indexOf(claim.complaint());
    for (int i = 0; i < network.causes().size(); i++) {
      String cause = network.causes().get(i);
      boolean claimed =
          !claim.cause().isEmpty()
              ? cause.equals(claim.cause())
              : !claim.part().isEmpty()
                  ? within(vocabulary.cause(cause).part(), claim.part())
                  : claim.complaint().isEmpty()
                      || symptom >= 0 && network.strength()[i][symptom] > 0;
      if (claimed) {
        scope.add(i);
      }
    }
    return scope;
  }
}
