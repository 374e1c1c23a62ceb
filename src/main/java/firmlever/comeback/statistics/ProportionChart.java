package firmlever.comeback.statistics;

import java.util.List;

/**
 * A control chart of rates over time (p-chart) for samples of any size. Source: NIST/SEMATECH
 * handbook 6.3.3.2; Montgomery, Statistical Quality Control.
 *
 * @param centre the rate the samples are held against
 * @param points one for each sample, in the order given
 */
public record ProportionChart(double centre, List<Point> points) {

  /** Copies the points. */
  public ProportionChart {
    points = List.copyOf(points);
  }

  /** Which side of its limits a sample lies on. */
  public enum Signal {
    NONE,
    HIGH,
    LOW
  }

  /**
   * One sample on the chart.
   *
   * @param sample its counts
   * @param limits the rates that would be no signal for a sample of this size
   * @param signal on which side it lies outside, if it does
   */
  public record Point(Proportion sample, Interval limits, Signal signal) {}

  /**
   * Each sample against a centre found before. Samples without trials show nothing: leave them out.
   *
   * @param centre from 0 to 1
   * @throws IllegalArgumentException where the centre is out of range or a sample is empty
   */
  public static ProportionChart against(
      double centre, List<Proportion> samples, ControlLimits rule) {
    if (!(centre >= 0 && centre <= 1)) {
      throw new IllegalArgumentException("the centre is a rate from 0 to 1, not " + centre);
    }
    return new ProportionChart(centre, samples.stream().map(s -> judged(centre, s, rule)).toList());
  }

  private static Point judged(double centre, Proportion sample, ControlLimits rule) {
    double rate =
        sample
            .rate()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "a sample without trials has no rate. Maybe leave that period out."));
    var limits = rule.inControl(centre, sample.trials());
    return new Point(
        sample,
        limits,
        rate > limits.high() ? Signal.HIGH : rate < limits.low() ? Signal.LOW : Signal.NONE);
  }
}
