package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class TrendTest {
  /** One event at each of these times. */
  private static EventTimes at(double... times) {
    var counts = new TreeMap<Double, Long>();
    for (double time : times) {
      counts.merge(time, 1L, Long::sum);
    }
    return new EventTimes(counts);
  }

  // Documentation of a public reliability library (references 12.2): 22 failures, ended by the
  // last.
  private static final EventTimes FAILURES =
      at(
          Published.numbers(
              "2.7 10.3 12.5 30.6 57 61.3 80 109.5 125 128.6 143.8 167.9 229.2 296.7 320.6 328.2"
                  + " 366.2 396.7 421.1 438.2 501.2 620"));

  @Test
  void crowAsPublished() {
    var trend = Trend.until(620, FAILURES).orElseThrow();
    assertThat(trend.shape()).isCloseTo(0.6142104, within(5e-8));
    assertThat(trend.scale()).isCloseTo(0.4239422, within(5e-8));
    assertThat(trend.end()).isEqualTo(620);
    assertThat(trend.events()).isEqualTo(22);
  }

  @Test
  void laplaceByHand() {
    // Time-terminated: (mean 1.5 / 10 − 1/2) · √(12 · 2).
    var slower = Trend.until(10, at(1, 2)).orElseThrow();
    assertThat(slower.laplace()).isCloseTo(-0.35 * Math.sqrt(24), within(1e-14));
    var even = Trend.until(12, at(3, 9)).orElseThrow();
    assertThat(even.laplace()).isCloseTo(0, within(1e-15));
    assertThat(even.laplaceChance()).isEqualTo(1);
    // Normal table: 1.96 leaves 5 % on both sides together.
    assertThat(new Trend(9, 1, 1, 9, -1.959964).laplaceChance()).isCloseTo(0.05, within(1e-7));
  }

  @Test
  void withoutATrendFalseAlarmsKeepTheirShare() {
    var random = new Random(29);
    int fleets = 2000;
    int laplaceAlarms = 0;
    for (int i = 0; i < fleets; i++) {
      double[] times = random.doubles(15, 0.0001, 365).toArray();
      var trend = Trend.until(365, at(times)).orElseThrow();
      laplaceAlarms += trend.laplaceChance() <= 0.05 ? 1 : 0;
    }
    assertThat(new Proportion(laplaceAlarms, fleets).exact(0.999).contains(0.05)).isTrue();
  }

  @Test
  void followsARealTrend() {
    var random = new Random(4);
    // Under a power law of shape 2 the times are 100 · √uniform.
    double[] times = random.doubles(4000, 1e-9, 1).map(u -> 100 * Math.sqrt(u)).toArray();
    var trend = Trend.until(100, at(times)).orElseThrow();
    // 3.3 standard errors of 2 / √4000
    assertThat(trend.shape()).isCloseTo(2, within(0.105));
    assertThat(trend.laplace()).isGreaterThan(20);
    // What the model expects up to the end is what was seen.
    assertThat(trend.scale() * Math.pow(100, trend.shape())).isCloseTo(4000, within(1e-6));
  }

  @Test
  void edges() {
    assertThat(Trend.until(10, at(4))).isEmpty();
    assertThat(Trend.until(10, at())).isEmpty();
    assertThat(Trend.until(10, at(10, 10))).isEmpty();
    assertThatThrownBy(() -> Trend.until(8, at(4, 9))).hasMessageContaining("9.0");
    assertThatThrownBy(() -> at(0)).hasMessageContaining("0.0 × 1");
  }
}
