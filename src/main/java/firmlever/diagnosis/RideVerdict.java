package firmlever.diagnosis;

import java.util.List;

/**
 * Whether the brake may be ridden.
 *
 * @param because what forbids it, or keeps it from being cleared: findings first, then causes
 * @param notLooked ids of the symptoms that must be looked for before it is cleared
 */
public record RideVerdict(Answer verdict, List<Because> because, List<String> notLooked) {

  /** The three verdicts. */
  public enum Answer {
    /**
     * A finding forbids it, or the chance of a dangerous cause lies above the limit of its kind.
     */
    STOP("stop"),
    /** Nothing forbids it so far, but what would clear it was not looked at. */
    NOT_CLEARED("not-cleared"),
    FINE("fine");

    private final String id;

    Answer(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /**
   * One reason.
   *
   * @param id of a symptom or a cause
   * @param isCause whether it is a cause
   * @param probability of the cause, 0 to 1; 1 for a finding
   */
  public record Because(String id, boolean isCause, double probability, String why) {}

  public boolean stop() {
    return verdict == Answer.STOP;
  }
}
