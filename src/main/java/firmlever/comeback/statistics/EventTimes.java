package firmlever.comeback.statistics;

import java.util.Collections;
import java.util.Locale;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * How many events fell on each time. Where the shop grows or shrinks, let "time" be the number of
 * jobs done so far: a trend in it is a trend in comebacks for each job. Events known only to the
 * day belong to the middle of it (12.5, not 12 or 13).
 *
 * @param counts events at each time; times above 0 and finite, counts above 0
 */
public record EventTimes(NavigableMap<Double, Long> counts) {
  /** Throws {@link IllegalArgumentException} where a time or count is out of range. */
  public EventTimes {
    counts = Collections.unmodifiableNavigableMap(new TreeMap<>(counts));
    counts.forEach(
        (time, count) -> {
          if (!(time > 0) || time.isInfinite() || count <= 0) {
            throw new IllegalArgumentException(
                String.format(
                    Locale.ROOT,
                    "an event needs a finite time above 0 and a count above 0, not %s × %d",
                    time,
                    count));
          }
        });
  }

  /** How many events there are. */
  long events() {
    return counts.values().stream().mapToLong(Long::longValue).sum();
  }
}
