package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class TorqueTest {
  @ParameterizedTest(name = "{0}: {1} N·m")
  @DisplayName("NIST SP 811 B.8: one lbf·in, one lbf·ft; spellings of the trade")
  @CsvSource({
    "1 lbf in, 0.1129848290276",
    "1 lbf·ft, 1.3558179483314",
    "12 in-lb, 1.3558179483314",
    "12 in·lbs, 1.3558179483314",
    "2 ft-lbs, 2.7116358966628",
    "2 FT.LBF, 2.7116358966628",
    "5 N·m, 5",
    "5.5 Nm, 5.5",
    "6-N-m, 6",
    "40 kgf·cm, 3.92266",
    "40kg-cm, 3.92266"
  })
  void units(String text, double newtonMetres) {
    assertThat(Torque.parse(text)).hasSize(1);
    assertThat(Torque.parse(text).get(0).newtonMetres()).isCloseTo(newtonMetres, within(1e-9));
  }

  @ParameterizedTest(name = "{0} disagrees: {1}")
  @DisplayName(
      "published service sheets: 12 in·lb as 1.5 N·m is 10.6 % off, the other pairs only rounded")
  @CsvSource({
    "12 in·lb (1.5 N·m), true",
    "35 lbf in (4 N·m), false",
    "27 lbf in (3 N·m), false",
    "70 ± 5 lbf in (7.9 ± 0.5 N·m), false",
    "170 ± 5 lbf in (19.2 N·m), false",
    "4 N·m, false"
  })
  void disagreement(String text, boolean disagree) {
    assertThat(Torque.disagree(Torque.parse(text))).isEqualTo(disagree);
  }

  @Test
  @DisplayName("how far off: 1.5 N·m against 12 in·lb is 10.6 %")
  void howFar() {
    var pair = Torque.parse("12 in·lb (1.5 N·m)");
    assertThat(pair.get(0).awayFrom(pair.get(1))).isCloseTo(0.106, within(0.0005));
  }

  @Test
  @DisplayName("tolerances and ranges: 70 ± 5 lbf in is 7.909 ± 0.565 N·m; 4-6 N·m is 5 ± 1")
  void tolerance() {
    Torque both = Torque.parse("70 ± 5 lbf in").get(0);
    assertThat(both.newtonMetres()).isCloseTo(7.909, within(0.0005));
    assertThat(both.toleranceNm()).isCloseTo(0.565, within(0.0005));
    Torque range = Torque.parse("torque 4-6 N·m, dry").get(0);
    assertThat(range.newtonMetres()).isEqualTo(5);
    assertThat(range.toleranceNm()).isEqualTo(1);
    assertThat(range.text()).isEqualTo("4-6 N·m");
  }

  @ParameterizedTest
  @DisplayName("no torque where none stands")
  @ValueSource(strings = {"", "tight", "5", "12 mm", "M5 x 0.8", "3 Nmm", "two N·m"})
  void none(String text) {
    assertThat(Torque.parse(text)).isEmpty();
    assertThat(Torque.disagree(Torque.parse(text))).isFalse();
  }

  @ParameterizedTest(name = "M{0}: pitch {1}, drill {2}, d2 {3}, d3 {4}")
  @DisplayName("ISO 261 coarse pitch; ISO 68 / ISO 724 profile (table at docs.steelcam.org)")
  @CsvSource({
    "3, 0.5, 2.5, 2.675, 2.387",
    "4, 0.7, 3.3, 3.545, 3.141",
    "5, 0.8, 4.2, 4.480, 4.019",
    "6, 1.0, 5.0, 5.350, 4.773",
    "8, 1.25, 6.75, 7.188, 6.466"
  })
  void threads(double diameterMm, double pitchMm, double drillMm, double d2Mm, double d3Mm) {
    ThreadTable.Thread thread = ThreadTable.coarse(diameterMm).orElseThrow();
    assertThat(thread.pitchMm()).isEqualTo(pitchMm);
    assertThat(thread.tapDrillMm()).isCloseTo(drillMm, within(1e-9));
    assertThat(thread.pitchDiameterMm()).isCloseTo(d2Mm, within(0.0006));
    assertThat(thread.rootDiameterMm()).isCloseTo(d3Mm, within(0.0006));
  }

  @Test
  @DisplayName("an odd size has no coarse thread here")
  void oddSize() {
    assertThat(ThreadTable.coarse(5.5)).isEmpty();
    assertThat(ThreadTable.coarse()).hasSize(5);
  }

  @Test
  @DisplayName(
      "pressure units: 1 bar is 14.5038 psi and 750.061 mmHg (thermodynamics text, App. A)")
  void pressureUnits() {
    assertThat(Units.mpaFromPsi(14.5038)).isCloseTo(0.1, within(1e-6));
    assertThat(Units.mmHgFromMpa(0.1)).isCloseTo(750.061, within(0.001));
    assertThat(Units.mpaFromPsi(1)).isCloseTo(0.006894757, within(1e-9));
  }
}
