package firmlever.comeback;

import firmlever.comeback.Shelf.Cases;
import java.util.Comparator;

/**
 * A check made at every visit of a kind: what it would take and what it would save.
 *
 * @param check id of the check
 * @param place the visits it would be made at
 * @param caught comebacks it would have caught, chance among them
 * @param checks how often it would have to be made more than it was
 * @param checkMinutes minutes of one check
 * @param gainMinutes minutes saved by what it would have caught beyond chance
 */
public record Habit(
    String check, Place place, Cases caught, long checks, int checkMinutes, double gainMinutes) {

  /** Those that save most first. */
  static final Comparator<Habit> BEST_FIRST =
      Comparator.comparingDouble(Habit::netMinutes)
          .reversed()
          .thenComparing(Habit::check)
          .thenComparing(Habit::place);

  /**
   * Visits of a kind.
   *
   * @param afterWork whether they are those after a work; else those with a kind of complaint
   * @param id of the work, or of the group of symptoms
   */
  public record Place(boolean afterWork, String id) implements Comparable<Place> {
    @Override
    public int compareTo(Place other) {
      int c = Boolean.compare(afterWork, other.afterWork);
      return c != 0 ? c : id.compareTo(other.id);
    }
  }

  /** Minutes the checks take. */
  public double costMinutes() {
    return (double) checks * checkMinutes;
  }

  /** Minutes saved less minutes taken. */
  public double netMinutes() {
    return gainMinutes - costMinutes();
  }

  /** Checks made for each comeback that a check catches beyond chance would have to be fewer. */
  public double breakEvenChecks() {
    return gainMinutes / checkMinutes;
  }
}
