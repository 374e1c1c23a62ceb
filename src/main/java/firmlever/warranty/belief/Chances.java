package firmlever.warranty.belief;

import firmlever.belief.Elimination;
import firmlever.belief.Inference;
import firmlever.belief.Inference.Posterior;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * The chance that at least one of several causes is present, after what was seen: the chances of
 * causes that come to the same add, exactly, however they compete.
 */
public final class Chances {
  private final Network network;
  private final List<Observation> seen;
  private final Elimination shape;
  private final Posterior posterior;
  private final Map<Set<Integer>, Double> noneOf = new HashMap<>();

  public Chances(Network network, List<Observation> seen, Elimination shape, Posterior posterior) {
    this.network = network;
    this.seen = seen;
    this.shape = shape;
    this.posterior = posterior;
  }

  /** Probability of one of them or more; 0 for none at all. */
  public double anyOf(Set<Integer> causes) {
    return 1 - noneOf(causes);
  }

  /** Probability that none of them is present. */
  public double noneOf(Set<Integer> causes) {
    if (causes.isEmpty()) {
      return 1;
    }
    if (causes.size() == 1) {
      return 1 - posterior.posterior()[causes.iterator().next()];
    }
    return noneOf.computeIfAbsent(new TreeSet<>(causes), this::solved);
  }

  /** The evidence without those causes, over the evidence with them (Bayes). */
  private double solved(Set<Integer> causes) {
    double[] priors = network.priorLogOdds().clone();
    double without = 0;
    for (int i : causes) {
      without += Math.log1p(-network.prior(i));
      priors[i] = Double.NEGATIVE_INFINITY;
    }
    Network fewer =
        new Network(
            network.causes(), priors, network.symptoms(), network.background(), network.strength());
    double evidence = Inference.solve(fewer, seen, shape).logEvidence();
    return Math.min(1, Math.exp(without + evidence - posterior.logEvidence()));
  }
}
