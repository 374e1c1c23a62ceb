package firmlever.jobcard;

import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.vocabulary.Vocabulary;
import java.util.List;

/** A job card as one sheet of A4 to print and tick: black and white, nothing from outside. */
public final class JobCardHtml {
  private static final String STYLE =
      """
      @page { size: A4; margin: 7mm 10mm; }
      * { box-sizing: border-box; }
      body { font: 9pt/1.21 "Liberation Sans", Arial, Helvetica, sans-serif; color: #000;
        background: #fff; max-width: 189mm; margin: 0 auto; padding: 0 .4mm; }
      header { border-bottom: 2pt solid #000; display: grid; grid-template-columns: 1fr auto;
        gap: 0 8mm; padding-bottom: 1mm; }
      h1 { font-size: 16pt; line-height: 1.1; margin: 0 0 .6mm; }
      h2 { font-size: 10.5pt; margin: 2mm 0 .8mm; border-bottom: .8pt solid #000;
        break-after: avoid; }
      p { margin: .6mm 0; }
      .who { text-align: right; white-space: nowrap; line-height: 1.75; }
      ol, ul { list-style: none; margin: 0; padding: 0; }
      li { display: grid; grid-template-columns: 5.6mm 5mm 1fr; padding: .5mm 0;
        break-inside: avoid; }
      .box { display: block; width: 4.4mm; height: 4.4mm; border: 1.1pt solid #000; }
      .number { font-weight: bold; text-align: right; padding-right: 1.2mm; }
      li.mind > span, li.value > span { grid-column: 2 / 4; }
      li.mind > span { border-left: 2.4pt solid #000; padding-left: 1.4mm; font-weight: bold; }
      li.value > span { display: grid; grid-template-columns: 1fr auto; gap: 2mm;
        align-items: end; }
      .blank { display: inline-block; border: .9pt solid #000; width: 20mm; height: 4.8mm;
        vertical-align: -1mm; }
      li.accept { grid-template-columns: 5.6mm 1fr 20mm; gap: 0 .5mm; }
      li.accept .blank { align-self: start; }
      .pictures { display: grid; grid-template-columns: auto auto 1fr; gap: 3mm; align-items:
        center; grid-column: 1 / 3; }
      .pictures .drawing { height: 15mm; width: 27mm; }
      .pictures .code { height: 18mm; width: 18mm; }
      .pictures p { font-weight: bold; margin: 0; }
      .drawing path, .drawing rect, .drawing circle { fill: #fff; stroke: #000; stroke-width: 4; }
      .drawing text, .drawing .hose-touch { display: none; }
      .drawing .tube, .drawing .rim, .drawing .spoke { fill: none; stroke: #999; }
      .drawing .hose { fill: none; stroke-width: 8; }
      .drawing .is-next path, .drawing .is-next rect, .drawing .is-next circle { fill: #000; }
      .drawing .is-next .hose { fill: none; stroke-width: 18; }
      .drawing .is-next .hole, .drawing .is-next .pad { fill: #fff; stroke: #fff; }
      footer { margin-top: 1.2mm; font-weight: bold; }
      .long { font-size: 8.1pt; line-height: 1.17; }
      .long li { padding: .3mm 0; }
      .long .box, .long .blank { height: 3.9mm; }
      .longest { font-size: 7.8pt; line-height: 1.15; }
      .longest h2 { margin-top: 1mm; }
      .longest li { padding: .2mm 0; }
      .longest .box, .longest .blank { height: 3.6mm; }
      @media print { .steps { columns: 2; column-gap: 5mm; } .steps h2:first-child { margin-top:
        1mm; } }
      @media screen and (min-width: 170mm) { .steps { columns: 2; column-gap: 6mm; } }
      """;

  /** A card with more lines, such as that of two works, is set smaller to stay one sheet. */
  private static final int MOST_LINES = 33;

  /** The same below a head with pictures. */
  private static final int MOST_LINES_BELOW = 24;

  /** A card this much longer is set smaller still. */
  private static final int LONGEST = 9;

  private final Vocabulary vocabulary;

