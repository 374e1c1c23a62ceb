package firmlever.comeback.report.page;

import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.visits.Comeback;
import java.util.Locale;

/** Numbers as the cells of the tables show them. */
final class Numbers {
  private Numbers() {}

  /** In the place of a number where there is none. */
  static final String NONE = "·";

  static String tenth(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }

  static String span(double low, double high) {
    return tenth(low) + " to " + tenth(high);
  }

  /** The days until a brake was back. */
  static String days(Comeback comeback) {
    return comeback.days() < 1 ? "same day" : String.valueOf((int) comeback.days());
  }

  /** A share as so many of 100. */
  static String ofHundred(double share) {
    return tenth(100 * share);
  }

  static String ofHundred(Proportion count) {
    return ofHundred(count.rate().orElse(0));
  }

  static String ofHundred(Interval limits) {
    return span(100 * limits.low(), 100 * limits.high());
  }

  /** A share of 100 with its 95 % limits. */
  static String withLimits(Proportion count) {
    return ofHundred(count) + " (" + ReviewAnswers.range(count.wilson(ReviewAnswers.LEVEL)) + ")";
  }
}
