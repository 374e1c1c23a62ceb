package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.hydraulics.AssumedBrake.Assumption;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class BrakeDefaultsTest {
  @Test
  @DisplayName("a brake on record needs no assumption")
  void known() {
    AssumedBrake assumed = BrakeDefaults.fill(SoundBrakes.knownRear());
    assertThat(assumed.assumptions()).isEmpty();
    assertThat(assumed.middle().leverRatio()).isEqualTo(5.6);
    assertThat(assumed.middle().hoseLengthMm()).isEqualTo(1600);
  }

  @Test
  @DisplayName(
      "a brake of which nothing is known gets the usual of its kind, named, and wider spreads")
  void unknown() {
    AssumedBrake known = BrakeDefaults.fill(SoundBrakes.knownRear());
    AssumedBrake front =
        BrakeDefaults.fill(SoundBrakes.unknown(KnownBrake.End.FRONT, FluidGrade.DOT_4));
    assertThat(front.assumptions())
        .extracting(Assumption::what)
        .containsExactly(
            "lever bore",
            "lever ratio",
            "number of caliper pistons",
            "caliper bore",
            "hose length",
            "hose bore");
    assertThat(front.assumptions()).noneMatch(Assumption::setAside);
    assertThat(front.middle().hoseLengthMm()).isEqualTo(950);
    assertThat(front.leverSpread()).isGreaterThan(known.leverSpread());
    // 5 % always; twice 6 % for the bore; 15 % for the ratio: root of the sum of squares
    assertThat(known.leverSpread()).isCloseTo(0.05, within(1e-9));
    assertThat(front.leverSpread()).isCloseTo(0.198494, within(1e-6));
    assertThat(front.areaSpread()).isGreaterThan(known.areaSpread());
  }

  @Test
  @DisplayName("absurd data is set aside and named, never used")
  void absurd() {
    KnownBrake absurd =
        new KnownBrake(
            KnownBrake.End.REAR,
            FluidGrade.UNKNOWN,
            OptionalDouble.of(100),
            OptionalDouble.of(Double.NaN),
            17,
            List.of(-3.0),
            OptionalDouble.of(0),
            OptionalDouble.of(2.1));
    AssumedBrake assumed = BrakeDefaults.fill(absurd);
    assertThat(assumed.assumptions()).hasSize(5).allMatch(Assumption::setAside);
    assertThat(assumed.middle().leverBoreMm()).isEqualTo(10);
    assertThat(assumed.middle().hoseBoreMm()).isEqualTo(2.1);
    assertThat(assumed.middle().volumeMl()).isPositive().isFinite();
  }

  @Test
  @DisplayName("bores: one for all, one for each pair, one for each; a single piston counts twice")
  void bores() {
    double two = Brake.areaMm2(21);
    assertThat(area(2, List.of(21.0))).isCloseTo(2 * two, within(1e-9));
    assertThat(area(1, List.of(21.0))).isCloseTo(2 * two, within(1e-9));
    double pairs = 2 * (Brake.areaMm2(16) + Brake.areaMm2(17));
    assertThat(area(4, List.of(16.0, 17.0))).isCloseTo(pairs, within(1e-9));
    assertThat(area(4, List.of(16.0, 17.0, 16.0, 17.0))).isCloseTo(pairs, within(1e-9));
    assertThat(area(4, List.of(16.0, 17.0, 18.0))).isCloseTo(4 * Brake.areaMm2(16.5), within(1e-9));
  }

  private static double area(int pistons, List<Double> boresMm) {
    OptionalDouble none = OptionalDouble.empty();
    KnownBrake known =
        new KnownBrake(
            KnownBrake.End.REAR, FluidGrade.DOT_4, none, none, pistons, boresMm, none, none);
    return BrakeDefaults.fill(known).middle().pistonAreaMm2();
  }
}
