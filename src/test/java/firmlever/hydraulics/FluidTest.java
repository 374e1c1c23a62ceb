package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class FluidTest {
  @ParameterizedTest(name = "{0}: dry {1} °C ({2} °F), wet {3} °C ({4} °F)")
  @DisplayName("49 CFR 571.116 S5.1.1 and S5.1.2; DOT 5.1 is held to the DOT 5 grade")
  @CsvSource({
    "DOT_3, 205, 401, 140, 284",
    "DOT_4, 230, 446, 155, 311",
    "DOT_5_1, 260, 500, 180, 356",
    "DOT_5, 260, 500, 180, 356"
  })
  void grades(FluidGrade grade, double dryC, double dryF, double wetC, double wetF) {
    assertThat(grade.dryBoilingC()).isEqualTo(dryC);
    assertThat(grade.wetBoilingC()).isEqualTo(wetC);
    assertThat(Units.celsiusFromFahrenheit(dryF)).isCloseTo(dryC, within(1e-9));
    assertThat(Units.celsiusFromFahrenheit(wetF)).isCloseTo(wetC, within(0.5));
  }

  @Test
  @DisplayName("DOT 5.1 is glycol, DOT 5 silicone; unknown grades are taken as the weakest")
  void kinds() {
    assertThat(FluidGrade.DOT_5_1.takesUpWater()).isTrue();
    assertThat(FluidGrade.DOT_5.takesUpWater()).isFalse();
    assertThat(FluidGrade.DOT.dryBoilingC()).isEqualTo(FluidGrade.DOT_3.dryBoilingC());
  }

  @Test
  @DisplayName(
      "bulk moduli: oil in the band 1.5 to 1.8 GPa, silicone 1.034 GPa (engineering tables)")
  void moduli() {
    assertThat(FluidGrade.MINERAL_OIL.bulkModulusMpa(20)).isBetween(1500.0, 1800.0);
    assertThat(FluidGrade.DOT_5.bulkModulusMpa(20)).isCloseTo(1034, within(0.5));
  }

  @ParameterizedTest
  @EnumSource
  @DisplayName("every fluid is softer when warm and never boils lower dry than wet")
  void order(FluidGrade grade) {
    for (double c = -60; c < 150; c += 7) {
      assertThat(grade.bulkModulusMpa(c + 7)).isLessThanOrEqualTo(grade.bulkModulusMpa(c));
    }
    assertThat(grade.dryBoilingC()).isGreaterThanOrEqualTo(grade.wetBoilingC());
  }

  @Test
  @DisplayName(
      "correction chain of the hydraulic data table: 240 240 and 247 783 psi (printed 240 000, 248"
          + " 000)")
  void correctionChain() {
    double cool = FluidGrade.warmth(Units.celsiusFromFahrenheit(60));
    double warm = FluidGrade.warmth(Units.celsiusFromFahrenheit(160));
    assertThat(0.91 * cool * 0.80 * 300_000).isCloseTo(240_240, within(1.0));
    assertThat(0.98 * warm * 0.98 * 300_000).isCloseTo(247_783, within(1.0));
  }
}
