package firmlever.belief;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Exact inference in a {@link Network}.
 *
 * <p>Absent findings leave the causes independent and cost next to nothing. The others are solved
 * with a table over "which of them are explained so far", to which one cause after the other is
 * added, forwards and backwards. Every term is a product of probabilities and every step a sum, so
 * nothing can cancel, unlike in the inclusion-exclusion sum of Heckerman's Quickscore (UAI 1989). A
 * finding is in the table only while causes that bear on it are being added ({@link CauseOrder}).
 * Symptoms that share no cause that is still possible are solved apart.
 */
public final class Inference {
  private Inference() {}

  /**
   * The belief after what was observed.
   *
   * @param posterior probability of each cause
   * @param logOdds natural log odds of each cause: finite even where its probability rounds to 1
   * @param noFault probability that none is present
   * @param logEvidence natural log of the probability of the observations
   */
  public record Posterior(
      double[] posterior, double[] logOdds, double noFault, double logEvidence) {
    /** Posterior log odds of cause {@code i}. */
    public double logOdds(int i) {
      return logOdds[i];
    }

    /**
     * The likelier cause first; as equals those that differ by no more than the order in which sums
     * were made.
     */
    public Comparator<Integer> likelierFirst() {
      return Comparator.comparingDouble(i -> -Math.rint(posterior[i] * A_TRILLION));
    }
  }

  private static final double A_TRILLION = 1e12;

  /**
   * Solves the network for the observations, each of another symptom.
   *
   * @throws TooManySymptoms where that alone is more work than one answer may cost
   */
  public static Posterior solve(Network network, List<Observation> observations) {
    return solve(network, observations, Elimination.of(network, observations));
  }

  /**
   * The same for one of many networks of one shape.
   *
   * @param shape of a network in which the same causes may be present and show the same symptoms,
   *     however often, or more do
   */
  public static Posterior solve(
      Network network, List<Observation> observations, Elimination shape) {
    WorkBudget budget = WorkBudget.ofOneAnswer();
    long limit = budget.left();
    if (!budget.take(shape.work())) {
      throw new TooManySymptoms(network, observations, some -> work(network, some), limit);
    }
    return solved(network, new Apart(network, observations), shape);
  }

  /** Solves the network if that fits into the budget, and takes the work out of it. */
  public static Optional<Posterior> solve(
      Network network, List<Observation> observations, WorkBudget budget) {
    Apart apart = new Apart(network, observations);
    Elimination shape = Elimination.of(network, apart);
    return budget.take(shape.work())
        ? Optional.of(solved(network, apart, shape))
        : Optional.empty();
  }

  private static Posterior solved(Network network, Apart apart, Elimination shape) {
    double logEvidence = apart.logEvidence;
    double logNoFault = apart.logNoFault;
    for (Elimination.Part part : shape.together) {
      Table table = new Table(network, part.layout(), apart.posterior);
      logEvidence += table.solve(apart.posterior, apart.logOdds);
      for (Observation seen : part.seen) {
        double background = network.background()[seen.symptom()];
        logNoFault += Math.log(background * seen.ifPresent() + (1 - background) * seen.ifAbsent());
      }
    }
    return new Posterior(
        apart.posterior, apart.logOdds, Math.exp(logNoFault - logEvidence), logEvidence);
  }

  /** Work of {@link #solve}, in the unit of {@link WorkBudget}. */
  public static long work(Network network, List<Observation> observations) {
    return Elimination.of(network, observations).work();
  }
}
