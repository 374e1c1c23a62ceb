package firmlever.comeback.visits;

/**
 * Whether a return has to do with an earlier visit, and by what that was judged.
 *
 * @param ground by what
 * @param chance that a cause found at the return was there at the earlier visit or was brought in
 *     by it, from 0 to 1; NaN where the complaint alone decides
 */
public record Relation(Ground ground, double chance) {
  /**
   * A return is related from this chance on: its cause is at least twice as likely carried over or
   * brought in as come anew.
   */
  public static final double RELATED_FROM = 2.0 / 3;

  /** How often a fault brings the other that it can bring, while nobody mends it; from memory. */
  public static final double BRINGS = 0.5;

  /**
   * In so many days a fault comes anew as often as brakes have it that are brought; from memory.
   * The more time lies between, the likelier a cause is new.
   */
  public static final int ANEW_IN_DAYS = 30;

  /** By what a return was judged. */
  public enum Ground {
    SAME_CAUSE("the same cause was found again", true),
    THERE_BEFORE("its cause showed at the earlier visit", true),
    BROUGHT_IN("the work or a fault of the earlier visit brings its cause", true),
    COMPLAINT_STAYED("the complaint is of the same kind, and its cause is not likely new", true),
    SAME_COMPLAINT("no cause to judge by; the complaint is of the same kind or not recorded", true),
    NEW_FAULT("its cause is more likely new", false),
    OTHER_COMPLAINT("no cause to judge by; the complaint is of another kind", false);

    private final String words;
    private final boolean related;

    Ground(String words, boolean related) {
      this.words = words;
      this.related = related;
    }

    /** The ground as a table names it. */
    public String words() {
      return words;
    }

    /** Whether a return judged so is related. */
    public boolean related() {
      return related;
    }

    /** The name in data files. */
    public String id() {
      return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
  }

  /** Whether the return counts as a comeback. */
  public boolean related() {
    return ground.related;
  }
}
