package firmlever.comeback.report.page;

import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.Tally;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Relation;
import firmlever.document.Limit;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/** The cases behind every number, and a row for each of those there is room for. */
final class CasesPart {
  private final PageWriter page;
  private final ReviewAnswers words;
  private final CaseLinks links;
  private final String jobs;

  /**
   * The cases of a page whose numbers are all written.
   *
   * @param jobs address of the page of a case, up to its code; empty for none
   */
  CasesPart(PageWriter page, ReviewAnswers words, CaseLinks links, String jobs) {
    this.page = page;
    this.words = words;
    this.links = links;
    this.jobs = jobs;
  }

  void cases() {
    page.section(
        "cases",
        "Cases behind the numbers",
        "Each number above leads to its cases here, the latest first, and each case to its row in"
            + " the table at the end, which has room for "
            + Limit.PAGE_ROWS.most()
            + ": the dearest avoidable ones, then the latest behind each number in turn. The table"
            + " comebacks.csv that --csv writes holds all. Who did the work is told only of persons"
            + " of whom a difference from colleagues is shown. \"Said\""
            + " is what the program says of the later cause from what was known at the first"
            + " visit: its place among all causes and its chance. \"Related\" is the chance that it"
            + " was there then or was brought in; returns below the limit are no comebacks.");
    Set<Comeback> named = named();
    links.targets().forEach(target -> behind(target, named));
    table(named);
    page.endSection();
  }

  /**
   * The cases there is room for: those whose rows other tables point to, then the first behind each
   * number, then the second, and so on.
   */
  private Set<Comeback> named() {
    int most = Limit.PAGE_ROWS.most();
    Set<Comeback> named = new TreeSet<>(Comeback.LATEST_FIRST);
    named.addAll(links.rows());
    for (int i = 0; i < Tally.CASES_KEPT && named.size() < most; i++) {
      for (CaseLinks.Target target : links.targets()) {
        Cases cases = target.cases();
        if (i < cases.shown().size() && named.size() < most) {
          named.add(cases.shown().get(i));
        }
      }
    }
    return named;
  }

  private void behind(CaseLinks.Target target, Set<Comeback> named) {
    Cases cases = target.cases();
    List<Comeback> shown = cases.shown().stream().filter(named::contains).toList();
    long more = cases.count() - shown.size();
    page.markup(
        "<details><summary>"
            + PageWriter.escaped(target.title())
            + ": "
            + ReviewAnswers.number(cases.count())
            + "</summary><p id=\""
            + target.anchor()
            + "\">"
            + shown.stream()
                .map(c -> PageWriter.rowLink(c.second(), c))
                .collect(Collectors.joining(", "))
            + (cases.count() == 0 ? "No case." : "")
            + (more > 0
                ? (shown.isEmpty() ? "" : " and ") + ReviewAnswers.number(more) + " more"
                : "")
            + "</p></details>\n");
  }

  private void table(Set<Comeback> named) {
    page.table(
        "Comebacks named on this page, the latest first",
        "back as",
        "back on",
        "from",
        "days",
        "by",
        "complaint then",
        "seen then",
        "treated",
        "done",
        "complaint again",
        "found",
        "done again",
        "reason",
        "related",
        "said",
        "left out");
    named.forEach(comeback -> page.caseRow(comeback, job(comeback.second()), cells(comeback)));
    Set<Comeback> all = new TreeSet<>(Comeback.LATEST_FIRST);
    links.targets().forEach(target -> all.addAll(target.cases().shown()));
    page.endTable(all.size() - named.size());
  }

  private List<String> cells(Comeback c) {
    return List.of(
        c.opened().toString(),
        c.first()
            + (c.alsoAfter().isEmpty()
                ? ""
                : " (also after " + String.join(", ", c.alsoAfter()) + ")"),
        Numbers.days(c),
        words.named(c.by()) ? c.by() : Numbers.NONE,
        c.before().complaint(),
        all(c.before().present(), words::symptom),
        all(c.treated(), words::cause),
        all(c.works(), words::work),
        c.after().complaint(),
        all(c.found(), words::cause),
        all(c.after().works(), words::work),
        c.reason().words(),
        judged(c.relation()),
        c.place() == 0
            ? Numbers.NONE
            : c.place() + String.format(Locale.ROOT, " (%.0f of 100)", 100 * c.probability()),
        c.check().isEmpty() ? Numbers.NONE : words.symptom(c.check()));
  }

  private static String all(List<String> ids, UnaryOperator<String> words) {
    return ids.stream().map(words).collect(Collectors.joining(", "));
  }

  /** How a return was judged, in a cell. */
  private static String judged(Relation relation) {
    return Double.isNaN(relation.chance())
        ? "by the complaint"
        : relation.ground() == Relation.Ground.SAME_CAUSE
            ? "same cause"
            : String.format(Locale.ROOT, "%.2f", relation.chance());
  }

  private String job(String id) {
    String code = PageWriter.escaped(id);
    return jobs.isEmpty()
        ? code
        : "<a id=\"job-"
            + code
            + "\" href=\""
            + PageWriter.escaped(jobs + id)
            + "\">"
            + code
            + "</a>";
  }
}
