package firmlever.warranty.policy;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Set;

/**
 * How long everybody has, in working days.
 *
 * @param answer working days from the claim until the shop must have answered
 * @param papers working days from the answer until what is asked for must be in
 * @param objection working days from the answer within which it may be objected to
 * @param freeDays days that are no working days, beside the days of rest
 * @param rest the days of the week on which nobody works
 * @param until the last day the calendar knows
 */
public record Deadlines(
    int answer,
    int papers,
    int objection,
    Set<LocalDate> freeDays,
    Set<DayOfWeek> rest,
    LocalDate until) {

  /**
   * The day so many working days after another; the day itself does not count.
   *
   * @throws IllegalArgumentException where the calendar ends before that
   */
  public LocalDate after(LocalDate day, int workingDays) {
    LocalDate last = day;
    for (int left = workingDays; left > 0; ) {
      last = last.plusDays(1);
      if (last.isAfter(until)) {
        throw new IllegalArgumentException(
            workingDays
                + " working days after "
                + day
                + " lie beyond the calendar ("
                + until
                + ")");
      }
      if (!rest.contains(last.getDayOfWeek()) && !freeDays.contains(last)) {
        left--;
      }
    }
    return last;
  }
}
