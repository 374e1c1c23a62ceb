package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibrationTest {
  // Examples of the encyclopaedia entry on the Brier score (references 7.24).
  @ParameterizedTest
  @CsvSource({
    "1.0, true, 0",
    "1.0, false, 1",
    "0.7, true, 0.09",
    "0.3, true, 0.49",
    "0.5, true, 0.25",
    "0.5, false, 0.25"
  })
  void brierAsPublished(double probability, boolean rain, double score) {
    var counter = new Calibration.Counter(10);
    counter.add(probability, rain);
    assertThat(counter.calibration().brier()).isCloseTo(score, within(1e-15));
  }

  // Definition of Naeini 2015 and Guo 2017 (from memory): sum of n(b)/N · |seen − stated|.
  @Test
  void expectedErrorByHand() {
    var counter = new Calibration.Counter(10);
    counter.add(0.25, true);
    counter.add(0.28, false);
    counter.add(0.22, false);
    counter.add(0.9, true);
    // Bin 0.2: 3 statements, seen 1/3, stated 0.25. Bin 0.9: 1 statement, seen 1, stated 0.9.
    assertThat(counter.calibration().expectedError())
        .isCloseTo(3.0 / 4 * (1.0 / 3 - 0.25) + 1.0 / 4 * 0.1, within(1e-15));
    assertThat(counter.calibration().statements()).isEqualTo(4);
  }

  @Test
  void edgesBelongToTheBinAbove() {
    var counter = new Calibration.Counter(10);
    for (int edge = 0; edge <= 10; edge++) {
      counter.add(edge / 10.0, edge % 2 == 0);
    }
    assertThat(counter.calibration().bins())
        .extracting(b -> b.outcomes().trials())
        .containsExactly(1L, 1L, 1L, 1L, 1L, 1L, 1L, 1L, 1L, 2L);
  }

  @Test
  void anySplitInAnyOrderGivesTheSameBits() {
    var random = new Random(31);
    var whole = new Calibration.Counter(10);
    var parts = Stream.generate(() -> new Calibration.Counter(10)).limit(3).toList();
    for (int i = 0; i < 5000; i++) {
      double probability = random.nextDouble();
      boolean cameTrue = random.nextDouble() < probability;
      whole.add(probability, cameTrue);
      parts.get(random.nextInt(3)).add(probability, cameTrue);
    }
    var merged =
        parts
            .get(2)
            .calibration()
            .plus(parts.get(0).calibration().plus(parts.get(1).calibration()));
    assertThat(merged).isEqualTo(whole.calibration());
    assertThat(merged.brier()).isEqualTo(whole.calibration().brier());
    // True probabilities: the mean of p (1 − p) is 1/6, and the bins are close.
    assertThat(merged.brier()).isCloseTo(1.0 / 6, within(0.01));
    assertThat(merged.expectedError()).isLessThan(0.03);
  }

  @Test
  void sumsAreExact() {
    var random = new Random(13);
    var sum = UnitSum.ZERO;
    var exact = BigDecimal.ZERO;
    for (int i = 0; i < 10_000; i++) {
      double value = random.nextDouble();
      sum = sum.plus(value);
      exact = exact.add(new BigDecimal(value));
    }
    assertThat(sum.value()).isEqualTo(exact.doubleValue());
    assertThat(UnitSum.ZERO.plus(1).plus(1).value()).isEqualTo(2);
    var tenths = UnitSum.ZERO;
    for (int i = 0; i < 10; i++) {
      tenths = tenths.plus(0.1);
    }
    assertThat(tenths.plus(tenths).value()).isEqualTo(2);
  }

  @Test
  void refusesWhatCannotBe() {
    var counter = new Calibration.Counter(4);
    assertThatThrownBy(() -> counter.add(1.2, true)).hasMessageContaining("1.2");
    assertThatThrownBy(() -> counter.add(-0.2, true)).hasMessageContaining("-0.2");
    assertThatThrownBy(() -> counter.add(Double.NaN, false)).hasMessageContaining("NaN");
    assertThatThrownBy(() -> counter.calibration().brier()).hasMessageContaining("no statements");
    var other = new Calibration.Counter(5).calibration();
    assertThatThrownBy(() -> other.plus(counter.calibration())).hasMessageContaining("5 and 4");
    assertThatThrownBy(() -> new Calibration.Counter(0)).hasMessageContaining("not 0");
    assertThatThrownBy(() -> new UnitSum(0, -1)).hasMessageContaining("-1");
  }
}
