package firmlever.comeback.visits;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;

/**
 * A brake that came back, and what the first visit could have known. A return that is not related
 * ({@link #relation}) is no comeback and counts as none; it is held where all returns are looked
 * at.
 *
 * @param brake code of the brake
 * @param first code of the visit it came back from
 * @param second code of the visit it came back to
 * @param alsoAfter codes of earlier visits that might have caused the same return, the latest first
 * @param closed when it had gone back
 * @param opened when it came again
 * @param relation how the return was judged to be related to the first visit
 * @param days between the two; half a day where they are the same day
 * @param by code of who did the first work; empty where nobody wrote it down
 * @param before what is on record of the first visit
 * @param after what is on record of the second
 * @param works of the first visit
 * @param treated the causes the first visit found
 * @param found the causes the second visit found
 * @param place where the first cause of {@code found} stands in the first visit's new diagnosis,
 *     from 1; 0 where there is none to look for
 * @param probability it has there, from 0 to 1
 * @param planned whether following the plan at the first visit would have led to a work that mends
 *     it; false where that was not tried
 * @param check id of the check that would have shown it and was not made; empty where there is none
 * @param checkMinutes minutes of that check
 * @param avoidable whether it need not have happened
 * @param minutesSaved what avoiding it is worth, in minutes; 0 where it is not avoidable
 * @param sentence what a foreman would say; empty where it is not avoidable
 */
public record Comeback(
    String brake,
    String first,
    String second,
    List<String> alsoAfter,
    Relation relation,
    LocalDate closed,
    LocalDate opened,
    double days,
    String by,
    Stay before,
    Stay after,
    List<String> works,
    List<String> treated,
    List<String> found,
    Reason reason,
    int place,
    double probability,
    boolean planned,
    String check,
    int checkMinutes,
    boolean avoidable,
    int minutesSaved,
    String sentence) {

  /** The latest first, then by code: an order that depends on nothing else. */
  public static final Comparator<Comeback> LATEST_FIRST =
      Comparator.comparing(Comeback::opened)
          .reversed()
          .thenComparing(Comeback::brake)
          .thenComparing(Comeback::second)
          .thenComparing(Comeback::first);

  /** Those worth most first. */
  public static final Comparator<Comeback> DEAREST_FIRST =
      Comparator.comparingInt(Comeback::minutesSaved).reversed().thenComparing(LATEST_FIRST);

  /** The cause it came back with, {@code none} where none was found. */
  public String foundFirst() {
    return found.isEmpty() ? NONE : found.get(0);
  }

  /** The cause that was treated, {@code none} where none was found. */
  public String treatedFirst() {
    return treated.isEmpty() ? NONE : treated.get(0);
  }

  /** Stands for no cause. */
  public static final String NONE = "none";
}
