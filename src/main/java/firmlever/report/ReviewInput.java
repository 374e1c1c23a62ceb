package firmlever.report;

import firmlever.comeback.Findings;

/**
 * What went into a review.
 *
 * @param records read
 * @param rejected of them, with a reason each
 */
public record ReviewInput(long records, long rejected) {
  String sentence(Findings found) {
    return ReviewAnswers.number(records)
        + " records read, "
        + ReviewAnswers.number(rejected)
        + " rejected; "
        + ReviewAnswers.number(found.visits())
        + " visits of "
        + ReviewAnswers.number(found.brakes())
        + " brakes from "
        + found.from()
        + " to "
        + found.definition().end()
        + ", "
        + ReviewAnswers.number(found.recorded())
        + " of them with an outcome. A comeback is the same brake with a related complaint within "
        + found.definition().shortDays()
        + " or "
        + found.definition().longDays()
        + " days of going back.";
  }
}
