package firmlever.store;

/** The store cannot do what it was asked; the message says why, in words for its user. */
public final class StoreFault extends RuntimeException {
  private static final long serialVersionUID = 1L;

  StoreFault(String message) {
    super(message);
  }

  StoreFault(String message, Throwable cause) {
    super(message, cause);
  }
}
