package firmlever.comeback.statistics;

import java.util.List;
import java.util.Locale;

/**
 * A control chart of rates over time (p-chart) for samples of any size, in two phases: {@link
 * #baseline} finds the centre from past samples, {@link #against} judges samples by a centre.
 * Source: NIST/SEMATECH handbook 6.3.3.2; Montgomery, Statistical Quality Control.
 *
 * @param centre the rate the samples are held against
 * @param points one for each sample, in the order given
 * @param setAside how many samples the centre leaves out
 */
public record ProportionChart(double centre, List<Point> points, int setAside) {

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
   * Second phase: each sample against a centre found before. Samples without trials show nothing:
   * leave them out.
   *
   * @param centre from 0 to 1
   * @throws IllegalArgumentException where the centre is out of range or a sample is empty
   */
  public static ProportionChart against(
      double centre, List<Proportion> samples, ControlLimits rule) {
    if (!(centre >= 0 && centre <= 1)) {
      throw new IllegalArgumentException("the centre is a rate from 0 to 1, not " + centre);
    }
    return judged(centre, samples, rule, 0);
  }

  /**
   * First phase: the centre is the pooled rate; then up to {@code revisions} times the samples
   * outside the limits are set aside, the centre is found again without them and all samples are
   * judged anew. Ends early when nothing changes, and never sets aside half of the samples or more.
   * A sample should stay set aside only where its cause is known.
   *
   * @param samples at least one, none empty
   * @param revisions 0 or more
   * @throws IllegalArgumentException where an argument is out of range
   */
  public static ProportionChart baseline(
      List<Proportion> samples, ControlLimits rule, int revisions) {
    if (samples.isEmpty() || revisions < 0) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "a baseline needs a sample and 0 or more revisions, not %d samples and %d revisions",
              samples.size(),
              revisions));
    }
    var chart = judged(pooledRate(samples), samples, rule, 0);
    for (int round = 0; round < revisions; round++) {
      var kept =
          chart.points.stream().filter(p -> p.signal == Signal.NONE).map(Point::sample).toList();
      int outside = samples.size() - kept.size();
      if (2 * outside >= samples.size()) {
        break;
      }
      var next = judged(pooledRate(kept), samples, rule, outside);
      if (next.equals(chart)) {
        break;
      }
      chart = next;
    }
    return chart;
  }

  private static double pooledRate(List<Proportion> samples) {
    return samples.stream().reduce(Proportion.NONE, Proportion::plus).rate().orElse(0);
  }

  private static ProportionChart judged(
      double centre, List<Proportion> samples, ControlLimits rule, int setAside) {
    return new ProportionChart(
        centre, samples.stream().map(s -> judged(centre, s, rule)).toList(), setAside);
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
