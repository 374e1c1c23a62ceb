package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.ProportionChart.Signal;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProportionChartTest {
  // NIST/SEMATECH handbook 6.3.3.2; Montgomery, Table 7.4 (8th edition): 30 samples of 50.
  private static final List<Proportion> SAMPLES =
      LongStream.of(
              12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24,
              15, 9, 12, 7, 13, 9, 6)
          .mapToObj(events -> new Proportion(events, 50))
          .toList();

  private static final ControlLimits THREE_SIGMAS = ControlLimits.normal(3);

  private static double pooled(List<Proportion> samples) {
    return samples.stream().reduce(Proportion.NONE, Proportion::plus).rate().orElseThrow();
  }

  /** Numbers of the samples out of limits, counted from 1 as in the book. */
  private static List<Integer> signals(ProportionChart chart) {
    return IntStream.range(0, chart.points().size())
        .filter(i -> chart.points().get(i).signal() != Signal.NONE)
        .mapToObj(i -> i + 1)
        .toList();
  }

  // Same source: centre 0.2313, limits 0.4102 and 0.0524, samples 15 and 23 out.
  @Test
  void limitsAsPublished() {
    var chart = ProportionChart.against(pooled(SAMPLES), SAMPLES, THREE_SIGMAS);
    assertThat(chart.centre()).isCloseTo(0.2313, within(5e-5));
    assertThat(chart.points().get(0).limits().high()).isCloseTo(0.410239, within(5e-7));
    assertThat(chart.points().get(0).limits().low()).isCloseTo(0.052428, within(5e-7));
    assertThat(signals(chart)).containsExactly(15, 23);
  }

  // References 7.4, recomputed there: without 15 and 23 the centre is 0.2150, limits 0.3893 and
  // 0.0407, and sample 21 is out as well.
  @Test
  void secondPhaseAsPublished() {
    var kept = new ArrayList<>(SAMPLES);
    kept.remove(22);
    kept.remove(14);
    var chart = ProportionChart.against(pooled(kept), SAMPLES, THREE_SIGMAS);
    assertThat(chart.centre()).isCloseTo(0.2150, within(5e-5));
    assertThat(chart.points().get(3).limits().high()).isCloseTo(0.3893, within(5e-5));
    assertThat(chart.points().get(3).limits().low()).isCloseTo(0.0407, within(5e-5));
    assertThat(signals(chart)).containsExactly(15, 21, 23);
  }

  // References 7.4: the first 20 samples only, centre 0.2140, upper limit 0.3880.
  @Test
  void baselineOfTwentyJudgesTheNextTen() {
    double centre = pooled(SAMPLES.subList(0, 20));
    assertThat(centre).isCloseTo(0.2140, within(5e-5));
    var next = ProportionChart.against(centre, SAMPLES.subList(20, 30), THREE_SIGMAS);
    assertThat(next.points().get(0).limits().high()).isCloseTo(0.3880, within(5e-5));
    assertThat(signals(next)).containsExactly(1, 3);
    assertThat(next.points().get(0).signal()).isEqualTo(Signal.HIGH);
  }

  // Spiegelhalter 2005, Statistics in Medicine 24:1185-1202 (z from memory): target 0.1, 95 %.
  @ParameterizedTest
  @CsvSource({"50, 0.0168, 0.1832", "100, 0.0412, 0.1588", "200, 0.0584, 0.1416"})
  void funnelLimitsAsPublished(long trials, double low, double high) {
    var limits = ControlLimits.normal(1.96).inControl(0.1, trials);
    assertThat(limits.low()).isCloseTo(low, within(5e-5));
    assertThat(limits.high()).isCloseTo(high, within(5e-5));
    assertThat(ControlLimits.normal(3.09).inControl(0.1, 20).low()).isZero();
  }

  // BMC Medical Research Methodology 12:98: normal limits raise too many alarms in small units.
  @Test
  void exactLimitsKeepTheirPromiseWhereNormalOnesDoNot() {
    double tail = 0.025;
    double worstExact = 0;
    double worstNormal = 0;
    for (double centre : new double[] {0.01, 0.03, 0.08, 0.2, 0.5, 0.9}) {
      for (int trials = 1; trials <= 150; trials++) {
        worstExact = Math.max(worstExact, alarmsAbove(ControlLimits.exact(tail), centre, trials));
        worstNormal =
            Math.max(worstNormal, alarmsAbove(ControlLimits.normal(1.96), centre, trials));
      }
    }
    assertThat(worstExact).isBetween(0.02, tail);
    assertThat(worstNormal).isGreaterThan(2 * tail);
  }

  private static double alarmsAbove(ControlLimits rule, double centre, int trials) {
    double high = rule.inControl(centre, trials).high();
    var counts = BinomialDistribution.of(trials, centre);
    return IntStream.rangeClosed(0, trials)
        .filter(events -> (double) events / trials > high)
        .mapToDouble(counts::probability)
        .sum();
  }

  @Test
  void samplesOfAnySizeHaveTheirOwnLimits() {
    var exact = ControlLimits.exact(0.00135);
    var chart =
        ProportionChart.against(
            0.08,
            List.of(new Proportion(1, 2), new Proportion(130, 1000), new Proportion(0, 300)),
            exact);
    assertThat(chart.points())
        .extracting(ProportionChart.Point::signal)
        .containsExactly(Signal.NONE, Signal.HIGH, Signal.LOW);
    assertThat(chart.points().get(0).limits()).isEqualTo(new Interval(0, 1));
    // Three sigmas would call one comeback in a week of one job a signal.
    assertThat(THREE_SIGMAS.inControl(0.08, 1).high()).isLessThan(1);
    assertThat(exact.inControl(0.08, 1).high()).isEqualTo(1);
  }

  @Test
  void withoutAnyEventNothingSignals() {
    var quiet = List.of(new Proportion(0, 7), new Proportion(0, 90));
    var chart = ProportionChart.against(pooled(quiet), quiet, ControlLimits.exact(0.00135));
    assertThat(chart.centre()).isZero();
    var always = List.of(new Proportion(7, 7));
    assertThat(signals(ProportionChart.against(1, always, THREE_SIGMAS))).isEmpty();
    assertThat(signals(chart)).isEmpty();
  }

  @Test
  void refusesWhatCannotBe() {
    var empty = List.of(Proportion.NONE);
    assertThatThrownBy(() -> ProportionChart.against(0.1, empty, THREE_SIGMAS))
        .hasMessageContaining("leave that period out");
    assertThatThrownBy(() -> ProportionChart.against(8, SAMPLES, THREE_SIGMAS))
        .hasMessageContaining("8.0");
    assertThatThrownBy(() -> ControlLimits.normal(0)).hasMessageContaining("0.0");
    assertThatThrownBy(() -> ControlLimits.exact(0.5)).hasMessageContaining("0.5");
  }
}
