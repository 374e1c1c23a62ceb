package firmlever.rulebook;

import firmlever.rulebook.Book.Block;
import firmlever.rulebook.Book.Chapter;
import firmlever.rulebook.Book.Row;
import firmlever.rulebook.Book.Table;
import firmlever.rulebook.Book.Words;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Shows a book in a browser: one file that needs no other, well-formed as XML, and made to be
 * printed in black and white.
 */
final class BookHtml {
  private BookHtml() {}

  private static final Pattern LINK = Pattern.compile("\\[\\[([^|\\]]*)\\|([^\\]]*)\\]\\]");
  private static final int DEEPEST_HEADING = 6;

  private static final String STYLE =
      """
      :root { color-scheme: light; }
      body { font: 1rem/1.5 system-ui, sans-serif; color: #1b1b1b; background: #fff;
        max-width: 66rem; margin: 0 auto; padding: 1rem 1.5rem 4rem; }
      h1 { font-size: 2rem; margin: 1rem 0 .5rem; }
      h2 { font-size: 1.5rem; margin: 3rem 0 .5rem; border-bottom: 3px solid #1f4d5c; }
      h3 { font-size: 1.2rem; margin: 2.2rem 0 .3rem; color: #1f4d5c; }
      h4 { font-size: 1.05rem; margin: 1.4rem 0 .2rem; }
      p { margin: .35rem 0; }
      a { color: #0b5468; }
      .label { font-weight: 600; }
      .rule { color: #555; font-size: .85rem; }
      table { border-collapse: collapse; width: 100%; margin: .8rem 0 1.2rem; font-size: .93rem; }
      caption { text-align: left; font-weight: 600; padding: .2rem 0; }
      th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0;
        border-bottom: 1px solid #c9c9c9; overflow-wrap: anywhere; }
      th { border-bottom: 2px solid #555; white-space: nowrap; }
      td:first-child { min-width: 7rem; font-weight: 600; }
      nav ul { columns: 4 12rem; column-gap: 2rem; padding-left: 1.1rem; margin: .2rem 0 1rem; }
      nav > p { font-weight: 600; margin-top: .8rem; }
      @media print {
        body { max-width: none; padding: 0; font-size: 10pt; }
        a { color: inherit; text-decoration: none; }
        h2 { break-before: page; } h3, h4, caption { break-after: avoid; }
        tr { break-inside: avoid; } nav ul { columns: 2; }
      }
      """;

  static String of(Book book) {
    StringBuilder html = new StringBuilder();
    html.append("<!DOCTYPE html>\n<html lang=\"en\" xmlns=\"http://www.w3.org/1999/xhtml\">\n");
    html.append("<head>\n<meta charset=\"utf-8\"/>\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    html.append("<title>").append(escaped(book.title())).append("</title>\n");
    html.append("<style>\n").append(STYLE).append("</style>\n</head>\n<body>\n<h1>");
    html.append(escaped(book.title())).append("</h1>\n");
    contents(html, book.chapters());
    html.append("<main>\n");
    book.chapters().forEach(chapter -> chapter(html, chapter, 2));
    return html.append("</main>\n</body>\n</html>\n").toString();
  }

  private static void contents(StringBuilder html, List<Chapter> chapters) {
    html.append("<nav aria-label=\"Contents\">\n");
    for (Chapter chapter : chapters) {
      html.append("<p>").append(leading(chapter)).append("</p>\n");
      if (!chapter.sections().isEmpty()) {
        html.append("<ul>\n");
        chapter
            .sections()
            .forEach(each -> html.append("<li>").append(leading(each)).append("</li>\n"));
        html.append("</ul>\n");
      }
    }
    html.append("</nav>\n");
  }

  private static String leading(Chapter chapter) {
    String name = chapter.title().replaceFirst(" \\([a-z0-9-]+\\)$", "");
    return "<a href=\"#" + escaped(chapter.id()) + "\">" + escaped(name) + "</a>";
  }

  private static void chapter(StringBuilder html, Chapter chapter, int level) {
    String heading = "h" + Math.min(DEEPEST_HEADING, level);
    html.append("<section id=\"").append(escaped(chapter.id())).append("\">\n");
    html.append('<').append(heading).append('>').append(escaped(chapter.title()));
    html.append("</").append(heading).append(">\n");
    chapter.blocks().forEach(block -> block(html, block));
    chapter.sections().forEach(section -> chapter(html, section, level + 1));
    html.append("</section>\n");
  }

  private static void block(StringBuilder html, Block block) {
    if (block instanceof Words words) {
      html.append("<p").append(rule(words.rule())).append('>');
      if (!words.label().isEmpty()) {
        html.append("<span class=\"label\">").append(escaped(words.label())).append(".</span> ");
      }
      html.append(linked(words.text())).append(named(words.rule())).append("</p>\n");
    } else if (block instanceof Table table) {
      html.append("<table>\n<caption>").append(escaped(table.caption())).append("</caption>\n<tr>");
      table
          .columns()
          .forEach(each -> html.append("<th scope=\"col\">").append(escaped(each)).append("</th>"));
      html.append("</tr>\n");
      table.rows().forEach(row -> row(html, row));
      html.append("</table>\n");
    }
  }

  private static void row(StringBuilder html, Row row) {
    html.append("<tr").append(rule(row.rule())).append('>');
    int last = row.cells().size() - 1;
    for (int i = 0; i <= last; i++) {
      html.append("<td>").append(linked(row.cells().get(i)));
      html.append(i == last ? named(row.rule()) : "").append("</td>");
    }
    html.append("</tr>\n");
  }

  private static String rule(String name) {
    return name.isEmpty() ? "" : " data-rule=\"" + escaped(name) + "\"";
  }

  /** The name under which a shop changes the rule. */
  private static String named(String rule) {
    return rule.isEmpty() ? "" : " <span class=\"rule\">[" + escaped(rule) + "]</span>";
  }

  private static String linked(String text) {
    StringBuilder html = new StringBuilder();
    Matcher link = LINK.matcher(text);
    int from = 0;
    while (link.find()) {
      html.append(escaped(text.substring(from, link.start())));
      html.append("<a href=\"").append(escaped(link.group(1))).append("\">");
      html.append(escaped(link.group(2))).append("</a>");
      from = link.end();
    }
    return html.append(escaped(text.substring(from))).toString();
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
