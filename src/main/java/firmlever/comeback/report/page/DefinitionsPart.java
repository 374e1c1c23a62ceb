package firmlever.comeback.report.page;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Findings;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relation;
import java.util.Locale;

/** What is called a comeback, and what the reasons mean. */
final class DefinitionsPart {
  private static final String RELATED =
      String.format(
          Locale.ROOT,
          "A return has to do with an earlier visit where the cause found at the return was there"
              + " then or was brought in with a chance of %.2f or more, so at least twice as likely"
              + " as that it came anew. What was known at the earlier visit gives the chance that"
              + " it was there; the rules say what a work brings in, and which fault brings which"
              + " other (in %.0f of 100 cases, from memory). A fault comes anew at any day alike,"
              + " in %d days as often as brakes have it that are brought (from memory): the later"
              + " the return, the likelier it is new. Beside, something must lead back: what was"
              + " known then spoke for the cause, or the visit brought it in, or the complaint is of"
              + " the same kind. The same cause again always counts. Where a"
              + " return names no cause, or nothing is on record of the earlier complaint, the"
              + " complaint decides: it is of the same kind, or none is recorded. A return counts"
              + " once, for the last visit it has to do with.",
          Relation.RELATED_FROM,
          100 * Relation.BRINGS,
          Relation.ANEW_IN_DAYS);

  private final PageWriter page;
  private final Findings found;

  DefinitionsPart(PageWriter page, Findings found) {
    this.page = page;
    this.found = found;
  }

  void definitions() {
    page.section(
        "definitions",
        "What the words mean",
        "A comeback is the same brake, opened again within "
            + found.definition().shortDays()
            + " or "
            + found.definition().longDays()
            + " days of going back, where that has to do with the visit before. Rates count only"
            + " visits that could be followed to the end of the window; the data end on "
            + found.definition().end()
            + ". Intervals of rates are Wilson's, at 95 %.");
    page.p(RELATED);
    page.table("How the returns were judged", "judged by", "returns", "counts as a comeback");
    for (Relation.Ground ground : Relation.Ground.values()) {
      page.row(
          ground.words(),
          page.link(
              ReviewAnswers.number(requireNonNull(found.relations().get(ground)).count()),
              "Judged: " + ground.words(),
              found.relations().get(ground)),
          ground.related() ? "yes" : "no");
    }
    page.endTable();
    page.markup("<dl>");
    for (Reason reason : Reason.OF_COMEBACKS) {
      page.define(reason.words(), reason.test());
    }
    page.markup("</dl>\n");
    page.endSection();
  }
}
