package firmlever.belief;

import java.util.List;

/**
 * One component: its observations, and the causes that bear on any of them. A state says which of
 * the observations are explained so far, one bit for each that is in the table at that step; the
 * others have not been reached yet, or are summed out because no later cause bears on them.
 */
final class Table {
  private final Network network;
  private final List<Observation> seen;
  private final double[] belief;
  private final CauseOrder order;
  private final Step[] steps;

  Table(Network network, List<Observation> seen, double[] belief, CauseOrder order) {
    this.network = network;
    this.seen = seen;
    this.belief = belief;
    this.order = order;
    this.steps = new Step[order.causes.length];
    int[] at = new int[seen.size()];
    int size = 0;
    for (int step = 0; step < steps.length; step++) {
      long before = step == 0 ? 0 : order.kept[step - 1];
      int[] coming = places(order.width[step] & ~before);
      for (int place : coming) {
        at[size++] = place;
      }
      steps[step] = new Step(step, coming, at, size);
      for (int bit : steps[step].leavingBits) {
        System.arraycopy(at, bit + 1, at, bit, size - bit - 1);
        size--;
      }
    }
  }

  private static int[] places(long observations) {
    int[] places = new int[Long.bitCount(observations)];
    long left = observations;
    for (int i = 0; i < places.length; i++) {
      places[i] = Long.numberOfTrailingZeros(left);
      left &= left - 1;
    }
    return places;
  }

  /** One cause at its place in the order. */
  private final class Step {
    final int cause;

    /** Observations that come into the table; they take its highest bits, in this order. */
    final int[] coming;

    /** The bits that are summed out after the cause, the highest first, and what they stand for. */
    final int[] leavingBits;

    final int[] leaving;

    /** The bits the cause bears on, and how strongly. */
    final int[] bits;

    final double[] strengths;

    /** By bit of the table: the observation it stands for. */
    Step(int step, int[] coming, int[] at, int size) {
      this.cause = order.causes[step];
      this.coming = coming;
      this.bits = new int[Long.bitCount(order.bearing[step])];
      this.strengths = new double[bits.length];
      this.leavingBits = new int[Long.bitCount(order.width[step] & ~order.kept[step])];
      this.leaving = new int[leavingBits.length];
      int bearing = 0;
      int left = 0;
      for (int bit = size - 1; bit >= 0; bit--) {
        if ((order.bearing[step] >> at[bit] & 1) != 0) {
          bits[bearing] = bit;
          strengths[bearing++] = network.strength()[cause][seen.get(at[bit]).symptom()];
        }
        if ((order.kept[step] >> at[bit] & 1) == 0) {
          leavingBits[left] = bit;
          leaving[left++] = at[bit];
        }
      }
    }

    /** The table with the bits that come: so far only the background explains them. */
    double[] entered(double[] table) {
      double[] wider = table;
      for (int place : coming) {
        double background = background(place);
        double[] narrow = wider;
        wider = new double[2 * narrow.length];
        for (int state = 0; state < narrow.length; state++) {
          wider[state] = narrow[state] * (1 - background);
          wider[state + narrow.length] = narrow[state] * background;
        }
      }
      return wider;
    }

    /** The same seen from the end: the worth of a state before the bits came. */
    double[] beforeEntering(double[] worth) {
      double[] narrow = worth;
      for (int i = coming.length - 1; i >= 0; i--) {
        double background = background(coming[i]);
        double[] wide = narrow;
        narrow = new double[wide.length / 2];
        for (int state = 0; state < narrow.length; state++) {
          narrow[state] = wide[state] * (1 - background) + wide[state + narrow.length] * background;
        }
      }
      return narrow;
    }

    /** The table without the bits that leave: what was seen of them is taken into account. */
    double[] left(double[] table) {
      double[] narrow = table;
      for (int i = 0; i < leaving.length; i++) {
        Observation one = seen.get(leaving[i]);
        int half = 1 << leavingBits[i];
        double[] wide = narrow;
        narrow = new double[wide.length / 2];
        for (int block = 0; block < narrow.length; block += half) {
          for (int state = block; state < block + half; state++) {
            int without = state + block;
            narrow[state] = wide[without] * one.ifAbsent() + wide[without + half] * one.ifPresent();
          }
        }
      }
      return narrow;
    }

