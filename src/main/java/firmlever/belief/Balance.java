package firmlever.belief;

import java.util.ArrayList;
import java.util.List;

/**
 * Weights of evidence: by how much each observation moves the log odds of each cause (Good; as a
 * balance of for and against: Spiegelhalter and Knill-Jones, J. R. Statist. Soc. A 147, 1984).
 *
 * <p>Observations are weighed one after the other in a fixed order: the clearly absent ones first,
 * then the others, each group in the order given. So prior log odds plus weights are the posterior
 * log odds, exactly. Beside it stands what the observation would weigh alone; where it weighs less
 * than alone, another cause explains it away.
 */
public final class Balance {
  private Balance() {}

  /**
   * The weights of one observation.
   *
   * @param weight change of the log odds of each cause
   * @param alone change it would make if nothing else were known
   */
  public record Weighed(Observation observation, double[] weight, double[] alone) {}

  /** The observations in the order in which they are weighed. */
  static List<Observation> inOrder(List<Observation> observations) {
    List<Observation> order = new ArrayList<>();
    observations.stream().filter(Observation::clearlyAbsent).forEach(order::add);
    observations.stream().filter(seen -> !seen.clearlyAbsent()).forEach(order::add);
    return order;
  }

  /** Work of {@link #weigh} and of the posterior it needs, in the unit of {@link WorkBudget}. */
  public static long work(Network network, List<Observation> observations) {
    List<Observation> order = inOrder(observations);
    long work = order.isEmpty() ? Inference.work(network, order) : 0;
    for (int k = 0; k < order.size(); k++) {
      if (k + 1 == order.size() || !order.get(k).clearlyAbsent()) {
        work += Inference.work(network, order.subList(0, k + 1));
      }
    }
    return work;
  }

  /**
   * Weighs all observations for all causes.
   *
   * @param posterior after all the observations
   */
  public static List<Weighed> weigh(
      Network network, List<Observation> observations, Inference.Posterior posterior) {
    int n = network.causes().size();
    List<Observation> order = inOrder(observations);
    List<Weighed> weighed = new ArrayList<>();
    double[] before = network.priorLogOdds().clone();
    for (int k = 0; k < order.size(); k++) {
      Observation seen = order.get(k);
      double[] weight = new double[n];
      if (seen.clearlyAbsent()) {
        for (int i = 0; i < n; i++) {
          weight[i] = Math.log1p(-network.strength()[i][seen.symptom()]);
          before[i] += weight[i];
        }
      } else {
        Inference.Posterior after =
            k + 1 == order.size() ? posterior : Inference.solve(network, order.subList(0, k + 1));
        for (int i = 0; i < n; i++) {
          double logOdds = after.logOdds(i);
          weight[i] = logOdds - before[i];
          before[i] = logOdds;
        }
      }
      weighed.add(new Weighed(seen, weight, SingleWeight.of(network, seen)));
    }
    return weighed;
  }
}
