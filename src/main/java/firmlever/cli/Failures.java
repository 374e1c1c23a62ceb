package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.rulebase.RuleFault;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Tells a failure in words. A fault of the program itself is named as such, in one line. */
final class Failures implements IExecutionExceptionHandler {
  /** The refusal of one case, worded alike in all commands. */
  static Problem ofCase(String file, TooManySymptoms e) {
    return Problem.ofFile(file, e.what(), e.maybe());
  }

  @Override
  public int handleExecutionException(Exception e, CommandLine line, ParseResult parsed) {
    if (e instanceof BadInput || e instanceof RuleFault) {
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
