package firmlever.cli;

import java.io.PrintWriter;
import java.io.StringWriter;

/** One run of the command line: its exit code and all it printed. */
record Run(int code, String out, String err) {
  static Run of(String... args) {
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
