package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class FluidTest {
  @ParameterizedTest(name = "{0}: dry {1} °C ({2} °F), wet {3} °C ({4} °F), {5} mm²/s at -40 °C")
  @DisplayName("49 CFR 571.116 S5.1.1 to S5.1.3; DOT 5.1 is held to the DOT 5 grade")
  @CsvSource({
    "DOT_3, 205, 401, 140, 284, 1500",
    "DOT_4, 230, 446, 155, 311, 1800",
    "DOT_5_1, 260, 500, 180, 356, 900",
    "DOT_5, 260, 500, 180, 356, 900"
  })
  void grades(
      FluidGrade grade, double dryC, double dryF, double wetC, double wetF, double viscosity) {
    assertThat(grade.dryBoilingC()).isEqualTo(dryC);
    assertThat(grade.wetBoilingC()).isEqualTo(wetC);
    assertThat(Units.celsiusFromFahrenheit(dryF)).isCloseTo(dryC, within(1e-9));
    assertThat(Units.celsiusFromFahrenheit(wetF)).isCloseTo(wetC, within(0.5));
    assertThat(grade.coldViscosityMm2PerS().orElseThrow()).isEqualTo(viscosity);
  }

  @Test
  @DisplayName("DOT 5.1 is glycol, DOT 5 silicone; unknown grades are taken as the weakest")
  void kinds() {
    assertThat(FluidGrade.DOT_5_1.kind()).isEqualTo(FluidGrade.Kind.GLYCOL);
    assertThat(FluidGrade.DOT_5.kind()).isEqualTo(FluidGrade.Kind.SILICONE);
    assertThat(FluidGrade.DOT.dryBoilingC()).isEqualTo(FluidGrade.DOT_3.dryBoilingC());
    assertThat(FluidGrade.MINERAL_OIL.coldViscosityMm2PerS()).isEmpty();
    assertThat(FluidGrade.DOT_4.viscosityMilliPaS())
        .isLessThan(FluidGrade.MINERAL_OIL.viscosityMilliPaS());
  }

  @Test
  @DisplayName(
      "bulk moduli: oil in the band 1.5 to 1.8 GPa, silicone 1.034 GPa (engineering tables)")
  void moduli() {
    assertThat(FluidGrade.MINERAL_OIL.bulkModulusMpa(20)).isBetween(1500.0, 1800.0);
    assertThat(FluidGrade.DOT_5.bulkModulusMpa(20)).isCloseTo(1034, within(0.5));
    // 300 000 psi, 3000 psi: 1.0 % of the volume (hydraulic data table)
    double psi = TrappedGas.effectiveModulusMpa(300_000, 0, TrappedGas.SLOW, 3000, 14.7);
    assertThat(3000 / psi).isCloseTo(0.010, within(1e-12));
  }

  @Test
  @DisplayName("expansion per kelvin: oil 0.000828, silicone 0.000972 (hydraulic data table)")
  void expansion() {
    assertThat(FluidGrade.MINERAL_OIL.expansionPerK()).isCloseTo(0.000828, within(1e-9));
    assertThat(FluidGrade.DOT_5.expansionPerK()).isCloseTo(0.000972, within(1e-9));
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
}
