package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class TrendTest {
  // Documentation of a public reliability library (references 12.2): 22 failures, ended by the
  // last.
  private static final EventTimes FAILURES =
      EventTimes.of(
          Published.numbers(
              "2.7 10.3 12.5 30.6 57 61.3 80 109.5 125 128.6 143.8 167.9 229.2 296.7 320.6 328.2"
                  + " 366.2 396.7 421.1 438.2 501.2 620"));

  @Test
  void crowAsPublished() {
    var trend = Trend.untilLastEvent(FAILURES).orElseThrow();
    assertThat(trend.shape()).isCloseTo(0.6142104, within(5e-8));
    assertThat(trend.scale()).isCloseTo(0.4239422, within(5e-8));
    assertThat(trend.timeBetweenEvents(620)).isCloseTo(45.883, within(5e-4));
    assertThat(trend.end()).isEqualTo(620);
    assertThat(trend.events()).isEqualTo(22);
  }

  @Test
  void shapeLimitsFromTheChiSquaredTable() {
    // Table of chi-squared at 2.5 % and 97.5 %: 42 degrees 25.999 and 61.777, 44 degrees 27.575 and
    // 64.201; limits are shape · chi-squared / (2 · 22), with 42 when the last failure ended it.
    var ended = Trend.untilLastEvent(FAILURES).orElseThrow().shapeInterval(0.95);
    assertThat(ended.low()).isCloseTo(0.6142104 * 25.999 / 44, within(1e-5));
    assertThat(ended.high()).isCloseTo(0.6142104 * 61.777 / 44, within(1e-5));
    var fixed = Trend.until(620, FAILURES).orElseThrow().shapeInterval(0.95);
    assertThat(fixed.low()).isCloseTo(0.6142104 * 27.575 / 44, within(1e-5));
    assertThat(fixed.high()).isCloseTo(0.6142104 * 64.201 / 44, within(1e-5));
  }

  @Test
  void laplaceByHand() {
    // Time-terminated: (mean 1.5 / 10 − 1/2) · √(12 · 2).
    var slower = Trend.until(10, EventTimes.of(1, 2)).orElseThrow();
    assertThat(slower.laplace()).isCloseTo(-0.35 * Math.sqrt(24), within(1e-14));
    // Ended by the event at 10: the others are 1 and 6, mean 0.35 of the time.
    var ended = Trend.untilLastEvent(EventTimes.of(6, 10, 1)).orElseThrow();
    assertThat(ended.laplace()).isCloseTo(-0.15 * Math.sqrt(24), within(1e-14));
    var even = Trend.until(12, EventTimes.of(3, 9)).orElseThrow();
    assertThat(even.laplace()).isCloseTo(0, within(1e-15));
    assertThat(even.laplaceChance()).isEqualTo(1);
    // Normal table: 1.96 leaves 5 % on both sides together.
    assertThat(new Trend(9, 1, false, 1, 9, -1.959964).laplaceChance())
        .isCloseTo(0.05, within(1e-7));
  }

  @Test
  void withoutATrendFalseAlarmsKeepTheirShare() {
    var random = new Random(29);
    int fleets = 2000;
    int laplaceAlarms = 0;
    int shapeMisses = 0;
    int endedMisses = 0;
    for (int i = 0; i < fleets; i++) {
      double[] times = random.doubles(15, 0.0001, 365).toArray();
      var trend = Trend.until(365, EventTimes.of(times)).orElseThrow();
      laplaceAlarms += trend.laplaceChance() <= 0.05 ? 1 : 0;
      shapeMisses += trend.shapeInterval(0.95).contains(1) ? 0 : 1;
      var ended = Trend.untilLastEvent(EventTimes.of(times)).orElseThrow();
      endedMisses += ended.shapeInterval(0.95).contains(1) ? 0 : 1;
    }
    for (int count : new int[] {laplaceAlarms, shapeMisses, endedMisses}) {
      assertThat(new Proportion(count, fleets).exact(0.999).contains(0.05)).isTrue();
    }
  }

  @Test
  void followsARealTrend() {
    var random = new Random(4);
    // Under a power law of shape 2 the times are 100 · √uniform.
    double[] times = random.doubles(4000, 1e-9, 1).map(u -> 100 * Math.sqrt(u)).toArray();
    var trend = Trend.until(100, EventTimes.of(times)).orElseThrow();
    assertThat(trend.shapeInterval(0.999).contains(2)).isTrue();
    assertThat(trend.laplace()).isGreaterThan(20);
    // What the model expects up to the end is what was seen.
    assertThat(trend.scale() * Math.pow(100, trend.shape())).isCloseTo(4000, within(1e-6));
    assertThat(trend.intensity(50)).isCloseTo(40, within(3.0));
  }

  @Test
  void splitAndMergedIsTheSame() {
    var one = EventTimes.of(2.5, 40.5, 7.5, 7.5);
    var two = EventTimes.of(7.5, 1.5);
    assertThat(one.plus(two))
        .isEqualTo(two.plus(one))
        .isEqualTo(EventTimes.of(40.5, 7.5, 1.5, 7.5, 2.5, 7.5));
    assertThat(one.plus(two).events()).isEqualTo(6);
    assertThat(one.plus(EventTimes.EMPTY)).isEqualTo(one);
  }

  @Test
  void edges() {
    assertThat(Trend.until(10, EventTimes.of(4))).isEmpty();
    assertThat(Trend.until(10, EventTimes.EMPTY)).isEmpty();
    assertThat(Trend.until(10, EventTimes.of(10, 10))).isEmpty();
    assertThat(Trend.untilLastEvent(EventTimes.of(4, 9))).isEmpty();
    assertThatThrownBy(() -> Trend.until(8, EventTimes.of(4, 9))).hasMessageContaining("9.0");
    assertThatThrownBy(() -> EventTimes.of(0)).hasMessageContaining("0.0 × 1");
  }
}