  public JobCardHtml(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /**
   * Where a card is used.
   *
   * @param judged what to do after the work
   * @param pictures what stands in its head, as HTML that is shown as it is; empty for nothing
   * @param commands whether whoever reads it has the command line
   */
  public record Stand(String judged, String pictures, boolean commands) {}

  /** The whole page, for the command line. */
  public String of(JobCard card) {
    return of(card, new Stand(JobCardText.JUDGED, "", true));
  }

  /** The whole page. */
  public String of(JobCard card, Stand stand) {
    StringBuilder html = new StringBuilder();
    String title = JobCardText.title(vocabulary, card);
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>")
        .append(escaped("Job card " + card.caseId() + ": " + title))
        .append("</title>\n<style>\n")
        .append(STYLE)
        .append("</style>\n</head>\n<body")
        .append(size(lines(card) - (stand.pictures().isEmpty() ? MOST_LINES : MOST_LINES_BELOW)))
        .append(">\n<header>\n<div>\n<h1>")
        .append(escaped(upperFirst(title)))
        .append("</h1>\n<p>")
        .append(escaped(card.caseId() + ", " + card.brake() + "; about " + card.minutes() + " min"))
        .append("</p>\n</div>\n<div class=\"who\">By <span class=\"blank\"></span> ")
        .append("Date <span class=\"blank\"></span></div>\n")
        .append(
            stand.pictures().isEmpty()
                ? ""
                : "<div class=\"pictures\">" + stand.pictures() + "</div>\n")
        .append("</header>\n<main>\n<p><strong>")
        .append(escaped(vocabulary.caution("maker-first").text()))
        .append(' ')
        .append(escaped(vocabulary.caution("not-sure-ask").text()))
        .append("</strong>");
    card.notes().forEach(note -> html.append(' ').append(escaped(note)));
    html.append("</p>\n<div class=\"steps\">\n");
    int number = sections(html, card.sections(Stage.READY, Stage.DO), 0);
    card.then()
        .forEach(
            then ->
                html.append("<p><strong>Next: </strong>")
                    .append(escaped(JobCardText.then(vocabulary, then)))
                    .append(
                        stand.commands()
                            ? escaped(" (its card: firmlever jobcard CASE " + then.action() + ")")
                            : "")
                    .append("</p>\n"));
    number = sections(html, card.sections(Stage.CLOSE, Stage.CLOSE), number);
    html.append("</div>\n");
    acceptance(html, JobCardText.ON_THE_STAND, "steps", card.acceptance(false));
    html.append("<div class=\"steps\">\n");
    number = sections(html, card.sections(Stage.ROAD, Stage.ROAD), number);
    acceptance(html, JobCardText.RIDING, "riding", card.acceptance(true));
    sections(html, card.sections(Stage.AFTER, Stage.AFTER), number);
    html.append("</div>\n</main>\n<footer>")
        .append(escaped(vocabulary.caution("acceptance-first").text()))
        .append(' ')
        .append(escaped(stand.judged()))
        .append("</footer>\n</body>\n</html>\n");
    return html.toString();
  }

  private static String size(int beyond) {
    return beyond > LONGEST ? " class=\"longest\"" : beyond > 0 ? " class=\"long\"" : "";
  }

  private static int lines(JobCard card) {
    return card.sections().stream().mapToInt(section -> section.lines().size()).sum();
  }

  private static String item(Line line, int number) {
    String text = escaped(line.text());
    return switch (line.kind()) {
      case STEP ->
          "<li><span class=\"box\"></span><span class=\"number\">"
              + number
              + "</span><span>"
              + text
              + "</span></li>\n";
      case MIND -> "<li class=\"mind\"><span>" + text + "</span></li>\n";
      case VALUE, TORQUE ->
          "<li class=\"value\"><span><span>"
              + text
              + (line.kind() == Kind.TORQUE ? ", torque: " : ": ")
              + escaped(line.want())
              + "</span><span><span class=\"blank\"></span>"
              + (line.kind() == Kind.TORQUE ? " N·m" : "")
              + "</span></span></li>\n";
    };
  }

  private static int sections(StringBuilder html, List<JobCard.Section> sections, int before) {
    int number = before;
    for (JobCard.Section section : sections) {
      html.append("<h2>").append(escaped(section.title())).append("</h2>\n<ol>\n");
      for (Line line : section.lines()) {
        if (line.kind() == Kind.STEP) {
          number++;
        }
        html.append(item(line, number));
      }
      html.append("</ol>\n");
    }
    return number;
  }

  private static void acceptance(
      StringBuilder html, String heading, String kind, List<JobCard.Accept> checks) {
    html.append("<h2>")
        .append(escaped(heading))
        .append("</h2>\n<ul class=\"")
        .append(kind)
        .append("\">\n");
    for (JobCard.Accept accept : checks) {
      html.append("<li class=\"accept\"><span class=\"box\"></span><span><strong>")
          .append(escaped(upperFirst(accept.name())))
          .append("</strong>: ")
          .append(escaped(accept.want()))
          .append("</span><span class=\"blank\"></span></li>\n");
    }
    html.append("</ul>\n");
  }

  private static String upperFirst(String text) {
    return text.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + text.substring(1);
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
