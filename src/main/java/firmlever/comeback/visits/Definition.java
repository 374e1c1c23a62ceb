package firmlever.comeback.visits;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Outcome;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

/**
 * What counts as a comeback: the same brake, opened again within so many days of going back to its
 * rider, with a cause that was there before or was brought in ({@link Relatedness}). Where no cause
 * is recorded to judge by, the complaint decides: it shares a group of symptoms (such as how the
 * lever feels), or none is recorded. A return counts once ({@link Returns}).
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

  /**
   * The case as it was known on the last day: a brake that had not gone back by then has no
   * outcome; empty where it was not there yet.
   */
  public Optional<CaseFile> known(CaseFile file) {
    if (file.opened().isAfter(end)) {
      return Optional.empty();
    }
    boolean stillHere = file.outcome().flatMap(Outcome::closed).filter(end::isBefore).isPresent();
    return Optional.of(stillHere ? Visit.with(file, file.symptoms(), file.history()) : file);
  }

  /** Whether a visit closed on this day has been followed for so many days. */
  public boolean followed(LocalDate closed, int days) {
    return !closed.plusDays(days).isAfter(end);
  }

  /** Days from going back to the end of the data; 0 where it went back later. */
  public double daysUntilEnd(LocalDate closed) {
    return Math.max(0, ChronoUnit.DAYS.between(closed, end));
  }
}
