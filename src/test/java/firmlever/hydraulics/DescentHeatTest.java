package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.hydraulics.BoilingMargin.Means;
import java.util.Comparator;
import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class DescentHeatTest {
  @Test
  @DisplayName(
      "most heat at 58 % of the free speed, 0.3849 m g s v (derivation, bikeforums.net/19110247)")
  void worstSpeed() {
    double worst = DescentHeat.worstSpeedMPerS(20);
    assertThat(worst).isCloseTo(20 / Math.sqrt(3), within(1e-9));
    double mostW = brakingW(90, 0.08, worst, 20);
    double sine = Math.sin(Math.atan(0.08));
    assertThat(mostW).isCloseTo(0.3849 * 90 * 9.80665 * sine * 20, within(0.2));
    assertThat(brakingW(90, 0.08, worst - 1, 20)).isLessThan(mostW);
    assertThat(brakingW(90, 0.08, worst + 1, 20)).isLessThan(mostW);
  }

  /** Heat into both brakes at a held speed, W, when drag alone limits free rolling. */
  private static double brakingW(double massKg, double gradient, double speed, double freeSpeed) {
    double share = speed / freeSpeed;
    return massKg * 9.80665 * Math.sin(Math.atan(gradient)) * speed * (1 - share * share);
  }

  @Test
  @DisplayName("95 kg, 400 m at 1 in 10 and 6 m/s, 0.6 at a 180 mm rotor: worked by hand")
  void byHand() {
    DescentHeat descent = new DescentHeat(95, 400, 0.1, 6, 0.6);
    Rotor rotor = Rotor.ofDiameterMm(180);
    assertThat(descent.seconds()).isCloseTo(669.99, within(0.01));
    assertThat(rotor.massKg()).isCloseTo(0.13921875, within(1e-9));
    assertThat(rotor.areaM2()).isCloseTo(0.0254469, within(1e-7));
    Interval rotorC = descent.rotorC(rotor, 12);
    assertThat(rotorC.low()).isCloseTo(56.309, within(0.001));
    assertThat(rotorC.best()).isCloseTo(161.781, within(0.001));
    assertThat(rotorC.high()).isCloseTo(505.309, within(0.001));
    Interval fluidC = descent.fluidC(rotor, 12);
    assertThat(fluidC.low()).isCloseTo(16.431, within(0.001));
    assertThat(fluidC.best()).isCloseTo(45.492, within(0.001));
    assertThat(fluidC.high()).isCloseTo(258.655, within(0.001));
  }

  @Test
  @DisplayName(
      "each help gains what the descent without it would be cooler; under 1 °C it is not named")
  void gains() {
    DescentHeat descent = new DescentHeat(110, 30, 0.1, 6, 0.7);
    Rotor rotor = Rotor.ofDiameterMm(160);
    BoilingPoint boiling = new BoilingPoint(new Interval(150, 171, 180), BoilingPoint.Basis.AGE);
    double thinMpa = 700 * 133.322387415 / 1e6; // 230 °C boils at 227.6 °C there
    BoilingMargin margin = BoilingMargin.of(descent, rotor, 20, FluidGrade.DOT_4, boiling, thinMpa);
    double warmC = descent.fluidC(rotor, 20).best();
    double largerC = descent.fluidC(Rotor.ofDiameterMm(180), 20).best();
    double evenC = new DescentHeat(110, 30, 0.1, 6, 0.5).fluidC(rotor, 20).best();
    double halfC = new DescentHeat(110, 15, 0.1, 6, 0.7).fluidC(rotor, 20).best();
    assertThat(gain(margin, Means.FRESH_FLUID)).isCloseTo(227.6 - 171, within(1e-6));
    assertThat(gain(margin, Means.LARGER_ROTOR)).isCloseTo(warmC - largerC, within(1e-9));
    assertThat(gain(margin, Means.SHARE_THE_BRAKING)).isCloseTo(warmC - evenC, within(1e-9));
    assertThat(gain(margin, Means.STOP_HALF_WAY)).isCloseTo(warmC - halfC, within(1e-9));
    BoilingPoint fresh = new BoilingPoint(new Interval(220, 227, 235), BoilingPoint.Basis.AGE);
    assertThat(BoilingMargin.of(descent, rotor, 20, FluidGrade.DOT_4, fresh, thinMpa).help())
        .extracting(BoilingMargin.Help::means)
        .doesNotContain(Means.FRESH_FLUID);
  }

  private static double gain(BoilingMargin margin, Means means) {
    return margin.help().stream()
        .filter(help -> help.means() == means)
        .findFirst()
        .orElseThrow()
        .gainC();
  }

  @Test
  @DisplayName("bounds stand in order and bracket a lump that keeps all heat from above")
  void bounds() {
    Rotor rotor = Rotor.ofDiameterMm(180);
    DescentHeat descent = new DescentHeat(95, 400, 0.1, 6, 0.6);
    Interval rotorC = descent.rotorC(rotor, 12);
    assertThat(rotorC.low()).isBetween(12.0, rotorC.best());
    assertThat(rotorC.best()).isLessThan(rotorC.high());
    double keptJ = 0.6 * 95 * 9.80665 * 400;
    assertThat(rotorC.high() - 12).isLessThan(keptJ / (rotor.massKg() * 468));
    Interval fluidC = descent.fluidC(rotor, 12);
    assertThat(fluidC.high()).isLessThan(rotorC.high());
    assertThat(fluidC.low()).isGreaterThan(12);
  }

  @Test
  @DisplayName("longer, steeper, heavier and on a smaller rotor is hotter")
  void monotone() {
    RandomBrakes random = new RandomBrakes(31, false);
    for (int n = 0; n < 1000; n++) {
      double massKg = random.between(50, 150);
      double dropM = random.between(20, 800);
      double gradient = random.between(0.06, 0.2);
      double speed = random.between(3, 8);
      DescentHeat descent = new DescentHeat(massKg, dropM, gradient, speed, 0.6);
      Rotor rotor = Rotor.ofDiameterMm(160);
      double bestC = descent.rotorC(rotor, 10).best();
      assertThat(bestC).isLessThan(descent.rotorC(Rotor.ofDiameterMm(140), 10).best());
      assertThat(bestC)
          .isLessThan(
              new DescentHeat(massKg + 9, dropM, gradient, speed, 0.6).rotorC(rotor, 10).best());
      assertThat(bestC)
          .isLessThanOrEqualTo( // long descents settle
              new DescentHeat(massKg, dropM + 9, gradient, speed, 0.6).rotorC(rotor, 10).best());
      assertThat(bestC)
          .isLessThan(
              new DescentHeat(massKg, dropM, gradient, speed, 0.7).rotorC(rotor, 10).best());
    }
  }

  @Test
  @DisplayName(
      "wet DOT 4 on a long descent: fresh fluid is among the helps, the largest help comes first")
  void help() {
    DescentHeat descent = new DescentHeat(110, 600, 0.1, 6, 0.7); // ten minutes and more
    BoilingPoint.Known wet =
        new BoilingPoint.Known(
            OptionalDouble.empty(), OptionalDouble.of(3.5), false, OptionalDouble.empty());
    BoilingPoint boiling = BoilingPoint.of(FluidGrade.DOT_4, wet, Air.SEA_LEVEL_MPA);
    BoilingMargin margin =
        BoilingMargin.of(
            descent, Rotor.ofDiameterMm(160), 20, FluidGrade.DOT_4, boiling, Air.SEA_LEVEL_MPA);
    assertThat(margin.help()).extracting(BoilingMargin.Help::means).contains(Means.FRESH_FLUID);
    assertThat(margin.help())
        .isSortedAccordingTo(Comparator.comparingDouble(BoilingMargin.Help::gainC).reversed());
    assertThat(margin.marginC().low()).isLessThan(0);
    assertThat(margin.marginC().best())
        .isCloseTo(boiling.boilingC().best() - margin.fluidC().best(), within(1e-9));
    BoilingMargin even =
        BoilingMargin.of(
            new DescentHeat(110, 600, 0.1, 6, 0.5),
            Rotor.ofDiameterMm(160),
            20,
            FluidGrade.DOT_4,
            boiling,
            Air.SEA_LEVEL_MPA);
    assertThat(even.help())
        .extracting(BoilingMargin.Help::means)
        .doesNotContain(Means.SHARE_THE_BRAKING);
  }
}
