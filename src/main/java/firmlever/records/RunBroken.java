package firmlever.records;

/** The machine failed a whole run, not one case of it; the message tells what and what to do. */
public class RunBroken extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public RunBroken(String message, Throwable cause) {
    super(message, cause);
  }
}
