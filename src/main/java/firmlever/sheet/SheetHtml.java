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
import java.util.regex.Pattern;

/**
 * Lays a paper out as one self-contained page of well-formed HTML. The same page is printed to PDF,
 * so its style keeps to what paged CSS 2.1 knows: A4, black on white.
 */
public final class SheetHtml {
  private SheetHtml() {}

  /** A table of so few rows stays on one page. */
  private static final int SHORT = 10;

  /** Only what fits into no column is broken inside. */
  private static final Pattern LONG = Pattern.compile("\\S{34}");

  private static final String STYLE =
      """
      @page { size: A4; margin: 18mm 17mm 20mm 17mm;
        @bottom-left { content: "%FOOT%"; font-family: "Liberation Sans", sans-serif; font-size: 8pt; }
        @bottom-right { content: "page " counter(page) " of " counter(pages); font-family: "Liberation Sans", sans-serif; font-size: 8pt; } }
      body { font-family: "Liberation Sans", sans-serif; font-size: 10pt; line-height: 1.4;
        color: #000; background: #fff; margin: 0; word-wrap: break-word; }
      h1 { font-size: 17pt; line-height: 1.2; margin: 0 0 4mm 0; padding-bottom: 2mm; border-bottom: 1.5pt solid #000; }
      h2 { font-size: 12.5pt; margin: 7mm 0 2mm 0; padding-bottom: 0.6mm; border-bottom: 0.5pt solid #000; page-break-after: avoid; -fs-page-break-min-height: 32mm; }
      h3 { font-size: 10.5pt; margin: 4mm 0 1.5mm 0; page-break-after: avoid; -fs-page-break-min-height: 24mm; }
      p { margin: 0 0 2mm 0; }
      .notice { border: 1.2pt solid #000; padding: 2mm 3mm; margin: 2mm 0 3mm 0; page-break-inside: avoid; }
      ul { margin: 0 0 2mm 0; padding-left: 5mm; }
      li { margin-bottom: 0.8mm; }
      table { border-collapse: collapse; width: 100%; margin: 1mm 0 3mm 0; font-size: 9pt; line-height: 1.3; -fs-table-paginate: paginate; -fs-page-break-min-height: 32mm; }
      .short { page-break-inside: avoid; }
      .short table { -fs-page-break-min-height: 0; }
      caption { text-align: left; font-style: italic; padding-bottom: 1mm; }
      thead { display: table-header-group; }
      tr { page-break-inside: avoid; }
      th, td { text-align: left; vertical-align: top; padding: 1mm 1.6mm; border-bottom: 0.4pt solid #000; }
      th { border-bottom: 1pt solid #000; }
      .sum td { border-top: 1pt solid #000; font-weight: bold; }
      .figure { text-align: right; white-space: nowrap; }
      th, td { word-wrap: normal; }
      .long { word-wrap: break-word; overflow-wrap: anywhere; }
      main { display: block; }
      @media screen { body { max-width: 185mm; margin: 8mm auto; padding: 0 5mm; } }
      @media screen and (max-width: 150mm) { table, caption, tbody, tr { display: block; } thead { display: none; } tr { border-bottom: 1pt solid #000; padding: 1mm 0; } td, td.figure { display: block; border-bottom: 0; padding: 0.4mm 0; text-align: left; white-space: normal; overflow-wrap: break-word; } td[data-head]:not(:first-child)::before { content: attr(data-head) ": "; font-style: italic; } td:empty { display: none; } td:first-child { font-weight: bold; } }
      """;

  public static String of(Sheet sheet) {
    StringBuilder html = new StringBuilder();
    html.append(
            "<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n")
        .append("<meta charset=\"UTF-8\" />\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n")
        .append("<title>")
        .append(escaped(sheet.title()))
        .append("</title>\n<style>\n")
        .append(STYLE.replace("%FOOT%", escaped(sheet.title()).replace("\\", "").replace("\"", "")))
        .append("</style>\n</head>\n<body>\n<main>\n");
    for (Block block : sheet.blocks()) {
      block(html, block);
    }
    return html.append("</main>\n</body>\n</html>\n").toString();
  }

  private static void block(StringBuilder html, Block block) {
    if (block instanceof Heading heading) {
      element(html, "h" + heading.level(), heading.text());
    } else if (block instanceof Paragraph paragraph) {
      element(html, "p", paragraph.text());
    } else if (block instanceof Notice notice) {
      html.append("<p class=\"notice\"><strong>")
          .append(escaped(notice.lead()))
          .append(".</strong> ")
          .append(escaped(notice.text()))
          .append("</p>\n");
    } else if (block instanceof Items items) {
      html.append("<ul>\n");
      items.items().forEach(item -> element(html, "li", item));
      html.append("</ul>\n");
    } else if (block instanceof Table table) {
      table(html, table);
    } else if (block instanceof Together together) {
      html.append("<div class=\"short\">\n");
      together.blocks().forEach(each -> block(html, each));
      html.append("</div>\n");
    }
  }

  private static void table(StringBuilder html, Table table) {
    html.append(table.rows().size() <= SHORT ? "<table class=\"short\">" : "<table>")
        .append("\n<caption>")
        .append(escaped(table.caption()))
        .append("</caption>\n<thead><tr>");
    for (int column = 0; column < table.head().size(); column++) {
      html.append("<th scope=\"col\"")
          .append(table.numeric().get(column) ? " class=\"figure\">" : ">")
          .append(escaped(table.head().get(column)))
          .append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
    for (int at = 0; at < table.rows().size(); at++) {
      List<String> row = table.rows().get(at);
      boolean sum = table.summed() && at == table.rows().size() - 1;
      html.append(sum ? "<tr class=\"sum\">" : "<tr>");
      for (int column = 0; column < row.size(); column++) {
        // On a narrow screen each cell stands on a line of its own, under its head.
        html.append(
                table.numeric().get(column)
                    ? "<td class=\"figure\""
                    : LONG.matcher(row.get(column)).find() ? "<td class=\"long\"" : "<td")
            .append(head(table, column))
            .append('>')
            .append(escaped(row.get(column)))
            .append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private static String head(Table table, int column) {
    return table.head().size() < 3
        ? ""
        : " data-head=\"" + escaped(table.head().get(column)) + "\"";
  }

  private static void element(StringBuilder html, String name, String text) {
    html.append('<').append(name).append('>').append(escaped(text));
    html.append("</").append(name).append(">\n");
  }

  /** Markup characters as entities; control characters, which XML forbids, spelt out. */
  static String escaped(String text) {
    StringBuilder safe = new StringBuilder();
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                case '\n', '\t', '\r' -> safe.append(' ');
                default -> {
                  if (Character.isISOControl(c)
                      || c >= 0xD800 && c < 0xE000
                      || c >= 0xFFFE && c <= 0xFFFF) {
                    safe.append(String.format(Locale.ROOT, "\\u%04x", c));
                  } else {
                    safe.appendCodePoint(c);
                  }
                }
              }
            });
    return safe.toString();
  }
}
