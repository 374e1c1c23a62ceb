package firmlever.comeback.report;

import firmlever.comeback.Findings;
import firmlever.comeback.Learning;
import firmlever.comeback.visits.Comeback;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The review for a terminal: what was read, six answers, the dearest avoidable comebacks. */
public final class ReviewText {
  private static final int SENTENCES = 8;
  private static final int RATES = 8;

  private final Vocabulary vocabulary;
  private final int width;
  private final boolean bold;

  public ReviewText(Vocabulary vocabulary, int width, boolean bold) {
    this.vocabulary = vocabulary;
    this.width = width;
    this.bold = bold;
  }

  /** The whole text. */
  public String of(Findings found, ReviewInput input) {
    ReviewAnswers answers = new ReviewAnswers(found, vocabulary);
    Page page = new Page(width, bold);
    page.heading("Review of comebacks");
    page.hanging("  ", input.sentence(found));
    for (ReviewAnswers.Answer answer : answers.answers()) {
      page.heading(answer.question());
      answer.sayings().forEach(saying -> page.hanging("  ", saying.toString()));
    }
    if (!found.avoidableKinds().isEmpty()) {
      List<Findings.Named> kinds = found.avoidableKinds().stream().limit(SENTENCES).toList();
      page.heading(
          answers.worthALook(kinds.stream().mapToLong(kind -> kind.cases().count()).sum()));
      for (Findings.Named kind : kinds) {
        Comeback latest = kind.cases().shown().get(0);
        page.hanging(
            "  ",
            (kind.cases().count() == 1
                    ? ""
                    : ReviewAnswers.number(kind.cases().count()) + " like this: ")
                + latest.second()
                + ", back after "
                + latest.first()
                + ". "
                + latest.sentence());
      }
    }
    List<String> coming = new ArrayList<>();
    answers.forecast().ifPresent(coming::add);
    found.backtest().ifPresent(result -> coming.add(ReviewAnswers.backtest(result)));
    if (!coming.isEmpty()) {
      page.heading("What is coming");
      coming.forEach(sentence -> page.hanging("  ", sentence));
    }
    found.learning().ifPresent(learning -> learned(page, learning, answers));
    page.blank();
    page.hanging("", CAUTION);
    return page.toString();
  }

  private static void learned(Page page, Learning learning, ReviewAnswers answers) {
    page.heading("What the rules could learn (nothing is in force)");
    learning.rates().stream()
        .filter(Learning.Rate::differs)
        .limit(RATES)
        .forEach(
            rate ->
                page.hanging(
                    "  ",
                    String.format(
                        Locale.ROOT,
                        "%s: now %.1f of 100, proposed %.1f (%.1f to %.1f); seen %s, expected %.1f",
                        answers.cause(rate.cause()),
                        rate.now(),
                        rate.proposed(),
                        rate.range().low(),
                        rate.range().high(),
                        ReviewAnswers.number(rate.seen()),
                        rate.expected())));
    page.hanging("  ", ReviewAnswers.learned(learning) + " The rest stands in the folder.");
  }

  /** What must stand below every review for people. */
  public static final String CAUTION =
      "Figures show where to look, not whose fault it is. What a brake needs is for the maker's"
          + " instructions and a trained mechanic to say.";
}
