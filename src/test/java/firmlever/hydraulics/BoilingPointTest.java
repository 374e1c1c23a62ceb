package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.hydraulics.BoilingPoint.Basis;
import firmlever.hydraulics.BoilingPoint.Known;
import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BoilingPointTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  @ParameterizedTest(name = "{0} m: {1} °C")
  @DisplayName("water boils, answers.mindstick.com/qa/100598; agrees within 0.4 °C")
  @CsvSource({"1000, 96.5", "2000, 93.1", "3000, 89.8", "4000, 86.5"})
  void waterWithAltitude(double altitudeM, double boilingC) {
    assertThat(BoilingPoint.waterBoilsC(Air.pressureMpa(altitudeM)))
        .isCloseTo(boilingC, within(0.4));
  }

  @ParameterizedTest(name = "{0} m: {1} kPa")
  @DisplayName("air pressure, engineerexcel.com; the table's last figures are off by 1 to 2 %")
  @CsvSource({"0, 101", "1000, 90", "2000, 80", "3000, 71", "4000, 63", "5000, 56"})
  void airPressure(double altitudeM, double kilopascal) {
    assertThat(Air.pressureMpa(altitudeM) * 1000).isCloseTo(kilopascal, within(kilopascal * 0.04));
  }

  @ParameterizedTest(name = "{0} m: {1} kPa")
  @DisplayName("air pressure of the standard atmosphere, recomputed")
  @CsvSource({"0, 101.3", "1000, 89.9", "2000, 79.5", "3000, 70.1", "4000, 61.6"})
  void standardAtmosphere(double altitudeM, double kilopascal) {
    assertThat(Air.pressureMpa(altitudeM) * 1000).isCloseTo(kilopascal, within(0.06));
  }

  @ParameterizedTest(name = "{0} % water: {1} °C")
  @DisplayName("DOT 3 with water, training page autoedu.info/de/?p=16061; within 10 °C")
  @CsvSource({"0, 205", "1, 188", "2, 160", "3, 145"})
  void dot3WithWater(double water, double boilingC) {
    assertThat(BoilingPoint.minimumC(FluidGrade.DOT_3, water)).isCloseTo(boilingC, within(10.0));
  }

  @Test
  @DisplayName("the curve meets both published ends: 49 CFR 571.116, dry and at 3.70 % water")
  void ends() {
    assertThat(BoilingPoint.minimumC(FluidGrade.DOT_4, 0)).isEqualTo(230);
    assertThat(BoilingPoint.minimumC(FluidGrade.DOT_4, 3.70)).isCloseTo(155, within(1e-9));
    assertThat(BoilingPoint.minimumC(FluidGrade.DOT_5_1, 3.70)).isCloseTo(180, within(1e-9));
    assertThat(BoilingPoint.minimumC(FluidGrade.DOT_3, 40)).isBetween(100.0, 101.0);
  }

  @Test
  @DisplayName("230 °C at 700 mmHg reads 2.4 °C low; 150 °C reads 2.34 °C low (571.116 Table III)")
  void pressureCorrection() {
    double ambientMpa = 700 * 133.322387415 / 1e6;
    assertThat(BoilingPoint.atPressureC(230, ambientMpa)).isCloseTo(227.6, within(1e-6));
    assertThat(BoilingPoint.atPressureC(150, ambientMpa)).isCloseTo(147.66, within(1e-6));
  }

  @Test
  @DisplayName("water by age: 2.0 % after a year, 2.6 % in old cars (tests quoted in a forum)")
  void waterByAge() {
    assertThat(BoilingPoint.waterByAgePercent(1)).isCloseTo(2.0, within(1e-9));
    assertThat(BoilingPoint.waterByAgePercent(8)).isCloseTo(2.6, within(0.01));
    assertThat(BoilingPoint.waterByAgePercent(-3)).isZero();
  }

  @Test
  @DisplayName("the best basis wins: boiling reading, free water, moisture reading, age, grade")
  void basis() {
    OptionalDouble read = OptionalDouble.of(171);
    OptionalDouble moist = OptionalDouble.of(2.5);
    OptionalDouble years = OptionalDouble.of(3);
    double seaMpa = Air.SEA_LEVEL_MPA;
    FluidGrade dot4 = FluidGrade.DOT_4;
    BoilingPoint byReading = BoilingPoint.of(dot4, new Known(read, moist, true, years), seaMpa);
    assertThat(byReading.basis()).isEqualTo(Basis.BOILING_READING);
    assertThat(byReading.boilingC()).isEqualTo(new Interval(163, 171, 179));
    BoilingPoint byWater = BoilingPoint.of(dot4, new Known(NONE, moist, false, years), seaMpa);
    assertThat(byWater.basis()).isEqualTo(Basis.MOISTURE_READING);
    assertThat(byWater.boilingC().low()).isCloseTo(atSea(3.0), within(1e-9));
    assertThat(byWater.boilingC().best()).isCloseTo(atSea(2.5), within(1e-9));
    assertThat(byWater.boilingC().high()).isCloseTo(atSea(2.0), within(1e-9));
    BoilingPoint byAge = BoilingPoint.of(dot4, new Known(NONE, NONE, false, years), seaMpa);
    assertThat(byAge.basis()).isEqualTo(Basis.AGE);
    assertThat(byAge.boilingC().width()).isGreaterThan(byWater.boilingC().width());
    double water = BoilingPoint.waterByAgePercent(3);
    assertThat(byAge.boilingC().low()).isCloseTo(atSea(water * 3.5966), within(0.01));
    assertThat(byAge.boilingC().high()).isCloseTo(atSea(water / 3.5966), within(0.01));
    BoilingPoint byGrade = BoilingPoint.of(dot4, new Known(NONE, NONE, false, NONE), seaMpa);
    assertThat(byGrade.basis()).isEqualTo(Basis.GRADE_ONLY);
    assertThat(byGrade.boilingC().best()).isCloseTo(155, within(1e-4));
    assertThat(byGrade.boilingC().low()).isCloseTo(atSea(7.4), within(1e-9));
    assertThat(byGrade.boilingC().high()).isCloseTo(atSea(0), within(1e-9));
    BoilingPoint oil =
        BoilingPoint.of(FluidGrade.MINERAL_OIL, new Known(NONE, moist, false, years), seaMpa);
    assertThat(oil.basis()).isEqualTo(Basis.DRY_OIL);
  }

  private static double atSea(double water) {
    return BoilingPoint.atPressureC(
        BoilingPoint.minimumC(FluidGrade.DOT_4, water), Air.SEA_LEVEL_MPA);
  }

  @Test
  @DisplayName("free water in mineral oil boils as water does: under 94 °C at 2000 m")
  void freeWaterInOil() {
    Known wet = new Known(NONE, NONE, true, NONE);
    BoilingPoint boiling = BoilingPoint.of(FluidGrade.MINERAL_OIL, wet, Air.pressureMpa(2000));
    assertThat(boiling.basis()).isEqualTo(Basis.FREE_WATER);
    assertThat(boiling.boilingC().high()).isBetween(93.0, 94.0);
  }

  @Test
  @DisplayName("margin: low end sets low boiling against hot fluid")
  void margin() {
    BoilingPoint boiling = new BoilingPoint(new Interval(150, 170, 190), Basis.AGE);
    assertThat(boiling.marginC(new Interval(60, 90, 140))).isEqualTo(new Interval(10, 80, 130));
  }

  @Test
  @DisplayName("more water, and thinner air, always lower the boiling point")
  void monotone() {
    RandomBrakes random = new RandomBrakes(23, false);
    for (int n = 0; n < 1000; n++) {
      double water = random.between(0, 6);
      double altitudeM = random.between(0, 4000);
      double more = water + random.between(0.01, 1);
      assertThat(BoilingPoint.minimumC(FluidGrade.DOT_4, more))
          .isLessThan(BoilingPoint.minimumC(FluidGrade.DOT_4, water));
      double here = Air.pressureMpa(altitudeM);
      double higher = Air.pressureMpa(altitudeM + 100);
      assertThat(BoilingPoint.atPressureC(200, higher))
          .isLessThan(BoilingPoint.atPressureC(200, here));
      assertThat(BoilingPoint.waterBoilsC(higher)).isLessThan(BoilingPoint.waterBoilsC(here));
    }
  }
}
