package firmlever.comeback.statistics;

import org.apache.commons.statistics.distribution.BinomialDistribution;

/** Where the rate of a sample may lie before it counts as a signal. */
@FunctionalInterface
public interface ControlLimits {

  /**
   * The rates that are no signal, limits included.
   *
   * @param centre the rate the process is held to, from 0 to 1
   * @param trials the size of the sample, from 1 to 2 147 483 647
   */
  Interval inControl(double centre, long trials);

  /**
   * The textbook limits, centre ± sigmas · √(centre (1 − centre) / trials), cut off at 0 and 1.
   * They give too many alarms where few events are expected (BMC Medical Research Methodology
   * 12:98): use {@link #exact} there. Source: NIST/SEMATECH handbook 6.3.3.2; with 1.96 and 3.09
   * these are the funnel limits of Spiegelhalter 2005, Statistics in Medicine 24:1185-1202.
   *
   * @param sigmas above 0; 3 for a control chart
   */
  static ControlLimits normal(double sigmas) {
    if (!(sigmas > 0)) {
      throw new IllegalArgumentException("sigmas must be above 0, not " + sigmas);
    }
    return (centre, trials) -> {
      double reach = sigmas * Math.sqrt(centre * (1 - centre) / trials);
      return new Interval(Math.max(0, centre - reach), Math.min(1, centre + reach));
    };
  }

  /**
   * Exact binomial limits: the chance of a false alarm is at most {@code tail} on each side,
   * whatever the size of the sample. The limits are rates that the sample can really show.
   *
   * @param tail above 0 and below 0.5; 0.00135 promises what three sigmas promise
   */
  static ControlLimits exact(double tail) {
    if (!(tail > 0 && tail < 0.5)) {
      throw new IllegalArgumentException("the tail must be above 0 and below 0.5, not " + tail);
    }
    return (centre, trials) -> {
      var counts = BinomialDistribution.of(Math.toIntExact(trials), centre);
      return new Interval(
          (double) counts.inverseCumulativeProbability(tail) / trials,
          (double) counts.inverseSurvivalProbability(tail) / trials);
    };
  }
}
