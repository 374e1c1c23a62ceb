package firmlever.belief;

import java.util.List;
import java.util.stream.IntStream;

/**
 * Which observations stand in a {@link Table} at each step, and at which bits: the same for all
 * networks of one shape, so it is worked out once for them.
 */
final class TableLayout {
  private final List<Observation> seen;
  private final CauseOrder order;
  final Step[] steps;

  /** Observations that no cause bears on. */
  final List<Observation> unreached;

  TableLayout(List<Observation> seen, CauseOrder order) {
    this.seen = seen;
    this.order = order;
    this.steps = new Step[order.causes.length];
    int[] at = new int[seen.size()];
    int size = 0;
    long reached = 0;
    for (int step = 0; step < steps.length; step++) {
      long before = step == 0 ? 0 : order.kept[step - 1];
      int[] coming = places(order.width[step] & ~before);
      for (int place : coming) {
        at[size++] = place;
      }
      reached |= order.width[step];
      steps[step] = new Step(step, coming, at, size);
      for (int bit : steps[step].leavingBits) {
        System.arraycopy(at, bit + 1, at, bit, size - bit - 1);
        size--;
      }
    }
    long all = reached;
    this.unreached =
        IntStream.range(0, seen.size())
            .filter(place -> (all >> place & 1) == 0)
            .mapToObj(seen::get)
            .toList();
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
  final class Step {
    final int cause;

    /** Observations that come into the table; they take its highest bits, in this order. */
    final Observation[] coming;

    /** The bits that are summed out after the cause, the highest first, and what they stand for. */
    final int[] leavingBits;

    final Observation[] leaving;

    /** The bits the cause bears on, and which symptoms they stand for. */
    final int[] bits;

    final int[] symptoms;

    /** By bit of the table: the observation it stands for. */
    private Step(int step, int[] coming, int[] at, int size) {
      this.cause = order.causes[step];
      this.coming = new Observation[coming.length];
      for (int i = 0; i < coming.length; i++) {
        this.coming[i] = seen.get(coming[i]);
      }
      this.bits = new int[Long.bitCount(order.bearing[step])];
      this.symptoms = new int[bits.length];
      this.leavingBits = new int[Long.bitCount(order.width[step] & ~order.kept[step])];
      this.leaving = new Observation[leavingBits.length];
      int bearing = 0;
      int left = 0;
      for (int bit = size - 1; bit >= 0; bit--) {
        Observation one = seen.get(at[bit]);
        if ((order.bearing[step] >> at[bit] & 1) != 0) {
          bits[bearing] = bit;
          symptoms[bearing++] = one.symptom();
        }
        if ((order.kept[step] >> at[bit] & 1) == 0) {
          leavingBits[left] = bit;
          leaving[left++] = one;
        }
      }
    }
  }
}
