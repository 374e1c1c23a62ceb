package firmlever.plan;

import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** How things stand after some steps: what may be wrong now, and what has been done. */
final class State {
  /** Once a work has split the stories up, only so many are kept, the likeliest. */
  private static final int MOST_STORIES = 256;

  /** What may be wrong now, and how probable each story is. */
  final Stories stories;

  final long[] masks;
  final double[] weights;

  /** Probability that something is wrong. */
  final double faulty;

  /** Set-ups in place. */
  final int paid;

  /** Works done. */
  final long done;

  /** Checks made. Not to be changed. */
  final BitSet made;

  private State(Stories stories, double[] weights, int paid, long done, BitSet made) {
    this.stories = stories;
    this.masks = stories.masks;
    double sum = 0;
    for (double weight : weights) {
      sum += weight;
    }
    double wrong = 0;
    for (int s = 0; s < weights.length; s++) {
      weights[s] /= sum;
      wrong += masks[s] == 0 ? 0 : weights[s];
    }
    this.faulty = Math.min(1, wrong);
    this.weights = weights;
    this.paid = paid;
    this.done = done;
    this.made = made;
  }

  /** How things stand before anything is done. */
  static State start(Tables tables) {
    return new State(
        new Stories(tables, tables.masks),
        tables.weights.clone(),
        tables.inPlace(),
        0,
        new BitSet());
  }

  /** Probability of each cause, by bit. */
  double[] belief(int causes) {
    double[] belief = new double[causes];
    for (int s = 0; s < masks.length; s++) {
      for (long open = masks[s]; open != 0; open &= open - 1) {
        belief[Long.numberOfTrailingZeros(open)] += weights[s];
      }
    }
    return belief;
  }

  /** Probability that the check comes out so. */
  double chance(int check, int result) {
    double[][] results = stories.results(check);
    double chance = 0;
    for (int s = 0; s < masks.length; s++) {
      chance += weights[s] * results[s][result];
    }
    return chance;
  }

  /** How things stand once the check has come out this way, which must be possible. */
  State after(Tables tables, int check, int result) {
    double[][] results = stories.results(check);
    double[] likelier = new double[masks.length];
    for (int s = 0; s < masks.length; s++) {
      likelier[s] = weights[s] * results[s][result];
    }
    BitSet nowMade = (BitSet) made.clone();
    nowMade.set(check);
    return new State(stories, likelier, tables.paidAfter(~check, paid), done, nowMade);
  }

  /** The same without its least likely stories, up to this probability in all. */
  State without(double share) {
    double[] ascending = weights.clone();
    Arrays.sort(ascending);
    int dropped = 0;
    for (double sum = 0; (sum += ascending[dropped]) <= share; dropped++) {}
    double least = ascending[dropped];
    int[] places = new int[masks.length];
    double[] nowWeights = new double[masks.length];
    int kept = 0;
    for (int s = 0; s < masks.length; s++) {
      if (weights[s] >= least) {
        places[kept] = s;
        nowWeights[kept++] = weights[s];
      }
    }
    return kept == masks.length
        ? this
        : new State(
            stories.only(Arrays.copyOf(places, kept)),
            Arrays.copyOf(nowWeights, kept),
            paid,
            done,
            made);
  }

  /** Probability that something is still wrong once the work is done. */
  double faultyAfter(Tables tables, int work) {
    double right = 0;
    for (int s = 0; s < masks.length; s++) {
      double all = weights[s];
      for (long open = masks[s]; open != 0; open &= open - 1) {
        all *= tables.mends[work][Long.numberOfTrailingZeros(open)];
      }
      right += all;
    }
    return Math.max(0, 1 - right);
  }

  /**
   * How things stand once the work is done and the acceptance check has found that something is
   * still wrong, which must be possible.
   */
  State afterFailed(Tables tables, int work) {
    Map<Long, Double> left = new LinkedHashMap<>();
    for (int s = 0; s < masks.length; s++) {
      split(left, tables.mends[work], masks[s] & tables.mendable[work], masks[s], weights[s]);
    }
    left.remove(0L);
    List<Map.Entry<Long, Double>> kept =
        left.entrySet().stream()
            .sorted(Map.Entry.<Long, Double>comparingByValue().reversed())
            .limit(MOST_STORIES)
            .toList();
    long[] nowMasks = kept.stream().mapToLong(Map.Entry::getKey).toArray();
    double[] nowWeights = kept.stream().mapToDouble(Map.Entry::getValue).toArray();
    return new State(
        new Stories(tables, nowMasks),
        nowWeights,
        tables.paidAfter(work, paid),
        done | 1L << work,
        made);
  }

  private static void split(
      Map<Long, Double> left, double[] mends, long open, long mask, double weight) {
    if (weight == 0) {
      return;
    }
    if (open == 0) {
      left.merge(mask, weight, Double::sum);
      return;
    }
    int bit = Long.numberOfTrailingZeros(open);
    split(left, mends, open & (open - 1), mask, weight * (1 - mends[bit]));
    split(left, mends, open & (open - 1), mask & ~(1L << bit), weight * mends[bit]);
  }
}
