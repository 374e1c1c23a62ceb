package firmlever.hydraulics;

import static firmlever.hydraulics.HoseExpansion.HoseClass.LOW_EXPANSION;
import static firmlever.hydraulics.HoseExpansion.HoseClass.REGULAR;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class HoseExpansionTest {
  @ParameterizedTest(name = "bore {0} mm, {1} psi: regular {2}, low {3} mL/ft")
  @DisplayName("49 CFR 571.106 Table I, the swapped heads over 1500 psi put right")
  @CsvSource({
    "2.2, 1000, 0.66, 0.33",
    "2.2, 1500, 0.79, 0.42",
    "3.0, 2900, 1.21, 0.61",
    "3.1, 1000, 0.86, 0.55",
    "4.0, 1500, 1.02, 0.72",
    "5.0, 2900, 1.67, 0.91",
    "5.1, 1000, 1.04, 0.82",
    "6.0, 1500, 1.30, 1.17"
  })
  void table(double boreMm, double psi, double regularPerFoot, double lowPerFoot) {
    double pressureMpa = Units.mpaFromPsi(psi);
    double regular = HoseExpansion.limitMlPerM(boreMm, REGULAR, pressureMpa).orElseThrow();
    double low = HoseExpansion.limitMlPerM(boreMm, LOW_EXPANSION, pressureMpa).orElseThrow();
    assertThat(regular * 0.3048).isCloseTo(regularPerFoot, within(1e-9));
    assertThat(low * 0.3048).isCloseTo(lowPerFoot, within(1e-9));
    assertThat(regular).isGreaterThan(low);
  }

  @ParameterizedTest(name = "{0} psi {1}: {2} mL/m")
  @DisplayName("the same in mL/m (recomputed)")
  @CsvSource({
    "1000, LOW_EXPANSION, 1.083",
    "1000, REGULAR, 2.165",
    "1500, LOW_EXPANSION, 1.378",
    "1500, REGULAR, 2.592",
    "2900, LOW_EXPANSION, 2.001",
    "2900, REGULAR, 3.970"
  })
  void metric(double psi, HoseExpansion.HoseClass hose, double mlPerM) {
    assertThat(HoseExpansion.limitMlPerM(2.2, hose, Units.mpaFromPsi(psi)).orElseThrow())
        .isCloseTo(mlPerM, within(0.0005));
  }

  @Test
  @DisplayName("beyond the table it says nothing; a sound bicycle hose lies far under the limit")
  void bounds() {
    assertThat(HoseExpansion.limitMlPerM(6, REGULAR, 15)).isEmpty();
    assertThat(HoseExpansion.limitMlPerM(2.2, REGULAR, 21)).isEmpty();
    Brake brake = SoundBrakes.rear();
    double limitMl =
        HoseExpansion.limitMlPerM(brake.hoseBoreMm(), LOW_EXPANSION, 7).orElseThrow()
            * brake.hoseLengthMm()
            / 1000;
    assertThat(brake.hoseGiveMlPerMpa() * 7).isLessThan(limitMl / 10);
  }
}
