package firmlever.belief;

/** More symptoms hang together in one case than can be solved exactly in a second. */
public final class TooManySymptoms extends RuntimeException {
  private static final long serialVersionUID = 1L;

  TooManySymptoms(int count) {
    super(
        count
            + " symptoms are present that hang together; at most "
            + Inference.MOST_TOGETHER
            + " can be solved exactly. Leave out those that say the same thing twice");
  }
}
