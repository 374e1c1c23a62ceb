package firmlever.cli;

/** Exit codes of all commands. */
final class Exit {
  private Exit() {}

  static final int DONE = 0;
  static final int FAILED = 1;
  static final int BAD_INPUT = 2;
  static final int STOP_RIDE = 3;

  /** The program or the machine failed, not the input: no memory, no fonts, a fault of ours. */
  static final int FAULT = 4;
}
