package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.hipparchus.stat.interval.BinomialProportion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProportionTest {

  // Newcombe 1998, Statistics in Medicine 17:857-872, Table I.
  @ParameterizedTest
  @CsvSource({
    "81, 263, 0.2553, 0.3662",
    "15, 148, 0.0624, 0.1605",
    "0, 20, 0.0000, 0.1611",
    "1, 29, 0.0061, 0.1718"
  })
  void wilsonAsPublished(long events, long trials, double low, double high) {
    var interval = new Proportion(events, trials).wilson(0.95);
    assertThat(interval.low()).isCloseTo(low, within(5e-5));
    assertThat(interval.high()).isCloseTo(high, within(5e-5));
  }

  @Test
  void intervalsAgreeWithASecondLibrary() {
    var random = new Random(11);
    for (int i = 0; i < 300; i++) {
      int trials = 1 + random.nextInt(400);
      int events = random.nextInt(trials + 1);
      double level = 0.5 + random.nextDouble() * 0.49;
      var ours = new Proportion(events, trials);
      double rate = (double) events / trials;
      var wilson = BinomialProportion.getWilsonScoreInterval(trials, rate, level);
      assertThat(ours.wilson(level).low()).isCloseTo(wilson.getLowerBound(), within(1e-9));
      assertThat(ours.wilson(level).high()).isCloseTo(wilson.getUpperBound(), within(1e-9));
      if (events > 0 && events < trials) {
        // It cuts trials · rate down to a whole number: the nudge keeps it from losing an event.
        double nudged = (events + 1e-3) / trials;
        var exact = BinomialProportion.getClopperPearsonInterval(trials, nudged, level);
        assertThat(ours.exact(level).low()).isCloseTo(exact.getLowerBound(), within(1e-7));
        assertThat(ours.exact(level).high()).isCloseTo(exact.getUpperBound(), within(1e-7));
      }
    }
  }

  @Test
  void withoutTrialsNothingIsKnown() {
    assertThat(Proportion.NONE.rate()).isEmpty();
    assertThat(Proportion.NONE.wilson(0.95)).isEqualTo(new Interval(0, 1));
    assertThat(Proportion.NONE.exact(0.95)).isEqualTo(new Interval(0, 1));
    assertThat(new Proportion(3, 8).rate()).hasValue(0.375);
  }

  @Test
  void countsAddUp() {
    var sum = new Proportion(3, 8).plus(new Proportion(2, 31));
    assertThat(sum).isEqualTo(new Proportion(5, 39));
    assertThat(sum.minus(new Proportion(2, 31))).isEqualTo(new Proportion(3, 8));
  }

  @Test
  void intervalsHoldTheirLimits() {
    var interval = new Interval(0.2, 0.7);
    assertThat(interval.contains(0.2)).isTrue();
    assertThat(interval.contains(0.7)).isTrue();
    assertThat(interval.contains(0.19)).isFalse();
    assertThat(interval.contains(0.71)).isFalse();
  }

  @Test
  void refusesWhatCannotBe() {
    assertThatThrownBy(() -> new Proportion(9, 8)).hasMessageContaining("9 of 8");
    assertThatThrownBy(() -> new Proportion(-1, 8)).hasMessageContaining("-1 of 8");
    assertThatThrownBy(() -> new Proportion(1, 1L << 31)).hasMessageContaining("2147483647");
    assertThatThrownBy(() -> new Proportion(3, 8).wilson(95)).hasMessageContaining("percent");
    assertThatThrownBy(() -> Proportion.NONE.exact(1)).hasMessageContaining("1.0");
    assertThatThrownBy(() -> Proportion.NONE.exact(0)).hasMessageContaining("0.0");
    assertThatThrownBy(() -> new Interval(2, 1)).hasMessageContaining("from 2.0 to 1.0");
  }
}
