package firmlever.belief;

import java.util.ArrayList;
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
  }

  /** Making ready for a solve takes as long as so many visits. */
  private static final long MAKING_READY = 30_000;

  /**
   * Solves the network for the observations, each of another symptom.
   *
   * @throws TooManySymptoms where that alone is more work than one answer may cost
   */
  public static Posterior solve(Network network, List<Observation> observations) {
    WorkBudget budget = WorkBudget.ofOneAnswer();
    long limit = budget.left();
    return solve(network, observations, budget)
        .orElseThrow(
            () -> new TooManySymptoms(network, observations, some -> work(network, some), limit));
  }

  /** Solves the network if that fits into the budget, and takes the work out of it. */
  public static Optional<Posterior> solve(
      Network network, List<Observation> observations, WorkBudget budget) {
    Parts parts = new Parts(network, observations);
    return budget.take(parts.work()) ? Optional.of(solve(network, parts)) : Optional.empty();
  }

  private static Posterior solve(Network network, Parts parts) {
    double[] posterior = parts.posterior;
    double[] logOdds = parts.logOdds;
    double logEvidence = parts.logEvidence;
    double logNoFault = parts.logNoFault;
    for (Part part : parts.together) {
      Table table = new Table(network, part.seen(), posterior, part.order());
      logEvidence += table.solve(posterior, logOdds);
      for (Observation seen : part.seen()) {
        double background = network.background()[seen.symptom()];
        logNoFault += Math.log(background * seen.ifPresent() + (1 - background) * seen.ifAbsent());
      }
    }
    return new Posterior(posterior, logOdds, Math.exp(logNoFault - logEvidence), logEvidence);
  }

  /** Work of {@link #solve}, in the unit of {@link WorkBudget}. */
  public static long work(Network network, List<Observation> observations) {
    return new Parts(network, observations).work();
  }

  /** The observations not clearly absent, as parts that hang together. */
  static List<List<Observation>> parts(Network network, List<Observation> observations) {
    return new Parts(network, observations).together.stream().map(Part::seen).toList();
  }

  /** Observations that hang together, and the order in which causes are added to their table. */
  private record Part(List<Observation> seen, CauseOrder order) {}

  /** The belief after the clearly absent findings, and the others as parts that hang together. */
  private static final class Parts {
    final double[] posterior;
    final double[] logOdds;
    final List<Part> together = new ArrayList<>();
    double logEvidence;
    double logNoFault;

    Parts(Network network, List<Observation> observations) {
      int n = network.causes().size();
      double[] without = new double[n];
      double[] with = new double[n];
      for (int i = 0; i < n; i++) {
        double prior = network.prior(i);
        without[i] = 1 - prior;
        with[i] = prior;
      }
      List<Observation> open = new ArrayList<>();
      for (Observation seen : observations) {
        if (!seen.clearlyAbsent()) {
          open.add(seen);
          continue;
        }
        logEvidence += Math.log(seen.ifAbsent() * (1 - network.background()[seen.symptom()]));
        for (int i = 0; i < n; i++) {
          with[i] *= 1 - network.strength()[i][seen.symptom()];
        }
      }
      posterior = new double[n];
      logOdds = new double[n];
      logNoFault = logEvidence;
      for (int i = 0; i < n; i++) {
        double sum = without[i] + with[i];
        posterior[i] = with[i] / sum;
        logOdds[i] = Math.log(with[i]) - Math.log(without[i]);
        logEvidence += Math.log(sum);
        logNoFault += Math.log(without[i]);
      }
      for (List<Observation> component : components(network, open, posterior)) {
        together.add(new Part(component, CauseOrder.of(network, component, posterior)));
      }
    }

    long work() {
      return MAKING_READY + together.stream().mapToLong(part -> part.order().work).sum();
    }
  }

  /** Splits the observations into groups that share no cause that can still be present. */
  private static List<List<Observation>> components(
      Network network, List<Observation> open, double[] belief) {
    List<List<Observation>> components = new ArrayList<>();
    boolean[] placed = new boolean[open.size()];
    for (int start = 0; start < open.size(); start++) {
      if (placed[start]) {
        continue;
      }
      List<Observation> component = new ArrayList<>();
      List<Integer> reached = new ArrayList<>(List.of(start));
      placed[start] = true;
      for (int at = 0; at < reached.size(); at++) {
        Observation from = open.get(reached.get(at));
        component.add(from);
        for (int to = 0; to < open.size(); to++) {
          if (!placed[to] && share(network, from.symptom(), open.get(to).symptom(), belief)) {
            placed[to] = true;
            reached.add(to);
          }
        }
      }
      components.add(component);
    }
    return components;
  }

  private static boolean share(Network network, int a, int b, double[] belief) {
    for (int i = 0; i < belief.length; i++) {
      if (belief[i] > 0 && network.strength()[i][a] > 0 && network.strength()[i][b] > 0) {
        return true;
      }
    }
    return false;
  }
}
