package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TrappedGasTest {
  private static final double NORMAL_MPA = 0.1;

  @ParameterizedTest(name = "{0} MPa: {1} MPa slow, {2} MPa quick")
  @DisplayName("modulus with 1 % gas: Fluid Power Engineering p. 32 eq. 2.57, values recomputed")
  @CsvSource({"0.1, 9.93, 13.9", "1, 93.4, 127", "5, 369, 468", "10, 586, 704"})
  void textbookModulus(double absoluteMpa, double slowMpa, double quickMpa) {
    assertThat(TrappedGas.textbookModulusMpa(1400, 0.01, TrappedGas.SLOW, absoluteMpa))
        .isCloseTo(slowMpa, within(slowMpa * 0.004));
    assertThat(TrappedGas.textbookModulusMpa(1400, 0.01, TrappedGas.QUICK, absoluteMpa))
        .isCloseTo(quickMpa, within(quickMpa * 0.004));
  }

  @ParameterizedTest(name = "{1} psi gas: {2} psi")
  @DisplayName("steel pipe with 1 % air: hydraulic control text eq. 4-49, results recomputed")
  @CsvSource({"1.0, 500, 41100", "1.4, 700, 53700"})
  void pipeWithAir(double exponent, double gasPsi, double resultPsi) {
    assertThat(gasPsi).isEqualTo(exponent * 500);
    double fluidAndAirPsi = TrappedGas.textbookModulusMpa(250_000, 0.01, exponent, 500);
    double wallPsi = 30e6 / 10; // thickness 1/10 of the diameter, steel of 30e6 psi
    // the example leaves the gas in the fluid's share, which makes 0.3 %
    assertThat(1 / (1 / fluidAndAirPsi + 1 / wallPsi))
        .isCloseTo(resultPsi, within(resultPsi * 0.003));
  }

  @ParameterizedTest(name = "{0} psi: {1} of the fluid''s modulus")
  @DisplayName(
      "2 % entrained air at 500 and 2000 psi: factors 0.80 and 0.98 of a hydraulic data table")
  @CsvSource({"500, 0.80, 0.06", "2000, 0.98, 0.006"})
  void entrainedAirFactor(double psi, double factor, double tolerance) {
    double fluidMpa = Units.mpaFromPsi(300_000);
    double pressureMpa = Units.mpaFromPsi(psi);
    double modulusMpa =
        TrappedGas.effectiveModulusMpa(
            fluidMpa, 0.02, TrappedGas.SLOW, pressureMpa, Air.SEA_LEVEL_MPA);
    assertThat(modulusMpa / fluidMpa).isCloseTo(factor, within(tolerance));
    double crude = TrappedGas.textbookModulusMpa(fluidMpa, 0.02, TrappedGas.SLOW, pressureMpa);
    assertThat(crude).as("fixed gas share makes it far too soft").isLessThan(modulusMpa / 2);
  }

  @Test
  @DisplayName(
      "whole correction chain of the same table: 240 240 and 247 783 psi (printed 240 000, 248"
          + " 000)")
  void correctionChain() {
    double cool = FluidGrade.warmth(Units.celsiusFromFahrenheit(60));
    double warm = FluidGrade.warmth(Units.celsiusFromFahrenheit(160));
    assertThat(0.91 * cool * 0.80 * 300_000).isCloseTo(240_240, within(1.0));
    assertThat(0.98 * warm * 0.98 * 300_000).isCloseTo(247_783, within(1.0));
  }

  @Test
  @DisplayName("1 mL to 5.0 MPa: 0.0199 mL slow, 0.0609 mL quick (eq. 2.86, recomputed)")
  void oneMillilitre() {
    assertThat(TrappedGas.squeezedMl(1, 5.0, Air.SEA_LEVEL_MPA, TrappedGas.SLOW))
        .isCloseTo(0.0199, within(0.00005));
    assertThat(TrappedGas.squeezedMl(1, 5.0, Air.SEA_LEVEL_MPA, TrappedGas.QUICK))
        .isCloseTo(0.0609, within(0.0004));
  }

  @Test
  @DisplayName("modulus with the gas squeezed by the pressure, worked by hand")
  void effectiveModulus() {
    assertThat(TrappedGas.effectiveModulusMpa(1500, 0.03, 1.4, 2, 0.1))
        .isCloseTo(538.888, within(0.001));
  }

  @Test
  @DisplayName(
      "heating of a quick squeeze: T ((P/Pi)^((k-1)/k) - 1), Fluid Power Engineering p. 41 eq."
          + " 2.89")
  void heating() {
    // 288.15 K, 100 kPa to 1 MPa absolute: 288.15 (10^(0.2857) - 1) = 268.2 K
    assertThat(TrappedGas.heatingK(15, 0.9, NORMAL_MPA, TrappedGas.QUICK))
        .isCloseTo(268.2, within(0.1));
    assertThat(TrappedGas.heatingK(15, 0.9, NORMAL_MPA, TrappedGas.SLOW)).isZero();
  }

  @Test
  @DisplayName(
      "a quick pull squeezes less, higher pressure squeezes more, thin air is squeezed more")
  void monotone() {
    RandomBrakes random = new RandomBrakes(17, false);
    for (int n = 0; n < 1000; n++) {
      double ml = random.between(0.01, 2);
      double lowMpa = random.between(0.01, 5);
      double highMpa = lowMpa + random.between(0.01, 5);
      double slow = TrappedGas.takenUpMl(ml, lowMpa, NORMAL_MPA, TrappedGas.SLOW);
      assertThat(slow).isBetween(0.0, ml);
      assertThat(TrappedGas.takenUpMl(ml, lowMpa, NORMAL_MPA, TrappedGas.QUICK)).isLessThan(slow);
      assertThat(TrappedGas.takenUpMl(ml, highMpa, NORMAL_MPA, TrappedGas.SLOW))
          .isGreaterThan(slow);
      assertThat(TrappedGas.takenUpMl(ml, lowMpa, 0.08, TrappedGas.SLOW)).isGreaterThan(slow);
    }
  }
}
