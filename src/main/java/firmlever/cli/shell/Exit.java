package firmlever.cli.shell;

/** Exit codes of all commands. */
public final class Exit {
  private Exit() {}

  public static final int DONE = 0;
  public static final int FAILED = 1;
  public static final int BAD_INPUT = 2;
  public static final int STOP_RIDE = 3;

  /** The program or the machine failed, not the input: no memory, no fonts, a fault of ours. */
  static final int FAULT = 4;
}
