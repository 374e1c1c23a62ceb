package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.Learning;
import firmlever.comeback.report.ReviewAnswers;
import java.util.Locale;

/** What the rules could learn from the cases; only proposed, and only where it was asked for. */
final class LearningPart {
  private static final int RATES = 12;

  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;

  LearningPart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void learning() {
    found.learning().ifPresent(this::learning);
  }

  private void learning(Learning learning) {
    page.section(
        "learning",
        "What the rules could learn",
        String.format(
            Locale.ROOT,
            "From %s visits with a known cause. The elicited shares are worth %.1f expected cases of"
                + " each cause, which is learned from all causes together; a cause that few of these"
                + " jobs could have shown stays near its elicited share, seen or not. A visit counts"
                + " as much as the word of who wrote it down has held at second visits, and less"
                + " where it could be followed for %d days only. One proposal moves a share at most"
                + " %.0f times. Nothing is changed until a person has read the proposal; those of"
                + " most effect stand first, the rest is in its folder.",
            ReviewAnswers.number(learning.visits()),
            learning.weight(),
            found.definition().shortDays(),
            Learning.AT_MOST_TIMES));
    rates(learning);
    page.p(ReviewAnswers.learned(learning));
    if (!learning.trusts().isEmpty()) {
      page.p(
          String.format(
              Locale.ROOT,
              "What the words of %d recorders count: from %.2f to %.2f.",
              learning.trusts().size(),
              learning.trusts().stream().mapToDouble(Learning.Trusted::weight).min().orElse(0),
              learning.trusts().stream().mapToDouble(Learning.Trusted::weight).max().orElse(0)));
    }
    for (Learning.LeftOut each : learning.leftOut()) {
      page.p(
          String.format(
              Locale.ROOT,
              "Not learned from: %s as one recorder wrote it down, %d times where %.1f were"
                  + " expected; all others wrote it down %.1f times as often as expected.",
              words.cause(each.cause()),
              each.seen(),
              each.expected(),
              each.others()));
    }
    page.p(
        learning.checked().size()
            + " of "
            + learning.casesChecked()
            + " case files with an expectation would change their verdict.");
    page.endSection();
  }

  private void rates(Learning learning) {
    page.table(
        "Base rates, of 100 brakes",
        "cause",
        "now",
        "proposed (95 %)",
        "seen",
        "expected",
        "effect: of 100 visits");
    for (Learning.Rate rate :
        learning.rates().stream().filter(Learning.Rate::differs).limit(RATES).toList()) {
      page.row(
          words.cause(rate.cause()),
          Numbers.tenth(rate.now()),
          Numbers.tenth(rate.proposed())
              + " ("
              + Numbers.span(rate.range().low(), rate.range().high())
              + ")",
          ReviewAnswers.number(rate.seen()),
          Numbers.tenth(rate.expected()),
          String.format(Locale.ROOT, "%.2f", rate.effect()));
    }
    page.endTable();
  }
}
