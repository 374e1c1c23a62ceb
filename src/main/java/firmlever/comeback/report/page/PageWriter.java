package firmlever.comeback.report.page;

import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.visits.Comeback;
import firmlever.document.Limit;
import java.util.List;

/** Writes what the page is made of: sections, charts, tables, folded parts, links to the cases. */
final class PageWriter {
  private final StringBuilder page = new StringBuilder(1 << 18);
  private final CaseLinks links;
  private int charts;
  private int rows;

  PageWriter(CaseLinks links) {
    this.links = links;
  }

  /** The head of the page, with its first words. */
  void start(String title, String days, String lead) {
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<title>" + escaped(title + ", " + days) + "</title>\n<style>\n")
        .append(Style.SHEET)
        .append("</style>\n</head>\n<body>\n<header>\n<h1>" + escaped(title) + "</h1>\n");
    p(lead);
    page.append("</header>\n<main>\n");
  }

  /** Ends the page with its last words. */
  String end(String last) {
    page.append("</main>\n<footer>");
    p(last);
    return page.append("</footer>\n</body>\n</html>\n").toString();
  }

  void section(String id, String title, String lead) {
    page.append("<section id=\"" + id + "\">\n<h2>" + escaped(title) + "</h2>\n");
    p(lead);
  }

  void endSection() {
    page.append("</section>\n");
  }

  /** A heading within a section. */
  void heading(String text) {
    page.append("<h3>" + escaped(text) + "</h3>\n");
  }

  void p(String text) {
    page.append("<p>" + escaped(text) + "</p>\n");
  }

  void fold(String summary) {
    page.append("<details><summary>" + escaped(summary) + "</summary>\n");
  }

  void endFold() {
    page.append("</details>\n");
  }

  /** A term with what it means, in a list of them. */
  void define(String term, String text) {
    page.append("<dt>" + escaped(term) + "</dt><dd>" + escaped(text) + "</dd>\n");
  }

  void chart(String title, String svg) {
    charts++;
    page.append(
            "<figure aria-labelledby=\"chart"
                + charts
                + "\"><div class=\"chart\" tabindex=\"0\" role=\"region\" aria-label=\""
                + escaped(title)
                + "\">")
        .append(svg)
        .append("</div><figcaption id=\"chart" + charts + "\">" + escaped(title))
        .append(" The table below holds the same numbers.</figcaption></figure>\n");
  }

  void table(String caption, String... heads) {
    page.append(
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Table: "
            + escaped(caption)
            + "\"><table><caption>"
            + escaped(caption)
            + "</caption><thead><tr>");
    for (String head : heads) {
      page.append("<th scope=\"col\">" + escaped(head) + "</th>");
    }
    page.append("</tr></thead><tbody>\n");
    rows = 0;
  }

  /** A row; the first cell is its head, the others are markup and may hold links. */
  void row(String head, String... cells) {
    row("", escaped(head), cells(List.of(cells)));
  }

  /** A row that ends with a sentence; all other cells, its head too, are markup. */
  void sentenceRow(String sentence, String head, String... cells) {
    row("", head, cells(List.of(cells)) + "<td class=\"wide\">" + escaped(sentence) + "</td>");
  }

  /** The row of a case, to which links lead; its head is markup, the others are plain words. */
  void caseRow(Comeback comeback, String head, List<String> cells) {
    row(
        " id=\"" + escaped(CaseLinks.rowId(comeback)) + "\"",
        head,
        cells(cells.stream().map(PageWriter::escaped).toList()));
  }

  private static String cells(List<String> cells) {
    StringBuilder all = new StringBuilder();
    cells.forEach(cell -> all.append("<td>" + cell + "</td>"));
    return all.toString();
  }

  /** A row, if the table has room for one more; what it has not is told below it. */
  private void row(String attributes, String head, String cells) {
    if (++rows <= Limit.PAGE_ROWS.most()) {
      page.append("<tr" + attributes + "><th scope=\"row\">" + head + "</th>" + cells + "</tr>\n");
    }
  }

  void endTable() {
    endTable(rows - Limit.PAGE_ROWS.most());
  }

  /** Ends a table from which so many rows were left out. */
  void endTable(long leftOut) {
    page.append("</tbody></table></div>\n");
    if (leftOut > 0) {
      p(
          ReviewAnswers.number(leftOut)
              + (leftOut == 1 ? " more row stands" : " more rows stand")
              + " in the tables that --csv writes.");
    }
  }

  /** Words as a link to the cases behind them, as markup. */
  String link(String text, String title, Cases cases) {
    return cases.count() == 0
        ? escaped(text)
        : "<a href=\"#" + links.anchor(title, cases) + "\">" + escaped(text) + "</a>";
  }

  /** Words as a link to the row of a case, which is then kept room for, as markup. */
  String linkToRow(String text, Comeback comeback) {
    links.needRow(comeback);
    return rowLink(text, comeback);
  }

  /** Words as a link to the row of a case that is there, as markup. */
  static String rowLink(String text, Comeback comeback) {
    return "<a href=\"#" + escaped(CaseLinks.rowId(comeback)) + "\">" + escaped(text) + "</a>";
  }

  /** Lists cases at the end of the page, whether a number leads to them or not. */
  void list(String title, Cases cases) {
    links.anchor(title, cases);
  }

  /** What only one part of the page is made of. */
  void markup(String markup) {
    page.append(markup);
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
