package firmlever.document;

import static firmlever.document.Measures.Kind.FORCE;
import static firmlever.document.Measures.Kind.LENGTH;
import static firmlever.document.Measures.Kind.MASS;
import static firmlever.document.Measures.Kind.PRESSURE;
import static firmlever.document.Measures.Kind.SHARE;
import static firmlever.document.Measures.Kind.TEMPERATURE;
import static firmlever.document.Measures.Kind.TORQUE;
import static firmlever.document.Measures.Kind.VOLUME;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import firmlever.document.Measures.Kind;
import firmlever.document.Measures.NotAMeasure;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class MeasuresTest {

  /**
   * Factors of NIST Special Publication 811 (2008), appendix B.8, to the digits printed there;
   * those printed bold are exact. Prefixes and °C: SI Brochure.
   */
  static Stream<Arguments> conversions() {
    return Stream.of(
        arguments(LENGTH, "1 in", 25.4, 1e-12), // B.8: inch to metre 2.54 E-02, exact
        arguments(LENGTH, "3.2 cm", 32, 1e-12),
        arguments(LENGTH, "1.6 m", 1600, 1e-12),
        arguments(LENGTH, "0.4 km", 400_000, 1e-9),
        arguments(LENGTH, "19.5 mm", 19.5, 0),
        arguments(FORCE, "1 lbf", 4.448222, 5e-7), // B.8: pound-force to newton 4.448 222 E+00
        arguments(FORCE, "0.3 kN", 300, 1e-12),
        arguments(FORCE, "101 N", 101, 0),
        arguments(TORQUE, "1 lbf·in", 0.1129848, 5e-8), // B.8: pound-force inch 1.129 848 E-01
        arguments(TORQUE, "10 in·lb", 1.129848, 5e-7),
        arguments(TORQUE, "100 in-lb", 11.29848, 5e-6),
        arguments(TORQUE, "1 lbf·ft", 1.355818, 5e-7), // B.8: pound-force foot 1.355 818 E+00
        arguments(TORQUE, "10 ft·lb", 13.55818, 5e-6),
        arguments(TORQUE, "4.1 N·m", 4.1, 0),
        arguments(TORQUE, "5.2 Nm", 5.2, 1e-12),
        arguments(TORQUE, "6.3 N m", 6.3, 1e-12),
        // B.8: (t/°F - 32)/1.8 and T/K - 273.15, exact
        arguments(TEMPERATURE, "32 °F", 0, 1e-9),
        arguments(TEMPERATURE, "212 °F", 100, 1e-9),
        arguments(TEMPERATURE, "-40 F", -40, 1e-9),
        arguments(TEMPERATURE, "446 F", 230, 1e-9),
        arguments(TEMPERATURE, "300 K", 26.85, 1e-9),
        arguments(TEMPERATURE, "17 C", 17, 1e-12),
        arguments(TEMPERATURE, "12 °C", 12, 0),
        arguments(MASS, "1 lb", 0.4535924, 5e-8), // B.8: pound to kilogram 4.535 924 E-01
        arguments(MASS, "850 g", 0.85, 1e-12),
        arguments(MASS, "95 kg", 95, 0),
        arguments(VOLUME, "0.6 mL", 0.6, 0),
        arguments(VOLUME, "0.7 ml", 0.7, 1e-12),
        arguments(VOLUME, "0.02 L", 20, 1e-12), // B.8: litre to cubic metre 1.0 E-03, exact
        arguments(VOLUME, "0.03 l", 30, 1e-12),
        // B.8: pound-force per square inch to pascal 6.894 757 E+03
        arguments(PRESSURE, "1 psi", 0.006894757, 5e-10),
        arguments(PRESSURE, "1 bar", 0.1, 1e-12), // B.8: bar to pascal 1.0 E+05, exact
        arguments(PRESSURE, "250 kPa", 0.25, 1e-12),
        arguments(PRESSURE, "7 MPa", 7, 0),
        arguments(SHARE, "2.5 %", 2.5, 0));
  }

  @ParameterizedTest
  @MethodSource("conversions")
  void convertsAsPublished(Kind kind, String text, double value, double tolerance)
      throws NotAMeasure {
    assertThat(Measures.read(text, kind)).isCloseTo(value, within(tolerance));
  }

  @Test
  void everyAllowedUnitIsCheckedAbove() {
    assertThat(
            Stream.of(Kind.values())
                .flatMap(kind -> kind.symbols().stream().map(symbol -> kind + " " + symbol)))
        .containsExactlyInAnyOrderElementsOf(
            conversions()
                .map(a -> a.get()[0] + " " + ((String) a.get()[1]).replaceFirst("^[-0-9.]+ ", ""))
                .distinct()
                .toList());
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void twiceTheNumberIsTwiceTheQuantityAndTemperaturesShiftEvenly(Kind kind) throws NotAMeasure {
    for (String symbol : kind.symbols()) {
      double zero = Measures.read("0 " + symbol, kind);
      double once = Measures.read("3.7 " + symbol, kind) - zero;
      double twice = Measures.read("7.4 " + symbol, kind) - zero;
      assertThat(twice).as(symbol).isCloseTo(2 * once, within(1e-8 * Math.abs(once)));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"19mm", " 19 mm ", "19\tmm", "+19 mm", "19.000 mm", "019 mm", "1.9 cm"})
  void blanksSignsAndZeroesAreForgiven(String text) throws NotAMeasure {
    assertThat(Measures.read(text, LENGTH)).isEqualTo(19);
  }

  private static NotAMeasure refused(String text, Kind kind) {
    NotAMeasure refused = catchThrowableOfType(NotAMeasure.class, () -> Measures.read(text, kind));
    assertThat(refused).as(text).isNotNull();
    return refused;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "mm",
        "mm 19",
        "19",
        "1234",
        "1e3 mm",
        "1.5.2 mm",
        "1. mm",
        ".5 mm",
        "--1 mm",
        "1234567890123456 mm",
        "0x1F mm",
        "NaN mm",
        "∞ mm",
        "19 millimetres",
        "19 mm mm",
        "١٩ mm",
        "19 MM",
        "1/2 in",
        "19 mm\0"
      })
  void everythingElseIsRefused(String text) {
    assertThat(refused(text, LENGTH)).hasMessageStartingWith("must be a length");
  }

  @Test
  void aDecimalCommaIsUnderstoodAndRefused() {
    assertThat(refused("12,5 mm", LENGTH).maybe())
        .isEqualTo("Maybe \"12.5 mm\" was meant: decimals take a point.");
  }

  @Test
  void aMissingUnitIsOffered() {
    assertThat(refused("19", LENGTH).maybe()).isEqualTo("Maybe \"19 mm\" was meant.");
    assertThat(refused("4.5", TORQUE).maybe()).isEqualTo("Maybe \"4.5 N·m\" was meant.");
  }

  @Test
  void anotherDimensionIsNamed() {
    assertThat(refused("19 N", LENGTH))
        .hasMessage("must be a length in mm, cm, m, in, km; \"N\" is a unit of force");
    assertThat(refused("19 N", LENGTH).maybe()).as("no slip of the pen").isEmpty();
    assertThat(refused("4 mm", TORQUE)).hasMessageEndingWith("\"mm\" is a unit of length");
    assertThat(refused("4 psi", FORCE)).hasMessageEndingWith("\"psi\" is a unit of pressure");
  }

  @Test
  void aMisspeltUnitFindsItsNeighbour() {
    assertThat(refused("19 mmm", LENGTH).maybe()).isEqualTo("Maybe \"19 mm\" was meant.");
    assertThat(refused("40 lbf-in", TORQUE).maybe()).isEqualTo("Maybe \"40 lbf·in\" was meant.");
  }

  @ParameterizedTest(name = "{0} is {1} N·m")
  @DisplayName("torques printed in two units count if they agree but for rounding (NIST SP 811)")
  @CsvSource({
    "35 in·lb (4 N·m), 3.95446901897",
    "4 N·m (35 in·lb), 4",
    "27 lbf·in (3 N·m), 3.05059",
    "170 lbf·in (19.2 N·m), 19.20742"
  })
  void readsPairs(String text, double newtonMetres) throws NotAMeasure {
    assertThat(Measures.read(text, Kind.TORQUE)).isCloseTo(newtonMetres, within(1e-5));
  }

  @Test
  @DisplayName("12 in·lb as 1.5 N·m, as a published service sheet has it, is 10.6 % off")
  void refusesPairsThatDisagree() {
    NotAMeasure refused =
        catchThrowableOfType(
            NotAMeasure.class, () -> Measures.read("12 in·lb (1.5 N·m)", Kind.TORQUE));
    assertThat(refused).hasMessageContaining("12 in·lb is 1.36 N·m, and 1.5 N·m is 1.50 N·m");
  }
}
