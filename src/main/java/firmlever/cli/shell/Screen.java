package firmlever.cli.shell;

import firmlever.document.Visible;
import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;

/**
 * All that any command prints goes through here: what would steer a terminal is spelt out, but for
 * line breaks, tabs and the marks of bold headings.
 */
public final class Screen extends FilterWriter {
  private static final String BOLD = "\u001b[1m";
  private static final String PLAIN = "\u001b[0m";

  private final String passing;
  private final boolean bold;

  /**
   * @param passing control characters that pass
   * @param bold whether the two marks of bold text pass
   */
  public Screen(Writer out, String passing, boolean bold) {
    super(out);
    this.passing = passing;
    this.bold = bold;
  }

  @Override
  public void write(String text, int from, int count) throws IOException {
    int end = from + count;
    int clean = from;
    for (int at = from; at < end; at++) {
      char c = text.charAt(at);
      if (!Visible.steers(c) || passing.indexOf(c) >= 0) {
        continue;
      }
      out.write(text, clean, at - clean);
      String mark = bold && c == PLAIN.charAt(0) ? mark(text, at) : "";
      out.write(mark.isEmpty() ? Visible.spelt(c) : mark);
      at += Math.max(0, mark.length() - 1);
      clean = at + 1;
    }
    out.write(text, clean, end - clean);
  }

  private static String mark(String text, int at) {
    return text.startsWith(BOLD, at) ? BOLD : text.startsWith(PLAIN, at) ? PLAIN : "";
  }

  @Override
  public void write(char[] text, int from, int count) throws IOException {
    write(new String(text, from, count), 0, count);
  }

  @Override
  public void write(int c) throws IOException {
    write(String.valueOf((char) c), 0, 1);
  }
}
