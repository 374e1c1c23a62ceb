package firmlever.hydraulics;

import java.util.OptionalDouble;

/**
 * Boiling point of the fluid in a brake.
 *
 * <p>For DOT grades the curve runs between the published minima, dry and at 3.70 % water, and falls
 * exponentially towards the boiling point of water; real fluids lie above. A released brake stands
 * at air pressure, so that is where vapour forms.
 *
 * @param boilingC boiling point at this air pressure, °C
 * @param basis what it rests on
 */
public record BoilingPoint(Interval boilingC, Basis basis) {
  private static final double WATER_C = 100;
  private static final double STANDARD_MMHG = 760;

  /** What an estimate rests on, the best first. */
  public enum Basis {
    /** A boiling-point tester. */
    BOILING_READING,
    /** A moisture tester. */
    MOISTURE_READING,
    /** Water seen lying free in the fluid. */
    FREE_WATER,
    /** Time since the last exchange. */
    AGE,
    /** The fluid does not take up water. */
    DRY_OIL,
    /** Nothing but the grade: anything from fresh to very wet. */
    GRADE_ONLY
  }

  /**
   * What is known of the fluid.
   *
   * @param readingC boiling point read on a tester at this air pressure, °C
   * @param waterPercent water read on a tester, % by weight
   * @param freeWater whether water was seen lying free
   * @param years time since the last exchange, years
   */
  public record Known(
      OptionalDouble readingC,
      OptionalDouble waterPercent,
      boolean freeWater,
      OptionalDouble years) {}

  /**
   * Estimates the boiling point; a reading beats age.
   *
   * @param ambientMpa absolute air pressure, MPa
   */
  public static BoilingPoint of(FluidGrade grade, Known known, double ambientMpa) {
    if (known.readingC().isPresent()) {
      double readC = known.readingC().getAsDouble();
      double errorC = Figures.BOILING_TESTER_ERROR.value();
      return new BoilingPoint(
          new Interval(readC - errorC, readC, readC + errorC), Basis.BOILING_READING);
    }
    if (known.freeWater()) {
      double waterC = waterBoilsC(ambientMpa);
      return new BoilingPoint(new Interval(waterC, waterC, waterC), Basis.FREE_WATER);
    }
    if (!grade.takesUpWater()) {
      double dryC = atPressureC(grade.dryBoilingC(), ambientMpa);
      double lowC = atPressureC(grade.wetBoilingC(), ambientMpa);
      return new BoilingPoint(new Interval(lowC, dryC, dryC), Basis.DRY_OIL);
    }
    if (known.waterPercent().isPresent()) {
      double water = known.waterPercent().getAsDouble();
      double error = Figures.MOISTURE_TESTER_ERROR.value();
      return of(grade, water - error, water, water + error, ambientMpa, Basis.MOISTURE_READING);
    }
    if (known.years().isPresent()) {
      double water = waterByAgePercent(known.years().getAsDouble());
      double factor = Math.exp(2 * Figures.FIELD_WATER_SPREAD.value());
      return of(grade, water / factor, water, water * factor, ambientMpa, Basis.AGE);
    }
    double wet = Figures.WET_WATER.value();
    return of(grade, 0, wet, 2 * wet, ambientMpa, Basis.GRADE_ONLY);
  }

  private static BoilingPoint of(
      FluidGrade grade,
      double leastWater,
      double water,
      double mostWater,
      double ambientMpa,
      Basis basis) {
    return new BoilingPoint(
        new Interval(
            atPressureC(minimumC(grade, mostWater), ambientMpa),
            atPressureC(minimumC(grade, water), ambientMpa),
            atPressureC(minimumC(grade, leastWater), ambientMpa)),
        basis);
  }

  /**
   * Lowest boiling point at sea level that a conforming fluid of this grade has at a water content,
   * °C.
   *
   * @param waterPercent dissolved water, % by weight; below 0 is taken as 0
   */
  static double minimumC(FluidGrade grade, double waterPercent) {
    double dry = grade.dryBoilingC() - WATER_C;
    double wet = grade.wetBoilingC() - WATER_C;
    double part = Math.max(0, waterPercent) / Figures.WET_WATER.value();
    return WATER_C + dry * Math.pow(wet / dry, part);
  }

  /**
   * Likely water in a DOT fluid after some years in use, % by weight; a rough guide, half to
   * double.
   */
  static double waterByAgePercent(double years) {
    double afterOneYear = Figures.FIELD_WATER.at(0);
    double old = Figures.FIELD_WATER.at(1);
    return old * (1 - Math.pow(1 - afterOneYear / old, Math.max(0, years)));
  }

  /** A sea-level boiling point as it is at another air pressure, °C (49 CFR 571.116 Table III). */
  static double atPressureC(double seaLevelC, double ambientMpa) {
    double below = STANDARD_MMHG - Units.mmHgFromMpa(ambientMpa);
    return seaLevelC - Figures.BOILING_PER_MMHG.at(seaLevelC > 190 ? 1 : 0) * below;
  }

  /** Boiling point of water, °C, at 0.03 to 0.11 MPa absolute (Antoine). */
  static double waterBoilsC(double ambientMpa) {
    double log = Math.log10(Units.mmHgFromMpa(ambientMpa));
    Figures antoine = Figures.WATER_ANTOINE;
    return antoine.at(1) / (antoine.at(0) - log) - antoine.at(2);
  }

  /**
   * Room between this boiling point and the fluid's temperature, °C; below 0 the fluid may boil.
   */
  Interval marginC(Interval fluidC) {
    return new Interval(
        boilingC.low() - fluidC.high(),
        boilingC.best() - fluidC.best(),
        boilingC.high() - fluidC.low());
  }
}
