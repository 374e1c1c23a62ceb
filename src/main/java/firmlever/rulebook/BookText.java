package firmlever.rulebook;

import firmlever.rulebook.Book.Block;
import firmlever.rulebook.Book.Chapter;
import firmlever.rulebook.Book.Row;
import firmlever.rulebook.Book.Table;
import firmlever.rulebook.Book.Words;
import firmlever.sheet.Page;
import java.util.List;
import java.util.stream.Collectors;

/** Shows chapters of a book in a terminal. */
final class BookText {
  private static final int WIDEST_LEAD = 24;

  private final Page page;

  BookText(int width, boolean bold) {
    page = new Page(width, bold);
  }

  String of(Chapter chapter) {
    page.heading(chapter.title());
    chapter.blocks().forEach(this::block);
    chapter.sections().forEach(this::of);
    return page.toString();
  }

  private void block(Block block) {
    if (block instanceof Words words) {
      String label = words.label().isEmpty() ? "" : words.label() + ": ";
      page.hanging("  ", label + plain(words.text()));
    } else if (block instanceof Table table) {
      table(table);
    }
  }

  /** The first column leads; the others follow in a line. */
  private void table(Table table) {
    page.hanging("  ", table.caption() + " (" + String.join(" | ", table.columns()) + ")");
    int lead =
        table.rows().stream()
            .mapToInt(row -> plain(row.cells().get(0)).length())
            .filter(length -> length <= WIDEST_LEAD)
            .max()
            .orElse(0);
    for (Row row : table.rows()) {
      String first = plain(row.cells().get(0));
      List<String> rest = row.cells().subList(1, row.cells().size());
      String words =
          rest.stream()
              .map(BookText::plain)
              .filter(cell -> !cell.isEmpty())
              .collect(Collectors.joining(" | "));
      if (first.length() > WIDEST_LEAD) {
        page.hanging("    ", first);
        page.hanging("      ", words);
      } else {
        page.hanging("    " + first + " ".repeat(lead - first.length()) + "  ", words);
      }
    }
  }

  private static String plain(String text) {
    return text.replaceAll("\\[\\[[^|\\]]*\\|([^\\]]*)\\]\\]", "$1");
  }
}
