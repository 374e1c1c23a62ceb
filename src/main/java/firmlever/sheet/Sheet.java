package firmlever.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * A paper for people, as plain parts that every output lays out in its own way: terminal, HTML and
 * PDF say the same words in the same order.
 */
public final class Sheet {
  /** A part of the paper. */
  sealed interface Block {}

  /** A heading; {@code level} 1 for the paper, 2 for a section, 3 within one. */
  record Heading(int level, String text) implements Block {}

  record Paragraph(String text) implements Block {}

  /** What the reader must not miss. */
  record Notice(String lead, String text) implements Block {}

  record Items(List<String> items) implements Block {}

  /**
   * A table.
   *
   * @param caption what it shows, in a few words
   * @param numeric whether each column holds figures
   * @param plain whether the cells of each column are said without its name, where a row is read
   *     out as a line
   * @param summed whether the last row is the sum of the others
   */
  record Table(
      String caption,
      List<String> head,
      List<Boolean> numeric,
      List<Boolean> plain,
      List<List<String>> rows,
      boolean summed)
      implements Block {}

  /** Blocks that stay on one page. */
  record Together(List<Block> blocks) implements Block {}

  private final String title;
  private final List<Block> blocks = new ArrayList<>();

  public Sheet(String title) {
    this.title = title;
    blocks.add(new Heading(1, title));
  }

  String title() {
    return title;
  }

  List<Block> blocks() {
    return blocks;
  }

  public Sheet section(String text) {
    blocks.add(new Heading(2, text));
    return this;
  }

  public Sheet part(String text) {
    blocks.add(new Heading(3, text));
    return this;
  }

  public Sheet say(String text) {
    blocks.add(new Paragraph(text));
    return this;
  }

  public Sheet notice(String lead, String text) {
    blocks.add(new Notice(lead, text));
    return this;
  }

  /** What {@code part} adds stays on one page; it must be short enough for one. */
  public Sheet together(Consumer<Sheet> part) {
    Sheet inner = new Sheet(title);
    part.accept(inner);
    blocks.add(new Together(inner.blocks.subList(1, inner.blocks.size())));
    return this;
  }

  /** A list; nothing where it is empty. */
  public Sheet items(List<String> items) {
    if (!items.isEmpty()) {
      blocks.add(new Items(List.copyOf(items)));
    }
    return this;
  }

  /**
   * A table; a column whose name begins with {@code #} holds figures, and the cells of one whose
   * name begins with {@code ~} say by themselves what they are.
   */
  public Sheet table(String caption, List<String> head, List<List<String>> rows) {
    return table(caption, head, rows, false);
  }

  /** A table whose last row is the sum of the others. */
  public Sheet sum(String caption, List<String> head, List<List<String>> rows) {
    return table(caption, head, rows, true);
  }

  private Sheet table(String caption, List<String> head, List<List<String>> rows, boolean summed) {
    if (!rows.isEmpty()) {
      blocks.add(
          new Table(
              caption,
              head.stream().map(name -> name.replaceFirst("^[#~]", "")).toList(),
              head.stream().map(name -> name.startsWith("#")).toList(),
              head.stream().map(name -> name.startsWith("~")).toList(),
              List.copyOf(rows),
              summed));
    }
    return this;
  }
}
