package firmlever.belief;

import java.util.Arrays;
import java.util.List;

/**
 * The order in which the causes of a component are taken into its table, chosen so that the table
 * stays small: an observation takes part in it only from the first cause that bears on it to the
 * last (elimination along a path, as in bucket elimination: Dechter, Artificial Intelligence 113,
 * 1999). Two greedy orders are tried and the cheaper one taken; both depend on nothing but which
 * cause bears on which observation, and any order gives the same belief.
 */
final class CauseOrder {
  /** They are bits of a long; where more hang together, no order is sought. */
  private static final int MOST_OBSERVATIONS = 62;

  /** Up to so many observations one order is tried: to seek a better one takes longer. */
  private static final int FEW = 8;

  /** No computer holds a table this wide; counted no wider, so that counts do not overflow. */
  private static final int BEYOND_ALL = 40;

  /** By step: position of the cause in the network. */
  final int[] causes;

  /** By step: observations it bears on, as bits. */
  final long[] bearing;

  /** By step: observations the table is over, as bits. */
  final long[] width;

  /** By step: observations that stay in it after the step, because a later cause bears on them. */
  final long[] kept;

  /** Table entries that solving visits, both ways together. */
  final long work;

  /** Beyond any budget, and small enough to be summed. */
  private static final long ENDLESS = 1L << 60;

  private CauseOrder() {
    this.causes = new int[0];
    this.bearing = new long[0];
    this.width = bearing;
    this.kept = bearing;
    this.work = ENDLESS;
  }

  private CauseOrder(int[] causes, long[] bearing) {
    this.causes = causes;
    this.bearing = bearing;
    this.width = new long[causes.length];
    this.kept = new long[causes.length];
    long later = 0;
    for (int step = causes.length - 1; step >= 0; step--) {
      kept[step] = later;
      later |= bearing[step];
    }
    long live = 0;
    long visits = 0;
    for (int step = 0; step < causes.length; step++) {
      width[step] = live | bearing[step];
      live = width[step] & kept[step];
      kept[step] = live;
      // Each way the table is copied, mixed and summed, and passed once for each observation.
      int bits = Math.min(Long.bitCount(width[step]), BEYOND_ALL);
      visits += (2L * Long.bitCount(bearing[step]) + 6) << bits;
    }
    this.work = visits;
  }

  /**
   * The order for these observations.
   *
   * @param belief by cause; those at zero are left out
   */
  static CauseOrder of(Network network, List<Observation> seen, double[] belief) {
    if (seen.size() > MOST_OBSERVATIONS) {
      return new CauseOrder();
    }
    int[] symptoms = seen.stream().mapToInt(Observation::symptom).toArray();
    int[] causes = new int[belief.length];
    long[] bearing = new long[belief.length];
    int count = 0;
    for (int i = 0; i < belief.length; i++) {
      long bears = 0;
      double[] strength = network.strength()[i];
      for (int bit = 0; belief[i] > 0 && bit < symptoms.length; bit++) {
        bears |= strength[symptoms[bit]] > 0 ? 1L << bit : 0;
      }
      if (bears != 0) {
        causes[count] = i;
        bearing[count++] = bears;
      }
    }
    causes = Arrays.copyOf(causes, count);
    bearing = Arrays.copyOf(bearing, count);
    int[] otherCauses = causes.clone();
    long[] otherBearing = bearing.clone();
    narrowestNext(causes, bearing, 0, count, 0);
    CauseOrder byCause = new CauseOrder(causes, bearing);
    if (seen.size() <= FEW) {
      return byCause;
    }
    byObservation(otherCauses, otherBearing, seen.size());
    CauseOrder byObservation = new CauseOrder(otherCauses, otherBearing);
    return byObservation.work < byCause.work ? byObservation : byCause;
  }

  /**
   * Sorts the steps between the two places: next is always the cause that leaves the table
   * narrowest, and of several the one that bears on the most that is in it already.
   *
   * @return the observations that are in the table at the end
   */
  private static long narrowestNext(int[] causes, long[] bearing, int from, int to, long before) {
    long live = before;
    for (int step = from; step < to; step++) {
      int best = step;
      int newOfBest = Integer.MAX_VALUE;
      int knownOfBest = 0;
      for (int next = step; next < to; next++) {
        int isNew = Long.bitCount(bearing[next] & ~live);
        if (isNew > newOfBest) {
          continue;
        }
        int known = Long.bitCount(bearing[next] & live);
        if (isNew < newOfBest || known > knownOfBest) {
          best = next;
          newOfBest = isNew;
          knownOfBest = known;
        }
      }
      swap(causes, bearing, step, best);
      live = (live | bearing[step]) & later(bearing, step + 1);
    }
    return live;
  }

  /** Next are always all causes of the observation that leaves the table narrowest. */
  private static void byObservation(int[] causes, long[] bearing, int observations) {
    long live = 0;
    int step = 0;
    while (step < causes.length) {
      int best = -1;
      int narrowest = Integer.MAX_VALUE;
      for (int bit = 0; bit < observations; bit++) {
        long closed = live;
        boolean open = false;
        for (int next = step; next < causes.length; next++) {
          if ((bearing[next] >> bit & 1) != 0) {
            closed |= bearing[next];
            open = true;
          }
        }
        if (open && Long.bitCount(closed) < narrowest) {
          narrowest = Long.bitCount(closed);
          best = bit;
        }
      }
      int end = step;
      for (int next = step; next < causes.length; next++) {
        if ((bearing[next] >> best & 1) != 0) {
          swap(causes, bearing, end++, next);
        }
      }
      live = narrowestNext(causes, bearing, step, end, live);
      step = end;
    }
  }

  private static long later(long[] bearing, int from) {
    long later = 0;
    for (int step = from; step < bearing.length; step++) {
      later |= bearing[step];
    }
    return later;
  }

  private static void swap(int[] causes, long[] bearing, int a, int b) {
    int cause = causes[a];
    causes[a] = causes[b];
    causes[b] = cause;
    long bears = bearing[a];
    bearing[a] = bearing[b];
    bearing[b] = bears;
  }
}
