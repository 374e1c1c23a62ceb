package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * How many events a group has where its label means nothing, given what each stratum holds: in a
 * stratum the group's events are then hypergeometric, and over the strata they add up. That is the
 * exact conditional test of one common odds ratio in 2 × 2 × k tables. Source: Mantel and Haenszel
 * 1959, J. Natl. Cancer Inst. 22:719-748 for the strata; Agresti, Categorical Data Analysis, 1990,
 * p. 231-237 for the exact form. Where the variance is large the normal distribution with Mantel
 * and Haenszel's continuity correction stands for it.
 */
public final class StratifiedTest {
  /** Beyond this variance the exact distribution costs more than it tells. */
  private static final double EXACT_UP_TO = 2500;

  /** What is likelier by less than this is left out of a distribution. */
  private static final double NOTHING = 1e-18;

  /** Outcomes as likely as the one seen, but for rounding, are as unlikely as it. */
  private static final double TIE = 1 + 1e-7;

  private final double mean;
  private final double variance;

  /** Null, and no chances with it, where there are too many events to count out. */
  private final @Nullable Counts counts;

  private final double[] chances;

  /**
   * What a stratum holds.
   *
   * @param trials of the group
   * @param all of the group and of all it is held against, events and trials
   */
  public record Stratum(long trials, Proportion all) {}

  /** Probabilities of so many events and more, one each. */
  private record Counts(long first, double[] probabilities) {
    long last() {
      return first + probabilities.length - 1;
    }
  }

  /** The distribution over these strata; those in which nothing can differ add nothing. */
  public StratifiedTest(List<Stratum> strata) {
    double sum = 0;
    double spread = 0;
    for (Stratum each : strata) {
      double n = each.trials;
      double all = each.all.trials();
      double events = each.all.events();
      sum += all == 0 ? 0 : n * events / all;
      spread += all < 2 ? 0 : n * (all - n) * events * (all - events) / (all * all * (all - 1));
    }
    mean = sum;
    variance = spread;
    if (variance > EXACT_UP_TO) {
      counts = null;
      chances = new double[0];
    } else {
      Counts together = new Counts(0, new double[] {1});
      for (Stratum each : strata) {
        together = trimmed(sum(together, hypergeometric(each.trials, each.all)));
      }
      counts = together;
      chances = chances(together.probabilities);
    }
  }

  /** Events expected where the label means nothing. */
  double expected() {
    return mean;
  }

  /** Whether any outcome but one is possible. */
  boolean tells() {
    return variance > 0;
  }

  /**
   * The chance of a number of events at least as unlikely as this one, on either side, from 0 to 1.
   */
  double chance(long events) {
    if (!tells()) {
      return 1;
    }
    if (counts == null) {
      double away = Math.max(0, Math.abs(events - mean) - 0.5);
      return Interval.twoSidedChance(away / Math.sqrt(variance));
    }
    long at = Math.max(counts.first, Math.min(counts.last(), events));
    return chances[(int) (at - counts.first)];
  }

  /** For each outcome, the probability of all that are no likelier. */
  private static double[] chances(double[] probabilities) {
    List<Integer> order =
        IntStream.range(0, probabilities.length)
            .boxed()
            .sorted(Comparator.comparingDouble(i -> probabilities[i]))
            .toList();
    double[] chances = new double[probabilities.length];
    double sum = 0;
    int upTo = 0;
    for (int rank = 0; rank < order.size(); rank++) {
      double limit = probabilities[order.get(rank)] * TIE;
      while (upTo < order.size() && probabilities[order.get(upTo)] <= limit) {
        sum += probabilities[order.get(upTo++)];
      }
      chances[order.get(rank)] = Math.min(1, sum);
    }
    return chances;
  }

  /** Events of a group of so many trials out of all. */
  private static Counts hypergeometric(long trials, Proportion all) {
    long least = Math.max(0, trials + all.events() - all.trials());
    long most = Math.min(trials, all.events());
    long mode =
        Math.max(
            least,
            Math.min(most, (long) ((trials + 1.0) * (all.events() + 1.0) / (all.trials() + 2.0))));
    List<Double> up = new ArrayList<>();
    double weight = 1;
    for (long k = mode; k < most; k++) {
      weight *= ratio(k, trials, all);
      if (weight < NOTHING) {
        break;
      }
      up.add(weight);
    }
    List<Double> down = new ArrayList<>();
    weight = 1;
    for (long k = mode; k > least; k--) {
      weight /= ratio(k - 1, trials, all);
      if (weight < NOTHING) {
        break;
      }
      down.add(weight);
    }
    double[] weights = new double[down.size() + 1 + up.size()];
    for (int i = 0; i < down.size(); i++) {
      weights[down.size() - 1 - i] = down.get(i);
    }
    weights[down.size()] = 1;
    for (int i = 0; i < up.size(); i++) {
      weights[down.size() + 1 + i] = up.get(i);
    }
    double sum = 0;
    for (double each : weights) {
      sum += each;
    }
    for (int i = 0; i < weights.length; i++) {
      weights[i] /= sum;
    }
    return new Counts(mode - down.size(), weights);
  }

  /** How much likelier one event more is than k events. */
  private static double ratio(long k, long trials, Proportion all) {
    return (double) (all.events() - k)
        * (trials - k)
        / ((k + 1.0) * (all.trials() - all.events() - trials + k + 1.0));
  }

  private static Counts sum(Counts one, Counts other) {
    double[] sum = new double[one.probabilities.length + other.probabilities.length - 1];
    for (int i = 0; i < one.probabilities.length; i++) {
      for (int j = 0; j < other.probabilities.length; j++) {
        sum[i + j] += one.probabilities[i] * other.probabilities[j];
      }
    }
    return new Counts(one.first + other.first, sum);
  }

  private static Counts trimmed(Counts counts) {
    int from = 0;
    int to = counts.probabilities.length;
    while (from < to - 1 && counts.probabilities[from] < NOTHING) {
      from++;
    }
    while (to > from + 1 && counts.probabilities[to - 1] < NOTHING) {
      to--;
    }
    return from == 0 && to == counts.probabilities.length
        ? counts
        : new Counts(
            counts.first + from, java.util.Arrays.copyOfRange(counts.probabilities, from, to));
  }

  /**
   * Draws the events of a group of so many trials out of all.
   *
   * @param uniform from 0 to 1
   */
  static long draw(long trials, Proportion all, double uniform) {
    if (trials == 0 || all.events() == 0) {
      return 0;
    }
    Counts counts = hypergeometric(trials, all);
    double left = uniform;
    for (int i = 0; i < counts.probabilities.length - 1; i++) {
      left -= counts.probabilities[i];
      if (left < 0) {
        return counts.first + i;
      }
    }
    return counts.last();
  }
}
