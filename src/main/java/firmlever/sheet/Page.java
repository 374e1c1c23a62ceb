package firmlever.sheet;

import firmlever.document.Visible;
import java.util.ArrayList;
import java.util.List;

/**
 * Text for a terminal of a given width: headings, and paragraphs that wrap under their own indent.
 * Readable without colour; with it, headings are bold and nothing more.
 */
public final class Page {
  private static final int NARROWEST = 40;
  private static final int WIDEST = 110;

  private final int width;
  private final boolean bold;
  private final StringBuilder text = new StringBuilder();

  public Page(int width, boolean bold) {
    this.width = Math.max(NARROWEST, Math.min(WIDEST, width));
    this.bold = bold;
  }

  /** A heading with lines of its own, after an empty one. */
  public Page heading(String words) {
    if (text.length() > 0) {
      text.append('\n');
    }
    for (String line : wrapped(words, width)) {
      text.append(bold ? "\u001b[1m" + line + "\u001b[0m" : line).append('\n');
    }
    return this;
  }

  /** A paragraph: {@code lead} stands once, further lines hang under {@code words}. */
  public Page hanging(String lead, String words) {
    int indent = lead.length();
    List<String> lines = wrapped(words, Math.max(20, width - indent));
    for (int i = 0; i < lines.size(); i++) {
      text.append(i == 0 ? lead : " ".repeat(indent)).append(lines.get(i)).append('\n');
    }
    return this;
  }

  /** A line of a table, as it stands; it must fit into {@link #width}. */
  public Page row(String line) {
    text.append(line.stripTrailing()).append('\n');
    return this;
  }

  public Page blank() {
    text.append('\n');
    return this;
  }

  public int width() {
    return width;
  }

  @Override
  public String toString() {
    return text.toString();
  }

  private static List<String> wrapped(String words, int room) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : Visible.of(words.strip().replaceAll("\\s+", " ")).split(" ")) {
      if (line.length() > 0 && line.length() + 1 + word.length() > room) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }
}
