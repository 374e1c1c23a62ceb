package firmlever.document;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;

/** A day as files write it. */
public final class CalendarDay {
  private CalendarDay() {}

  /** The calendar day a text names, if it is one that {@link Shape#date} lets through. */
  public static Optional<LocalDate> of(String text) {
    try {
      LocalDate day = LocalDate.parse(text);
      return day.getYear() >= 1990 && day.getYear() < 2200 ? Optional.of(day) : Optional.empty();
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }
}
