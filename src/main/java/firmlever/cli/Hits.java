package firmlever.cli;

import firmlever.casefile.CaseFile.Expectation;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.vocabulary.Vocabulary;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * How often the true cause came first and among the first three, and how probable it was held, over
 * the cases whose expectation names causes.
 */
final class Hits {
  /** Where the true cause was held all but impossible, the score counts this chance. */
  private static final double LEAST = 0.001;

  private static final int THREE = 3;

  private final String arm;
  private double logScore;

  /** By case: the causes that count as right. */
  private final List<List<String>> right = new ArrayList<>();

  /** By case: what the diagnosis puts first, and its first three causes. */
  private final List<List<String>> first = new ArrayList<>();

  private final List<List<String>> three = new ArrayList<>();

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
    right.add(causes);
    first.add(List.of(diagnosis.first()));
    three.add(diagnosis.causes().stream().limit(THREE).map(CauseBelief::id).toList());
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
    out.println("  first right:        " + share(hits(first), right.size()));
    out.println("  in the first three: " + share(hits(three), right.size()));
    out.printf(
        Locale.ROOT,
        "  by chance:          %.1f and %.1f, with the right causes of the cases exchanged%n",
        exchanged(first, right),
        exchanged(three, right));
    out.printf(
        Locale.ROOT,
        "  log score:          %.2f nats a case (the likeliest true cause; 0 is perfect)%n",
        right.isEmpty() ? 0 : logScore / right.size());
  }

  private int hits(List<List<String>> told) {
    return (int)
        IntStream.range(0, told.size())
            .filter(i -> !Collections.disjoint(told.get(i), right.get(i)))
            .count();
  }

  /**
   * How many would be right on average if each case had the right causes of any case: what common
   * causes and long lists of right ones give to guesses that know nothing of the case.
   *
   * @param told by case
   * @param right by case
   */
  static double exchanged(List<List<String>> told, List<List<String>> right) {
    long hits = 0;
    for (List<String> causes : told) {
      hits += right.stream().filter(some -> !Collections.disjoint(causes, some)).count();
    }
    return right.isEmpty() ? 0 : (double) hits / right.size();
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
