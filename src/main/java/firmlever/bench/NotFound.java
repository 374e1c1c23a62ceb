package firmlever.bench;

/** There is no such page, job or brake. */
final class NotFound extends Exception {
  private static final long serialVersionUID = 1L;
}
