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

/** Lays a paper out for a terminal; a table becomes one hanging line for each row. */
public final class SheetText {
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
    return table.head().get(column).toLowerCase(Locale.ROOT) + " " + row.get(column);
  }
}
