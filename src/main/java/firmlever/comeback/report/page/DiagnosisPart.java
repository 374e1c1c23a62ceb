package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.Proportion;
import firmlever.vocabulary.Vocabulary;
import java.util.Locale;

/** What could be known at the first visit, and whether stated probabilities come true. */
final class DiagnosisPart {
  private static final int CHECKS = 12;

  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;
  private final Vocabulary vocabulary;

  DiagnosisPart(PageWriter page, Findings found, ReviewAnswers words, Vocabulary vocabulary) {
    this.page = page;
    this.found = found;
    this.words = words;
    this.vocabulary = vocabulary;
  }

  void diagnosis() {
    page.section(
        "diagnosis",
        "What could be known at the first visit",
        "Every visit was diagnosed again with what was known before the work, and held against what"
            + " turned out to be true.");
    page.table("Diagnosed again", "question", "yes", "of", "of 100 (95 %)");
    share("what was known pointed to the true cause first of all", found.first());
    share("the true cause was among the first three", found.firstThree());
    page.endTable();
    checksLeftOut();
    if (found.calibration().statements() > 0) {
      calibration(found.calibration());
    }
    page.endSection();
  }

  private void share(String question, Proportion count) {
    page.row(
        question,
        ReviewAnswers.number(count.events()),
        ReviewAnswers.number(count.trials()),
        count.trials() == 0 ? Numbers.NONE : Numbers.withLimits(count));
  }

  private void checksLeftOut() {
    if (found.checks().isEmpty()) {
      return;
    }
    page.table("Checks left out", "check", "minutes", "comebacks it would have caught");
    for (Named check : found.checks().stream().limit(CHECKS).toList()) {
      page.row(
          words.symptom(check.id()),
          String.valueOf(vocabulary.symptom(check.id()).minutes()),
          page.link(
              ReviewAnswers.number(check.cases().count()),
              "Left out: " + words.symptom(check.id()),
              check.cases()));
    }
    page.endTable();
  }

  private void calibration(Calibration calibration) {
    page.table(
        "Stated and seen, all causes of all visits",
        "stated probability",
        "statements",
        "stated on average",
        "came true");
    for (int i = 0; i < calibration.bins().size(); i++) {
      Calibration.Bin bin = calibration.bins().get(i);
      long n = bin.outcomes().trials();
      page.row(
          String.format(Locale.ROOT, "%.1f to %.1f", i / 10.0, (i + 1) / 10.0),
          ReviewAnswers.number(n),
          n == 0 ? Numbers.NONE : thousandth(bin.stated().value() / n),
          n == 0 ? Numbers.NONE : thousandth(bin.outcomes().rate().orElse(0)));
    }
    page.endTable();
  }

  private static String thousandth(double value) {
    return String.format(Locale.ROOT, "%.3f", value);
  }
}
