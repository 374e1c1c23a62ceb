package firmlever.records.tables;

import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;

/**
 * From when to when a batch of records reaches. A mistyped year (2052) must not stretch the watch:
 * days that lie more than a year away from all others, and hold no more than one record in a
 * hundred, are not believed. With fewer than 10 records every day is believed.
 */
public final class PlausibleDays {
  private static final long GAP_DAYS = 366;
  private static final long FEWEST = 10;
  private static final long ONE_IN = 100;

  private final TreeMap<Long, Long> counts = new TreeMap<>();
  private long records;

  /** Without records. */
  public PlausibleDays() {}

  /** With so many records of each day. */
  public PlausibleDays(Map<LocalDate, Long> records) {
    records.forEach((day, n) -> add(day.toEpochDay(), n));
  }

  /** Both together. */
  public PlausibleDays plus(PlausibleDays other) {
    PlausibleDays sum = new PlausibleDays(counts());
    other.counts.forEach(sum::add);
    return sum;
  }

  /** How many records there are of each day, in order of time. */
  public Map<LocalDate, Long> counts() {
    Map<LocalDate, Long> days = new TreeMap<>();
    counts.forEach((day, n) -> days.put(LocalDate.ofEpochDay(day), n));
    return days;
  }

  /** Counts a record of this day. */
  public void add(LocalDate day) {
    add(day.toEpochDay(), 1L);
  }

  private void add(Long day, Long n) {
    counts.merge(day, n, Long::sum);
    records += n;
  }

  /** The range of the days that are believed; empty where none was added. */
  public Range range() {
    if (counts.isEmpty()) {
      return new Range(LocalDate.MIN, LocalDate.MAX);
    }
    return new Range(
        LocalDate.ofEpochDay(edge(counts)), LocalDate.ofEpochDay(edge(counts.descendingMap())));
  }

  /** The first day, seen from this side, beyond which nothing has to be left out. */
  private long edge(Map<Long, Long> fromThisSide) {
    long edge = fromThisSide.keySet().iterator().next();
    if (records < FEWEST) {
      return edge;
    }
    long before = 0;
    long last = edge;
    for (Map.Entry<Long, Long> day : fromThisSide.entrySet()) {
      if (before > Math.max(1, records / ONE_IN)) {
        break;
      }
      if (Math.abs(day.getKey() - last) > GAP_DAYS) {
        edge = day.getKey();
      }
      last = day.getKey();
      before += day.getValue();
    }
    return edge;
  }

  /** Both days belong to it. */
  public record Range(LocalDate first, LocalDate last) {
    /** Whether the day lies in it. */
    public boolean contains(LocalDate day) {
      return !day.isBefore(first) && !day.isAfter(last);
    }
  }
}
