package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;

/**
 * How many units failed and how many were lost from sight (censored) at each time. Mergeable; its
 * size is the number of different times.
 *
 * @param rows in ascending order of time, each time once
 */
public record LifeTable(List<Row> rows) {
  /** No units: what every sum starts from. */
  public static final LifeTable EMPTY = new LifeTable(List.of());

  /** Throws {@link IllegalArgumentException} where the rows are out of order. */
  public LifeTable {
    rows = List.copyOf(rows);
    for (int i = 1; i < rows.size(); i++) {
      if (!(rows.get(i - 1).time < rows.get(i).time)) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT,
                "times must ascend, but %s is followed by %s",
                rows.get(i - 1).time,
                rows.get(i).time));
      }
    }
  }

  /**
   * What happened at one time.
   *
   * @param time 0 or more, finite, in the caller's unit
   * @param failures units that failed then, 0 or more
   * @param losses units last seen whole then, 0 or more
   */
  public record Row(double time, long failures, long losses) {
    /** Throws {@link IllegalArgumentException} where a value is out of range. */
    public Row {
      checkedTime(time);
      if (failures < 0 || losses < 0) {
        throw new IllegalArgumentException(
            String.format(
                Locale.ROOT, "counts must be 0 or more, not %d and %d", failures, losses));
      }
    }
  }

  /** Gathers units one by one. Not for use by several threads: give each its own and add up. */
  public static final class Counter {
    private final TreeMap<Double, long[]> counts = new TreeMap<>();

    /**
     * Counts one unit.
     *
     * @param time when it failed or was last seen whole; 0 or more, finite
     * @param failed whether it failed then
     */
    public void add(double time, boolean failed) {
      counts.computeIfAbsent(checkedTime(time), t -> new long[2])[failed ? 0 : 1]++;
    }

    private void add(Row row) {
      long[] count = counts.computeIfAbsent(row.time, t -> new long[2]);
      count[0] = Math.addExact(count[0], row.failures);
      count[1] = Math.addExact(count[1], row.losses);
    }

    /** What has been counted so far. */
    public LifeTable table() {
      var rows = new ArrayList<Row>(counts.size());
      counts.forEach((time, count) -> rows.add(new Row(time, count[0], count[1])));
      return new LifeTable(rows);
    }
  }

  /** Both counted together. */
  public LifeTable plus(LifeTable other) {
    var sum = new Counter();
    rows.forEach(sum::add);
    other.rows.forEach(sum::add);
    return sum.table();
  }

  /** How many units there are. */
  public long units() {
    return rows.stream().mapToLong(r -> r.failures + r.losses).sum();
  }

  /** How many of them failed. */
  public long failures() {
    return rows.stream().mapToLong(Row::failures).sum();
  }

  /** The time itself; adding 0 turns −0 into 0, so that both are one key. */
  static double checkedTime(double time) {
    if (!(time >= 0) || Double.isInfinite(time)) {
      throw new IllegalArgumentException("a time must be 0 or more and finite, not " + time);
    }
    return time + 0.0;
  }
}
