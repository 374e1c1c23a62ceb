package firmlever.belief;

import firmlever.document.Limit;

/**
 * The work one answer may cost, counted and never timed, so that the same case gives the same
 * answer on every machine. The unit is one visit to an entry of a table; {@link Inference#work}
 * says how many a solve takes before it is begun. What must be worked out and does not fit is
 * refused ({@link TooManySymptoms}); what is searched beyond that stops, and the answer says so.
 *
 * <p>Not for several threads at once.
 */
public final class WorkBudget {
  /**
   * Work of one answer, which shall take at most 2 s of processor. Measured on 2 slow, busy cores:
   * 630 to 690 million visits a second of processor in tables of 2^14 entries and more, and 0.7 to
   * 0.9 s for a start; so this is some 0.6 s, and the rest is left to rules, plan and report.
   */
  private static final long ONE_ANSWER = Limit.ANSWER_WORK.most();

  /** Why something was left out, for a sentence that ends with it. */
  public static final String USED_UP =
      "so many findings hang together that the work for one answer was used up";

  private final long limit;
  private long spent;
  private boolean usedUp;

  private WorkBudget(long limit) {
    this.limit = limit;
  }

  /** What one answer may cost. */
  public static WorkBudget ofOneAnswer() {
    return new WorkBudget(ONE_ANSWER);
  }

  /** A budget of so many visits. */
  public static WorkBudget of(long visits) {
    return new WorkBudget(visits);
  }

  /** Spends the work, if it still fits; otherwise spends nothing. */
  public boolean take(long work) {
    if (work > left()) {
      usedUp = true;
      return false;
    }
    spent += work;
    return true;
  }

  /** Whether anything has not fitted into it. */
  public boolean usedUp() {
    return usedUp;
  }

  public long left() {
    return limit - spent;
  }

  public long spent() {
    return spent;
  }
}
