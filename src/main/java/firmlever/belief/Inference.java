package firmlever.belief;

import java.util.ArrayList;
import java.util.List;

/**
 * Exact inference in a {@link Network}.
 *
 * <p>Absent findings leave the causes independent and cost next to nothing. The others are solved
 * with a table over "which of them are explained so far" (2^k states), to which one cause after the
 * other is added, forwards and backwards. Every term is a product of probabilities and every step a
 * sum, so nothing can cancel: unlike the inclusion-exclusion sum of Heckerman's Quickscore (UAI
 * 1989), which costs the same. Symptoms that share no cause that is still possible are solved
 * apart.
 */
public final class Inference {
  private Inference() {}

  /** The most symptoms in one table: 2^18 states solve within a second on the slowest machine. */
  public static final int MOST_TOGETHER = 18;

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

  /**
   * Solves the network for the observations, each of another symptom.
   *
   * @throws TooManySymptoms where more than {@link #MOST_TOGETHER} present symptoms hang together
   */
  public static Posterior solve(Network network, List<Observation> observations) {
    int n = network.causes().size();
    double[] without = new double[n];
    double[] with = new double[n];
    for (int i = 0; i < n; i++) {
      double prior = network.prior(i);
      without[i] = 1 - prior;
      with[i] = prior;
    }
    double logEvidence = 0;
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
    double[] posterior = new double[n];
    double[] logOdds = new double[n];
    double logNoFault = logEvidence;
    for (int i = 0; i < n; i++) {
      double sum = without[i] + with[i];
      posterior[i] = with[i] / sum;
      logOdds[i] = Math.log(with[i]) - Math.log(without[i]);
      logEvidence += Math.log(sum);
      logNoFault += Math.log(without[i]);
    }
    for (List<Observation> component : components(network, open, posterior)) {
      if (component.size() > MOST_TOGETHER) {
        throw new TooManySymptoms(component.size());
      }
      Table table = new Table(network, component, posterior);
      logEvidence += table.solve(posterior, logOdds);
      for (Observation seen : component) {
        double background = network.background()[seen.symptom()];
        logNoFault += Math.log(background * seen.ifPresent() + (1 - background) * seen.ifAbsent());
      }
    }
    return new Posterior(posterior, logOdds, Math.exp(logNoFault - logEvidence), logEvidence);
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

  /** One component: its observations, and the causes that bear on any of them. */
  private static final class Table {
    private final Network network;
    private final List<Observation> seen;
    private final double[] belief;
    private final int[] causes;
    private final int states;

    Table(Network network, List<Observation> seen, double[] belief) {
      this.network = network;
      this.seen = seen;
      this.belief = belief;
      this.states = 1 << seen.size();
      int[] bearing = new int[belief.length];
      int count = 0;
      for (int i = 0; i < belief.length; i++) {
        if (belief[i] > 0 && bears(i)) {
          bearing[count++] = i;
        }
      }
      this.causes = java.util.Arrays.copyOf(bearing, count);
    }

    private boolean bears(int cause) {
      for (Observation each : seen) {
        if (network.strength()[cause][each.symptom()] > 0) {
          return true;
        }
      }
      return false;
    }

    /** Sets the belief in the causes that bear on the table; returns the log evidence of it. */
    double solve(double[] posterior, double[] logOdds) {
      // After cause c: what the rest of the observations is worth, by what is explained so far.
      double[][] after = new double[causes.length + 1][];
      after[causes.length] = worthOfEnd();
      for (int c = causes.length - 1; c >= 0; c--) {
        after[c] = mixed(causes[c], after[c + 1], pulled(causes[c], after[c + 1]));
      }
      double[] before = explainedByBackground();
      double evidence = dot(before, after[0]);
      if (!(evidence > 0)) {
        throw new ArithmeticException("what was seen has no probability at all in this network");
      }
      double[] result = new double[causes.length];
      for (int c = 0; c < causes.length; c++) {
        double[] pushed = pushed(causes[c], before);
        double with = belief[causes[c]] * dot(pushed, after[c + 1]);
        double without = (1 - belief[causes[c]]) * dot(before, after[c + 1]);
        result[c] = with / (with + without);
        logOdds[causes[c]] = Math.log(with) - Math.log(without);
        before = mixed(causes[c], before, pushed);
      }
      for (int c = 0; c < causes.length; c++) {
        posterior[causes[c]] = result[c];
      }
      return Math.log(evidence);
    }

    private double[] worthOfEnd() {
      double[] worth = new double[states];
      worth[0] = 1;
      for (int bit = 0; bit < seen.size(); bit++) {
        int half = 1 << bit;
        for (int state = 0; state < half; state++) {
          worth[state + half] = worth[state] * seen.get(bit).ifPresent();
          worth[state] *= seen.get(bit).ifAbsent();
        }
      }
      return worth;
    }

    private double[] explainedByBackground() {
      double[] explained = new double[states];
      explained[0] = 1;
      for (int bit = 0; bit < seen.size(); bit++) {
        double background = network.background()[seen.get(bit).symptom()];
        int half = 1 << bit;
        for (int state = 0; state < half; state++) {
          explained[state + half] = explained[state] * background;
          explained[state] *= 1 - background;
        }
      }
      return explained;
    }

    /** The table once the cause is present: it explains each of its symptoms or fails to. */
    private double[] pushed(int cause, double[] table) {
      double[] pushed = table.clone();
      for (int bit = 0; bit < seen.size(); bit++) {
        double strength = network.strength()[cause][seen.get(bit).symptom()];
        if (strength > 0) {
          int half = 1 << bit;
          for (int block = 0; block < states; block += half << 1) {
            for (int state = block; state < block + half; state++) {
              pushed[state + half] += pushed[state] * strength;
              pushed[state] *= 1 - strength;
            }
          }
        }
      }
      return pushed;
    }

    /** The same seen from the end: the worth of a state if the cause is still to act. */
    private double[] pulled(int cause, double[] table) {
      double[] pulled = table.clone();
      for (int bit = 0; bit < seen.size(); bit++) {
        double strength = network.strength()[cause][seen.get(bit).symptom()];
        if (strength > 0) {
          int half = 1 << bit;
          for (int block = 0; block < states; block += half << 1) {
            for (int state = block; state < block + half; state++) {
              pulled[state] = (1 - strength) * pulled[state] + strength * pulled[state + half];
            }
          }
        }
      }
      return pulled;
    }

    private double[] mixed(int cause, double[] without, double[] with) {
      double present = belief[cause];
      double[] mixed = new double[states];
      for (int state = 0; state < states; state++) {
        mixed[state] = (1 - present) * without[state] + present * with[state];
      }
      return mixed;
    }

    private static double dot(double[] a, double[] b) {
      double sum = 0;
      for (int state = 0; state < a.length; state++) {
        sum += a[state] * b[state];
      }
      return sum;
    }
  }
}
