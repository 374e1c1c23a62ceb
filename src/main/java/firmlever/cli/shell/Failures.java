package firmlever.cli.shell;

import firmlever.belief.TooManySymptoms;
import firmlever.document.BadInput;
import firmlever.records.OneCase;
import firmlever.records.RunBroken;
import firmlever.rulebase.text.RuleFault;
import firmlever.store.StoreFault;
import java.io.PrintWriter;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Tells a failure in words. A fault of the program itself is named as such, in one line. */
public final class Failures implements IExecutionExceptionHandler {
  @Override
  public int handleExecutionException(Exception e, CommandLine line, ParseResult parsed) {
    return told(e, line.getErr());
  }

  /** Tells what ended a run; returns the exit code. */
  public static int told(Throwable e, PrintWriter err) {
    if (e instanceof Results.Lost lost) {
      if (!lost.readerWent()) {
        err.println("firmlever: " + lost.getMessage());
      }
      return Exit.BAD_INPUT;
    }
    if (e instanceof BadInput
        || e instanceof TooManySymptoms
        || e instanceof RuleFault
        || e instanceof StoreFault) {
      err.println(e.getMessage());
      return Exit.BAD_INPUT;
    }
    err.println(e instanceof RunBroken ? e.getMessage() : fault(e));
    return Exit.FAULT;
  }

  private static String fault(Throwable e) {
    if (e instanceof OutOfMemoryError) {
      return "firmlever: the memory does not suffice for this input"
          + "\n    Maybe give more, such as JAVA_TOOL_OPTIONS=-Xmx4g, or less at once.";
    }
    if (ofDrawing(e)) {
      return "firmlever: Java cannot draw here ("
          + OneCase.first(e)
          + ")\n    Maybe fontconfig or any font is missing on this machine; without pictures all works.";
    }
    return "firmlever has a fault of its own: "
        + OneCase.first(e)
        + "\n    Maybe report it with the input that led to it.";
  }

  /** What fails where a machine has no fonts differs by version; it always passes through AWT. */
  private static boolean ofDrawing(Throwable e) {
    for (Throwable cause = e; cause != null; cause = cause.getCause()) {
      for (StackTraceElement at : cause.getStackTrace()) {
        if (at.getClassName().startsWith("sun.font.") || at.getClassName().startsWith("sun.awt.")) {
          return true;
        }
      }
      if (String.valueOf(cause.getMessage()).contains("sun.font.")) {
        return true;
      }
    }
    return false;
  }
}
