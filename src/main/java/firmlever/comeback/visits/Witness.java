package firmlever.comeback.visits;

/**
 * Who wrote down what was wrong, and how well that has stood the test.
 *
 * @param by code of the recorder; empty where nobody wrote it down
 */
public record Witness(String by, Look look) implements Comparable<Witness> {
  /** How long, or how often, was looked. */
  public enum Look {
    /** The brake was followed for the long window, and nobody found that it had been another. */
    HELD,
    /** The same, but it could be followed for the short window only. */
    OPEN,
    /** It came back, and the second look found another cause that had shown at the first. */
    SECOND
  }

  @Override
  public int compareTo(Witness other) {
    int byName = by.compareTo(other.by);
    return byName != 0 ? byName : look.compareTo(other.look);
  }
}
