package firmlever.cli;

import firmlever.casefile.CaseFile.Expectation;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.vocabulary.Vocabulary;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How often the true cause came first and among the first three, and how probable it was held, over
 * the cases whose expectation names causes.
 */
final class Hits {
  /** Where the true cause was held all but impossible, the score counts this chance. */
  private static final double LEAST = 0.001;

  private static final int THREE = 3;

  private final String arm;
  private int named;
  private int first;
  private int three;
  private double logScore;

  /**
   * @param arm what the diagnoses went by
   */
  Hits(String arm) {
    this.arm = arm;
  }

  void add(Expectation expected, Diagnosis diagnosis) {
    List<String> causes = new ArrayList<>(expected.first());
    causes.addAll(expected.top3());
    if (causes.isEmpty()) {
      return;
    }
    named++;
    first += causes.contains(diagnosis.first()) ? 1 : 0;
    three +=
        diagnosis.causes().stream().limit(THREE).map(CauseBelief::id).anyMatch(causes::contains)
            ? 1
            : 0;
    double held = causes.stream().mapToDouble(id -> held(diagnosis, id)).max().orElse(0);
    logScore += Math.log(Math.max(LEAST, held));
  }

  private static double held(Diagnosis diagnosis, String cause) {
    return cause.equals(Vocabulary.NO_FAULT_FOUND)
        ? diagnosis.noFaultFound()
        : diagnosis.cause(cause).map(CauseBelief::probability).orElse(0.0);
  }

  void print(PrintWriter out) {
    out.println("By " + arm + ":");
    out.println("  first right:        " + share(first, named));
    out.println("  in the first three: " + share(three, named));
    out.printf(
        Locale.ROOT,
        "  log score:          %.2f nats a case (the likeliest true cause; 0 is perfect)%n",
        named == 0 ? 0 : logScore / named);
  }

  private static String share(int hits, int of) {
    Interval interval = new Proportion(hits, of).wilson(0.95);
    return String.format(
        Locale.ROOT,
        "%d of %d (%.0f %%; 95 %% interval %.0f to %.0f %%, Wilson)",
        hits,
        of,
        of == 0 ? 0 : 100.0 * hits / of,
        100 * interval.low(),
        100 * interval.high());
  }
}
