package firmlever.comeback.statistics;

import java.util.OptionalDouble;
import org.apache.commons.statistics.interval.BinomialConfidenceInterval;

/**
 * So many events out of so many trials. Mergeable.
 *
 * @param events how many trials ended in the event, from 0 to {@code trials}
 * @param trials how many there were, from 0 to 2 147 483 647
 */
public record Proportion(long events, long trials) {
  /** No trials: what every sum starts from. */
  public static final Proportion NONE = new Proportion(0, 0);

  /** Throws {@link IllegalArgumentException} where the counts are out of range. */
  public Proportion {
    if (events < 0 || events > trials || trials > Integer.MAX_VALUE) {
      throw new IllegalArgumentException(
          "events must be from 0 to trials, and trials at most 2147483647: "
              + (events + " of " + trials));
    }
  }

  /** Both counted together. */
  public Proportion plus(Proportion other) {
    return new Proportion(events + other.events, trials + other.trials);
  }

  /** The rest, when {@code part} is taken out. */
  public Proportion minus(Proportion part) {
    return new Proportion(events - part.events, trials - part.trials);
  }

  /** Events divided by trials; empty where there were no trials. */
  public OptionalDouble rate() {
    return trials == 0 ? OptionalDouble.empty() : OptionalDouble.of((double) events / trials);
  }

  /**
   * The score interval of Wilson, without continuity correction; from 0 to 1 where there were no
   * trials. Source: Newcombe 1998, Statistics in Medicine 17:857-872.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval wilson(double level) {
    return interval(BinomialConfidenceInterval.WILSON_SCORE, level);
  }

  /**
   * The exact interval of Clopper and Pearson: covers at least as often as it says, at the price of
   * width; from 0 to 1 where there were no trials.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval exact(double level) {
    return interval(BinomialConfidenceInterval.CLOPPER_PEARSON, level);
  }

  private Interval interval(BinomialConfidenceInterval method, double level) {
    double error = 1 - Interval.checkedLevel(level);
    if (trials == 0) {
      return new Interval(0, 1);
    }
    var limits = method.fromErrorRate((int) trials, (int) events, error);
    return new Interval(limits.getLowerBound(), limits.getUpperBound());
  }
}
