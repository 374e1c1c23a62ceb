package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A chance as it is said")
class ChanceTest {
  @ParameterizedTest
  @CsvSource({
    "0.5, 5 in 10 (0.50)",
    "0.86, 9 in 10 (0.86)",
    "0.949, 9 in 10 (0.95)",
    "0.06, 1 in 10 (0.06)",
    "0.04, less than 1 in 10 (0.04)",
    "0, hardly ever (0.01)",
    "1, almost certain (0.99)"
  })
  @DisplayName("stands in tens with its number, and nothing is beyond doubt")
  void inTens(double chance, String said) {
    assertThat(Chance.withNumber(chance)).isEqualTo(said);
  }

  @Test
  @DisplayName("never says less of what is likelier")
  void ordered() {
    int before = -1;
    for (double p = 0.05; p < 0.95; p += 0.001) {
      int tens = Integer.parseInt(Chance.inTen(p).replace(" in 10", ""));
      assertThat(tens).isGreaterThanOrEqualTo(before);
      before = tens;
    }
    assertThat(before).isEqualTo(9);
  }
}
