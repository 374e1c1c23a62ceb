package firmlever.comeback.statistics;

import java.util.Arrays;
import java.util.Collections;
import java.util.Locale;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * What the mean cumulative function and its robust variance need from a fleet: when the watch over
 * each unit ended, and how often one unit returned at one time and (again) at another. Mergeable
 * where no unit's history is split; its size is bounded by the square of the number of different
 * times, not by the number of units.
 *
 * @param ends for each time, the units whose watch ended then
 * @param returnsByEnd for (time of return, end of watch), the number of returns
 * @param pairs for (earlier, later or same time), summed over units, returns at the one times
 *     returns at the other
 */
public record ReturnHistories(
    NavigableMap<Double, Long> ends,
    NavigableMap<Times, Long> returnsByEnd,
    NavigableMap<Times, Long> pairs) {

  /** Copies the counts. */
  public ReturnHistories {
    ends = Collections.unmodifiableNavigableMap(new TreeMap<>(ends));
    returnsByEnd = Collections.unmodifiableNavigableMap(new TreeMap<>(returnsByEnd));
    pairs = Collections.unmodifiableNavigableMap(new TreeMap<>(pairs));
  }

  /** Two times of one unit, ordered by the second, then by the first. */
  public record Times(double first, double second) implements Comparable<Times> {
    @Override
    public int compareTo(Times other) {
      int bySecond = Double.compare(second, other.second);
      return bySecond != 0 ? bySecond : Double.compare(first, other.first);
    }
  }

  /** Gathers units one by one. Not for use by several threads: give each its own and add up. */
  public static final class Counter {
    private final TreeMap<Double, Long> ends = new TreeMap<>();
    private final TreeMap<Times, Long> returnsByEnd = new TreeMap<>();
    private final TreeMap<Times, Long> pairs = new TreeMap<>();

    /**
     * Counts one unit with its whole history.
     *
     * @param end when the watch over it ended; 0 or more, finite
     * @param returns its returns, in any order, each from 0 to {@code end}; several may be equal
     * @throws IllegalArgumentException where a time is out of range
     */
    public void add(double end, double... returns) {
      double checkedEnd = LifeTable.checkedTime(end);
      double[] sorted = Arrays.stream(returns).map(LifeTable::checkedTime).sorted().toArray();
      if (sorted.length > 0 && sorted[sorted.length - 1] > checkedEnd) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "a return at %s lies after the end of the watch at %s",
                sorted[sorted.length - 1],
                checkedEnd));
      }
      ends.merge(checkedEnd, 1L, Math::addExact);
      for (int later = 0; later < sorted.length; later++) {
        returnsByEnd.merge(new Times(sorted[later], checkedEnd), 1L, Math::addExact);
        // Two equal returns make 2 × 2 = 4: each with itself, and twice with the other.
        for (int earlier = 0; earlier <= later; earlier++) {
          boolean again = earlier < later && sorted[earlier] == sorted[later];
          pairs.merge(new Times(sorted[earlier], sorted[later]), again ? 2L : 1L, Math::addExact);
        }
      }
    }

    private void add(ReturnHistories other) {
      other.ends.forEach((time, count) -> ends.merge(time, count, Math::addExact));
      other.returnsByEnd.forEach((t, count) -> returnsByEnd.merge(t, count, Math::addExact));
      other.pairs.forEach((times, count) -> pairs.merge(times, count, Math::addExact));
    }

    /** What has been counted so far. */
    public ReturnHistories histories() {
      return new ReturnHistories(ends, returnsByEnd, pairs);
    }
  }

  /** Both counted together; no unit may have a part of its history in each. */
  public ReturnHistories plus(ReturnHistories other) {
    var sum = new Counter();
    sum.add(this);
    sum.add(other);
    return sum.histories();
  }

  /** How many units there are. */
  long units() {
    return ends.values().stream().mapToLong(Long::longValue).sum();
  }
}
