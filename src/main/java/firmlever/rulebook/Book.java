package firmlever.rulebook;

import java.util.List;
import java.util.stream.Stream;

/**
 * A text with chapters, that a terminal and a browser show each in its way. Where a text says
 * {@code [[target|words]]}, the words lead to the target: a chapter ({@code #id}) or a file.
 */
record Book(String title, List<Chapter> chapters) {

  /**
   * A chapter, or a section of one.
   *
   * @param id its name in the book
   */
  record Chapter(String id, String title, List<Block> blocks, List<Chapter> sections) {
    Chapter(String id, String title, List<Block> blocks) {
      this(id, title, blocks, List.of());
    }

    /** The chapter and all its sections, in reading order. */
    Stream<Chapter> all() {
      return Stream.concat(Stream.of(this), sections.stream().flatMap(Chapter::all));
    }
  }

  /** A piece of a chapter. */
  sealed interface Block {}

  /**
   * A paragraph.
   *
   * @param label what it is about; may be empty
   * @param rule name of the rule it tells; empty where it tells none
   */
  record Words(String label, String text, String rule) implements Block {
    Words(String label, String text) {
      this(label, text, "");
    }
  }

  /** A table; every row has a cell for every column. */
  record Table(String caption, List<String> columns, List<Row> rows) implements Block {}

  /** A row; {@code rule} as for {@link Words}. */
  record Row(String rule, List<String> cells) {
    Row(String rule, String... cells) {
      this(rule, List.of(cells));
    }
  }

  /** Words that lead somewhere. */
  static String link(String target, String words) {
    return "[[" + target + "|" + words + "]]";
  }
}
