package firmlever.cli;

/** Exit codes of all commands. */
final class Exit {
  private Exit() {}

  static final int DONE = 0;
  static final int FAILED = 1;
  static final int BAD_INPUT = 2;
  static final int STOP_RIDE = 3;
}
