package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.rulebase.RuleFault;
import firmlever.store.StoreFault;
import java.io.PrintWriter;
import java.util.List;
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
    return told(e, line.getErr());
  }

  /** Tells what ended a run; returns the exit code. */
  static int told(Throwable e, PrintWriter err) {
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
    err.println(
        e instanceof Spill.Broken || e instanceof Elsewhere.Failed ? e.getMessage() : fault(e));
    return Exit.FAULT;
  }

  private static String fault(Throwable e) {
    if (e instanceof OutOfMemoryError) {
      return "firmlever: the memory does not suffice for this input"
          + "\n    Maybe give more, such as JAVA_TOOL_OPTIONS=-Xmx4g, or less at once.";
    }
    if (ofDrawing(e)) {
      return "firmlever: Java cannot draw here ("
          + first(e)
          + ")\n    Maybe fontconfig or any font is missing on this machine; without pictures all works.";
    }
    return "firmlever has a fault of its own: "
        + first(e)
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

  private static String first(Throwable e) {
    return (e instanceof IllegalStateException ? e.getMessage() : String.valueOf(e))
        .lines()
        .findFirst()
        .orElse("");
  }

  /** Work on one case of many. */
  interface Work {
    void run() throws BadInput;
  }

  /** Does the work on one case; whatever goes wrong in it is a problem of that case alone. */
  static List<Problem> of(String file, Work work) {
    try {
      work.run();
      return List.of();
    } catch (BadInput e) {
      return e.problems();
    } catch (Results.Lost | Spill.Broken e) {
      throw e;
    } catch (TooManySymptoms e) {
      return List.of(ofCase(file, e));
    } catch (RuleFault e) {
      return List.of(Problem.ofFile(file, e.getMessage(), ""));
    } catch (RuntimeException | StackOverflowError e) {
      return List.of(
          Problem.ofFile(
              file,
              "firmlever has a fault of its own with it: " + first(e),
              "Maybe report it with this file."));
    }
  }
}
