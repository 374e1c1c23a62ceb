package firmlever.comeback.report;

import firmlever.comeback.Findings;

/**
 * What went into a review.
 *
 * @param records read: those reviewed, rejected and skipped together
 * @param rejected of them, with a reason each
 * @param skipped of them, because they lie after the last day asked for
 * @param remarks how often something in a reviewed record was not taken as it stands
 * @param filesNotRead files of a folder that are no records
 * @param heard records in which nobody looked for a finding and the complaint gave one
 * @param unheard records in which nobody looked for a finding and the complaint gave none
 */
public record ReviewInput(
    long records,
    long rejected,
    long skipped,
    long remarks,
    long filesNotRead,
    long heard,
    long unheard) {
  /** What was read, as a sentence. */
  public String sentence(Findings found) {
    return ReviewAnswers.counted(records, "record")
        + " read: "
        + ReviewAnswers.number(found.visits())
        + " reviewed, "
        + ReviewAnswers.number(rejected)
        + " rejected, "
        + ReviewAnswers.number(skipped)
        + " skipped"
        + (remarks > 0
            ? "; of those reviewed "
                + ReviewAnswers.number(remarks)
                + " not wholly as it stands (the reasons are listed in the rejects)"
            : "")
        + (filesNotRead > 0 ? "; " + ReviewAnswers.counted(filesNotRead, "file") + " not read" : "")
        + (heard + unheard > 0
            ? ". In "
                + ReviewAnswers.number(heard + unheard)
                + " nobody wrote down what was seen or felt, so the complaint was read instead, and"
                + " understood in "
                + ReviewAnswers.number(heard)
            : "")
        + ". Visits of "
        + ReviewAnswers.counted(found.brakes(), "brake")
        + " from "
        + found.from()
        + " to "
        + found.definition().end()
        + ", "
        + ReviewAnswers.number(found.recorded())
        + " of them with an outcome. A comeback is the same brake, back within "
        + found.definition().shortDays()
        + " or "
        + found.definition().longDays()
        + " days with a cause that was there before or was brought in.";
  }
}
