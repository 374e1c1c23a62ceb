package firmlever.sheet;

import firmlever.sheet.Sheet.Block;
import firmlever.sheet.Sheet.Heading;
import firmlever.sheet.Sheet.Items;
import firmlever.sheet.Sheet.Notice;
import firmlever.sheet.Sheet.Paragraph;
import firmlever.sheet.Sheet.Table;
import firmlever.sheet.Sheet.Together;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Lays a paper out for a terminal; a table becomes one hanging line for each row. */
public final class SheetText {
  /** After such a head the sentence goes on. */
  private static final Set<String> JOINING = Set.of("because");

  /** A word with a capital letter that only the beginning of a cell has given it. */
  private static final Pattern CAPITAL = Pattern.compile("[A-Z]([a-z].*|[ ,].*)", Pattern.DOTALL);

  private SheetText() {}

  public static String of(Sheet sheet, int width, boolean bold) {
    Page page = new Page(width, bold);
    blocks(page, sheet.blocks());
    return page.toString();
  }

  private static void blocks(Page page, List<Block> blocks) {
    for (Block block : blocks) {
      if (block instanceof Heading heading) {
        page.heading(heading.text());
      } else if (block instanceof Paragraph paragraph) {
        page.hanging("  ", paragraph.text());
      } else if (block instanceof Notice notice) {
        page.hanging("  ", notice.lead() + ": " + notice.text());
      } else if (block instanceof Items items) {
        items.items().forEach(item -> page.hanging("  - ", item));
      } else if (block instanceof Table table) {
        table(page, table);
      } else if (block instanceof Together together) {
        blocks(page, together.blocks());
      }
    }
  }

  private static void table(Page page, Table table) {
    page.hanging("  ", table.caption() + ":");
    for (List<String> row : table.rows()) {
      StringBuilder line = new StringBuilder(row.get(0));
      for (int column = 1; column < row.size(); column++) {
        if (!row.get(column).isEmpty()) {
          if (line.charAt(line.length() - 1) == '.') {
            line.setLength(line.length() - 1);
          }
          line.append(column == 1 ? ": " : "; ");
          line.append(labelled(table, row, column));
        }
      }
      page.hanging("    ", line.toString());
    }
  }

  /** A cell with the head of its column, which a table of names and values does without. */
  private static String labelled(Table table, List<String> row, int column) {
    if (table.head().size() == 2) {
      return row.get(column);
    }
    String head = table.head().get(column).toLowerCase(Locale.ROOT);
    return table.plain().get(column)
        ? going(row.get(column))
        : head + " " + (JOINING.contains(head) ? going(row.get(column)) : row.get(column));
  }

  /** A cell within a sentence. */
  private static String going(String cell) {
    return CAPITAL.matcher(cell).matches()
        ? cell.substring(0, 1).toLowerCase(Locale.ROOT) + cell.substring(1)
        : cell;
  }
}
