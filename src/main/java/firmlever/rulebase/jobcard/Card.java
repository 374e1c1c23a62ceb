package firmlever.rulebase.jobcard;

/**
 * The language of the job card rules: what a rule may put on the card of one work. Lines may come
 * in any order; the card is sorted by stage and place.
 */
public interface Card {

  /** The parts of a card, in the order in which they are done. */
  enum Stage {
    /** Before anything is opened. */
    READY,
    /** The work itself. */
    DO,
    /** Clean, put back, tighten. */
    CLOSE,
    /** Riding, once every check on the stand is passed. */
    ROAD,
    /** At the end: waste, record, what the rider is told. */
    AFTER
  }

  /** Something to do, at a place within its stage. */
  void step(Stage stage, int place, String text);

  /** A value to keep and write down: what it is of, and what it must be. */
  void value(Stage stage, int place, String what, String want);

  /** A torque to tighten to and write down: of what, and what it must be. */
  void torque(Stage stage, int place, String what, String want);

  /** A caution of the vocabulary, in the place where it counts. */
  void mind(Stage stage, int place, String caution);

  /** A work that must follow this one. */
  void then(String action, String why);
}
