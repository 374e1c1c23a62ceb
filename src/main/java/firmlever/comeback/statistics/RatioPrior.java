package firmlever.comeback.statistics;

import java.util.List;
import java.util.Locale;
import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.statistics.distribution.GammaDistribution;

/**
 * By what factors true counts lie off their expected ones, as a gamma distribution of mean 1 that
 * is worth so many expected events: a count with little exposure is drawn towards what was
 * expected, one with much keeps its own. Source: gamma-Poisson model (negative binomial), as in
 * Clayton and Kaldor 1987, Biometrics 43:671-681 (from memory).
 *
 * @param events worth of expected events, above 0
 */
public record RatioPrior(double events) {
  private static final double LEAST = 1;
  private static final double MOST = 100;
  private static final int GRID = 80;

  /** Throws {@link IllegalArgumentException} where the worth is not above 0. */
  public RatioPrior {
    if (!(events > 0)) {
      throw new IllegalArgumentException(
          String.format(Locale.ROOT, "a prior must be worth more than 0 events, not %s", events));
    }
  }

  /**
   * A count and what was expected of it, above 0. Where cases count for less than one, both are
   * weighed alike.
   */
  public record Count(double seen, double expected) {}

  /** The worth, from 1 to 100 events, under which these counts together are likeliest. */
  public static RatioPrior of(List<Count> counts) {
    double best = LEAST;
    double highest = Double.NEGATIVE_INFINITY;
    for (int step = 0; step <= GRID; step++) {
      double k = LEAST * Math.pow(MOST / LEAST, (double) step / GRID);
      double sum = 0;
      for (Count each : counts) {
        sum +=
            LogGamma.value(k + each.seen)
                - LogGamma.value(k)
                + k * Math.log(k / (k + each.expected))
                + each.seen * Math.log(each.expected / (k + each.expected));
      }
      if (sum > highest) {
        highest = sum;
        best = k;
      }
    }
    return new RatioPrior(best);
  }

  /** The factor expected once this count is in. */
  public double mean(Count count) {
    return (events + count.seen) / (events + count.expected);
  }

  /**
   * Where the factor lies with this probability, the rest shared by both sides.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(Count count, double level) {
    double tail = (1 - Interval.checkedLevel(level)) / 2;
    var spread = GammaDistribution.of(events + count.seen, 1 / (events + count.expected));
    return new Interval(
        spread.inverseCumulativeProbability(tail), spread.inverseSurvivalProbability(tail));
  }
}
