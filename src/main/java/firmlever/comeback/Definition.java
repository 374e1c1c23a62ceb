package firmlever.comeback;

import java.time.LocalDate;

/**
 * What counts as a comeback: the same brake, opened again with a related complaint within so many
 * days of going back to its rider. Complaints are related where they share a group of symptoms
 * (such as how the lever feels); a visit without any recorded symptom is related to every other.
 *
 * @param shortDays the short window in days, 1 or more
 * @param longDays the long window in days, above the short one
 * @param end the last day of the data: nothing is known of later days
 */
public record Definition(int shortDays, int longDays, LocalDate end) {
  public static final int USUAL_SHORT = 30;
  public static final int USUAL_LONG = 90;

  /** Throws {@link IllegalArgumentException} where the windows are out of order. */
  public Definition {
    if (shortDays < 1 || longDays <= shortDays) {
      throw new IllegalArgumentException(
          "the windows must be 1 day or more and ascend, not " + shortDays + " and " + longDays);
    }
  }

  /** Whether a visit closed on this day has been followed for so many days. */
  boolean followed(LocalDate closed, int days) {
    return !closed.plusDays(days).isAfter(end);
  }
}
