package firmlever.warranty.belief;

import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.casefile.CaseFile;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What the one who closed the case confirmed, as evidence: strong where one of the shop's own
 * people signed it, weak from anyone else, and never more than evidence.
 *
 * @param causes ids of the causes confirmed; none where nothing wrong was found
 * @param own whether one of the shop's own people signed it
 */
public record Confirmation(Set<String> causes, boolean own) {
  /**
   * How often the person who closes a case names a cause that was not there: one in a hundred of
   * the shop's own people, who did the acceptance by the sheet; one in eight of others (from
   * memory).
   */
  private static final double NAMED_FALSELY_OWN = 0.01;

  private static final double NAMED_FALSELY_OTHERS = 0.12;

  /** How often a person who looks for everything misses a fault (from memory). */
  private static final double OVERLOOKED_OWN = 0.1;

  private static final double OVERLOOKED_OTHERS = 0.4;

  /** A likelihood this near to one is as good as one. */
  private static final double NAMED = 0.95;

  /** The closed case says how it was confirmed; empty where it does not. */
  public static Optional<Confirmation> of(CaseFile file, Policy policy) {
    return file.outcome()
        .filter(outcome -> !outcome.confirmed().isEmpty())
        .filter(outcome -> outcome.causes().isEmpty() || !outcome.works().isEmpty())
        .map(
            outcome ->
                new Confirmation(
                    Set.copyOf(outcome.causes()), policy.technicians().contains(outcome.by())));
  }

  /** Who says so, in words. */
  public String spoken() {
    return own
        ? "what this shop confirmed when it closed the case"
        : "what others say they confirmed";
  }

  /** The network with one symptom more for each thing that was confirmed. */
  public Network added(Network network) {
    int n = network.causes().size();
    int many = causes.isEmpty() ? 1 : causes.size();
    int before = network.symptoms().size();
    List<String> symptoms = new ArrayList<>(network.symptoms());
    double[] background = Arrays.copyOf(network.background(), before + many);
    double[][] strength = new double[n][];
    for (int i = 0; i < n; i++) {
      strength[i] = Arrays.copyOf(network.strength()[i], before + many);
    }
    if (causes.isEmpty()) {
      symptoms.add("something-found");
      background[before] = NAMED_FALSELY_OWN;
      for (double[] each : strength) {
        each[before] = 1 - (own ? OVERLOOKED_OWN : OVERLOOKED_OTHERS);
      }
    } else {
      List<String> named = causes.stream().sorted().toList();
      for (int k = 0; k < many; k++) {
        symptoms.add("confirmed-" + named.get(k));
        background[before + k] = own ? NAMED_FALSELY_OWN : NAMED_FALSELY_OTHERS;
        int i = network.causes().indexOf(named.get(k));
        if (i >= 0) {
          strength[i][before + k] = NAMED;
        }
      }
    }
    return new Network(network.causes(), network.priorLogOdds(), symptoms, background, strength);
  }

  /** What is seen of those symptoms, in the network they were added to. */
  public List<Observation> seen(Network added) {
    int many = causes.isEmpty() ? 1 : causes.size();
    int first = added.symptoms().size() - many;
    List<Observation> seen = new ArrayList<>();
    for (int k = 0; k < many; k++) {
      seen.add(causes.isEmpty() ? Observation.absent(first + k) : Observation.present(first + k));
    }
    return seen;
  }
}
