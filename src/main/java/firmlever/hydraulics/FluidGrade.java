package firmlever.hydraulics;

/**
 * A fluid and what is known of it. Boiling points of DOT grades are the minima a new fluid must
 * reach: real fluids lie above. A DOT fluid of unknown grade is taken as DOT 3, an unknown fluid as
 * the softer oil.
 */
public enum FluidGrade {
  MINERAL_OIL(Kind.OIL),
  DOT_3(Kind.GLYCOL, Figures.DOT_3_BOILING),
  DOT_4(Kind.GLYCOL, Figures.DOT_4_BOILING),
  DOT_5_1(Kind.GLYCOL, Figures.DOT_5_BOILING),
  DOT_5(Kind.SILICONE, Figures.DOT_5_BOILING),
  DOT(Kind.GLYCOL, Figures.DOT_3_BOILING),
  OTHER_OIL(Kind.OIL),
  UNKNOWN(Kind.OIL);

  /** What a fluid is made of. */
  private enum Kind {
    OIL,
    GLYCOL,
    SILICONE
  }

  private final Kind kind;
  private final double dryC;
  private final double wetC;

  FluidGrade(Kind kind) {
    this.kind = kind;
    this.dryC = Figures.MINERAL_OIL_BOILING.value();
    this.wetC = dryC; // oil takes up next to no water: what water there is lies free
  }

  FluidGrade(Kind kind, Figures boiling) {
    this.kind = kind;
    this.dryC = boiling.at(0);
    this.wetC = boiling.at(1);
  }

  /** Whether the fluid takes water into solution (glycol) or leaves it free (oil, silicone). */
  boolean takesUpWater() {
    return kind == Kind.GLYCOL;
  }

  /** Lowest boiling point of the fresh fluid at sea level, °C. */
  double dryBoilingC() {
    return dryC;
  }

  /** Lowest boiling point at the wet point of 49 CFR 571.116, °C; for oil the dry one. */
  double wetBoilingC() {
    return wetC;
  }

  /**
   * Bulk modulus of the fluid without gas, MPa.
   *
   * <p>The factor for warmth is that of hydraulic oil, a straight line through its two published
   * points; for the other kinds it is taken over.
   *
   * @param temperatureC held to -40 to 150 °C
   */
  double bulkModulusMpa(double temperatureC) {
    double baseMpa =
        switch (kind) {
          case OIL -> Figures.OIL_BULK_MODULUS.value() * 1000;
          case GLYCOL -> Figures.GLYCOL_BULK_MODULUS.value() * 1000;
          case SILICONE -> Units.mpaFromPsi(Figures.SILICONE_BULK_MODULUS.value());
        };
    return baseMpa * warmth(temperatureC) / warmth(20);
  }

  /** Factor on the bulk modulus, 1.10 at 60 °F and 0.86 at 160 °F. */
  static double warmth(double temperatureC) {
    double lowC = Units.celsiusFromFahrenheit(60);
    double highC = Units.celsiusFromFahrenheit(160);
    double held = Math.max(-40, Math.min(150, temperatureC));
    double part = (held - lowC) / (highC - lowC);
    double low = Figures.MODULUS_WARMTH.at(0);
    return low + part * (Figures.MODULUS_WARMTH.at(1) - low);
  }
}
