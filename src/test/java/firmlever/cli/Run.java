package firmlever.cli;

import firmlever.cli.shell.Results;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;

/** One run of the command line: its exit code and all it printed. */
public record Run(int code, String out, String err) {
  /** A run whose standard output goes into a stream; {@link #out} is empty. */
  public static Run onto(OutputStream stream, String... args) {
    StringWriter err = new StringWriter();
    PrintWriter out = new PrintWriter(new Results(stream), false, StandardCharsets.UTF_8);
    int code = Main.run(out, new PrintWriter(err), args);
    return new Run(code, "", err.toString());
  }

  public static Run of(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    PrintWriter outWriter = new PrintWriter(out);
    PrintWriter errWriter = new PrintWriter(err);
    int code = Main.run(outWriter, errWriter, args);
    outWriter.flush();
    errWriter.flush();
    return new Run(code, out.toString(), err.toString());
  }
}
