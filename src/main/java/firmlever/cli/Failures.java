package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.document.BadInput;
import firmlever.rulebase.RuleFault;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Tells a failure in words. A fault of the program itself is named as such, in one line. */
final class Failures implements IExecutionExceptionHandler {
  @Override
  public int handleExecutionException(Exception e, CommandLine line, ParseResult parsed) {
    if (e instanceof BadInput || e instanceof TooManySymptoms || e instanceof RuleFault) {
      line.getErr().println(e.getMessage());
    } else {
      line.getErr()
          .println(
              "firmlever has a fault of its own: "
                  + e
                  + "\n    Maybe report it with the input that led to it.");
    }
    return Exit.BAD_INPUT;
  }
}
