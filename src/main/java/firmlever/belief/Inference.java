package firmlever.belief;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

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

  /** Making ready for a solve takes as long as so many visits. */
  private static final long MAKING_READY = 30_000;

  /**
   * Solves the network for the observations, each of another symptom.
   *
   * @throws TooManySymptoms where that alone is more work than one answer may cost
   */
  public static Posterior solve(Network network, List<Observation> observations) {
    return solve(network, observations, shape(network, observations));
  }

  /**
   * The same for one of many networks of one shape.
   *
   * @param shape of a network in which the same causes may be present and show the same symptoms,
   *     however often, or more do
   */
  public static Posterior solve(Network network, List<Observation> observations, Shape shape) {
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
    Shape shape = Shape.of(network, apart);
    return budget.take(shape.work())
        ? Optional.of(solved(network, apart, shape))
        : Optional.empty();
  }

  private static Posterior solved(Network network, Apart apart, Shape shape) {
    double logEvidence = apart.logEvidence;
    double logNoFault = apart.logNoFault;
    for (Part part : shape.together) {
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
    return shape(network, observations).work();
  }

  /** The observations not clearly absent, as parts that hang together. */
  static List<List<Observation>> parts(Network network, List<Observation> observations) {
    return shape(network, observations).together.stream().map(part -> part.seen).toList();
  }

  /** How the network is solved for these observations. */
  public static Shape shape(Network network, List<Observation> observations) {
    return Shape.of(network, new Apart(network, observations));
  }

  /** Observations that hang together, and the order in which causes are added to their table. */
  private static final class Part {
    final List<Observation> seen;
    final CauseOrder order;

    /** Laid out at the first solve: often only the work is asked for. */
    private @Nullable TableLayout layout;

    Part(List<Observation> seen, CauseOrder order) {
      this.seen = seen;
      this.order = order;
    }

    TableLayout layout() {
      TableLayout known = layout;
      if (known == null) {
        known = new TableLayout(seen, order);
        layout = known;
      }
      return known;
    }
  }

  /**
   * How a network is solved: which of the observations hang together, and in which order the causes
   * are best added. It hangs on nothing but which causes may be there and which bear on what.
   */
  public static final class Shape {
    private final List<Part> together;

    private Shape(List<Part> together) {
      this.together = together;
    }

    private static Shape of(Network network, Apart apart) {
      List<Part> together = new ArrayList<>();
      for (List<Observation> component : components(network, apart.open, apart.posterior)) {
        CauseOrder order = CauseOrder.of(network, component, apart.posterior);
        together.add(new Part(component, order));
      }
      return new Shape(together);
    }

    /** Work of a solve, in the unit of {@link WorkBudget}. */
    public long work() {
      return MAKING_READY + together.stream().mapToLong(part -> part.order.work).sum();
    }
  }

  /** The belief after the clearly absent findings, which leave the causes apart; and the others. */
  private static final class Apart {
    final double[] posterior;
    final double[] logOdds;
    final List<Observation> open = new ArrayList<>();
    double logEvidence;
    double logNoFault;

    Apart(Network network, List<Observation> observations) {
      int n = network.causes().size();
      double[] without = new double[n];
      double[] with = new double[n];
      for (int i = 0; i < n; i++) {
        double prior = network.prior(i);
        without[i] = 1 - prior;
        with[i] = prior;
      }
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
