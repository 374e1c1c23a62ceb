package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.report.ReviewInput;
import firmlever.comeback.report.ReviewText;
import firmlever.vocabulary.Vocabulary;

/**
 * The review as one page that needs nothing else: six answers first, then each figure with its
 * chart and table, and at the end the cases behind every number.
 */
public final class ReviewPage {
  private ReviewPage() {}

  /** The whole page. */
  public static String of(Findings found, ReviewInput input, Vocabulary vocabulary) {
    return of(found, input, vocabulary, "");
  }

  /**
   * The whole page, on a server that has a page for each case.
   *
   * @param jobs address of those pages, up to the code of the case; empty for none
   */
  public static String of(Findings found, ReviewInput input, Vocabulary vocabulary, String jobs) {
    ReviewAnswers words = new ReviewAnswers(found, vocabulary);
    CaseLinks links = new CaseLinks();
    PageWriter page = new PageWriter(links);
    AnswersPart answers = new AnswersPart(page, words);
    TimePart time = new TimePart(page, found, words);
    CausesPart causes = new CausesPart(page, found, words);
    page.start(
        "Review of comebacks",
        found.from() + " to " + found.definition().end(),
        input.sentence(found));
    answers.answers();
    if (words.tooFew()) {
      page.p(
          "Only "
              + ReviewAnswers.counted(found.within().trials(), "visit")
              + " could be followed: the shares of 100 below rest on too few to say anything.");
    }
    answers.contents();
    time.toTheComeback();
    time.months();
    causes.causes();
    causes.matrix();
    new GroupsPart(page, found, words).groups();
    new PatternsPart(page, found, words).patterns();
    new AvoidablePart(page, found, words).avoidable();
    new DiagnosisPart(page, found, words, vocabulary).diagnosis();
    time.repeated();
    new LearningPart(page, found, words).learning();
    new DefinitionsPart(page, found).definitions();
    // Last: only now it is known which cases the numbers lead to.
    new CasesPart(page, words, links, jobs).cases();
    return page.end(ReviewText.CAUTION);
  }
}
