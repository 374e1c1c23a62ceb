package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalTest {
  @ParameterizedTest(name = "{0}: {1}")
  @DisplayName("standard normal table values (any statistics handbook; from memory)")
  @CsvSource({"0, 0.5", "1, 0.8413447", "1.959964, 0.975", "-2.3263479, 0.01", "-6, 9.865876e-10"})
  void below(double x, double share) {
    assertThat(Normal.below(x)).isCloseTo(share, within(share * 3e-7));
    assertThat(Normal.quantile(share)).isCloseTo(x, within(1e-5));
  }

  @Test
  @DisplayName("draws held above zero have the mean of the cut normal, also far in the tail")
  void cutNormal() {
    for (double mean : new double[] {2, 0, -3, -9}) {
      double sum = 0;
      int draws = 20_000;
      for (int n = 0; n < draws; n++) {
        double drawn = Normal.drawAboveZero(mean, 1, Normal.below(mean), (n + 0.5) / draws);
        assertThat(drawn).isNotNegative();
        sum += drawn;
      }
      double density = Math.exp(-mean * mean / 2) / Math.sqrt(2 * Math.PI);
      double expected = mean + density / Normal.below(mean);
      assertThat(sum / draws).isCloseTo(expected, within(0.002));
    }
  }
}