    /** The same seen from the end: the worth of a state before the bits left. */
    double[] beforeLeaving(double[] worth) {
      double[] wide = worth;
      for (int i = leaving.length - 1; i >= 0; i--) {
        Observation one = seen.get(leaving[i]);
        int half = 1 << leavingBits[i];
        double[] narrow = wide;
        wide = new double[2 * narrow.length];
        for (int block = 0; block < narrow.length; block += half) {
          for (int state = block; state < block + half; state++) {
            int without = state + block;
            wide[without] = narrow[state] * one.ifAbsent();
            wide[without + half] = narrow[state] * one.ifPresent();
          }
        }
      }
      return wide;
    }

    /** The table once the cause is present: it explains each of its symptoms or fails to. */
    double[] pushed(double[] table) {
      double[] pushed = table.clone();
      for (int i = 0; i < bits.length; i++) {
        double strength = strengths[i];
        int half = 1 << bits[i];
        for (int block = 0; block < pushed.length; block += half << 1) {
          for (int state = block; state < block + half; state++) {
            pushed[state + half] += pushed[state] * strength;
            pushed[state] *= 1 - strength;
          }
        }
      }
      return pushed;
    }

    /** The same seen from the end: the worth of a state if the cause is still to act. */
    double[] pulled(double[] table) {
      double[] pulled = table.clone();
      for (int i = 0; i < bits.length; i++) {
        double strength = strengths[i];
        int half = 1 << bits[i];
        for (int block = 0; block < pulled.length; block += half << 1) {
          for (int state = block; state < block + half; state++) {
            pulled[state] = (1 - strength) * pulled[state] + strength * pulled[state + half];
          }
        }
      }
      return pulled;
    }

    double[] mixed(double[] without, double[] with) {
      double present = belief[cause];
      double[] mixed = new double[without.length];
      for (int state = 0; state < mixed.length; state++) {
        mixed[state] = (1 - present) * without[state] + present * with[state];
      }
      return mixed;
    }
  }

  /**
   * Sets the belief in the causes that bear on the table.
   *
   * @return the natural log of the evidence of its observations
   */
  double solve(double[] posterior, double[] logOdds) {
    // By step, once its cause has acted: what the rest of the observations is worth.
    double[][] worth = new double[steps.length][];
    double[] rest = {1};
    for (int step = steps.length - 1; step >= 0; step--) {
      worth[step] = steps[step].beforeLeaving(rest);
      rest =
          steps[step].beforeEntering(
              steps[step].mixed(worth[step], steps[step].pulled(worth[step])));
    }
    double evidence = rest[0] * unreached();
    if (!(evidence > 0)) {
      throw new ArithmeticException("what was seen has no probability at all in this network");
    }
    double[] result = new double[steps.length];
    double[] table = {1};
    for (int i = 0; i < steps.length; i++) {
      Step step = steps[i];
      double[] before = step.entered(table);
      double[] pushed = step.pushed(before);
      double with = belief[step.cause] * dot(pushed, worth[i]);
      double without = (1 - belief[step.cause]) * dot(before, worth[i]);
      result[i] = with / (with + without);
      logOdds[step.cause] = Math.log(with) - Math.log(without);
      table = step.left(step.mixed(before, pushed));
    }
    for (int i = 0; i < steps.length; i++) {
      posterior[steps[i].cause] = result[i];
    }
    return Math.log(evidence);
  }

  /** What the observations are worth that no cause bears on. */
  private double unreached() {
    long reached = 0;
    for (long width : order.width) {
      reached |= width;
    }
    double worth = 1;
    for (int place = 0; place < seen.size(); place++) {
      if ((reached >> place & 1) == 0) {
        Observation one = seen.get(place);
        double background = background(place);
        worth *= background * one.ifPresent() + (1 - background) * one.ifAbsent();
      }
    }
    return worth;
  }

  private double background(int place) {
    return network.background()[seen.get(place).symptom()];
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int state = 0; state < a.length; state++) {
      sum += a[state] * b[state];
    }
    return sum;
  }
}
