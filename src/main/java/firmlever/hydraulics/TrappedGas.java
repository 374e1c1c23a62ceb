package firmlever.hydraulics;

/** Gas in the line: what pressure does to it and to the stiffness of the fluid that holds it. */
public final class TrappedGas {
  /** Exponent of a slow pull, in which the gas keeps the fluid's temperature. */
  public static final double SLOW = 1.0;

  /** Exponent of a quick pull, in which the gas has no time to lose heat. */
  public static final double QUICK = Figures.AIR_POLYTROPE.value();

  private TrappedGas() {}

  /**
   * Volume of gas under pressure: V (p0 / (p0 + P))^(1/n).
   *
   * @param freeMl volume at ambient pressure, mL, at least 0
   * @param pressureMpa gauge pressure, MPa, at least 0
   * @param ambientMpa absolute air pressure, MPa, above 0
   * @param exponent {@link #SLOW} to {@link #QUICK}
   */
  public static double squeezedMl(
      double freeMl, double pressureMpa, double ambientMpa, double exponent) {
    double ratio = ambientMpa / (ambientMpa + pressureMpa);
    return freeMl * (exponent == SLOW ? ratio : Math.pow(ratio, 1 / exponent));
  }

  /** Fluid that must flow in to squeeze the gas, mL; arguments as in {@link #squeezedMl}. */
  public static double takenUpMl(
      double freeMl, double pressureMpa, double ambientMpa, double exponent) {
    return freeMl - squeezedMl(freeMl, pressureMpa, ambientMpa, exponent);
  }

  /**
   * Rise of the gas temperature in a quick squeeze, kelvin: T ((p/p0)^((n-1)/n) - 1).
   *
   * @param temperatureC temperature before, °C
   */
  public static double heatingK(
      double temperatureC, double pressureMpa, double ambientMpa, double exponent) {
    double ratio = (ambientMpa + pressureMpa) / ambientMpa;
    return (temperatureC + 273.15) * (Math.pow(ratio, (exponent - 1) / exponent) - 1);
  }

  /**
   * Bulk modulus of fluid with gas as textbooks print it: 1/Be = a/(nP) + (1-a)/B.
   *
   * <p>Crude: it keeps the gas share fixed while the pressure squeezes it, so it makes a brake far
   * too soft at high pressure. {@link #effectiveModulusMpa} does not.
   *
   * @param fluidMpa bulk modulus of the fluid alone, MPa
   * @param share gas as a share of the volume, 0 to 1
   * @param absoluteMpa absolute pressure, MPa
   */
  public static double textbookModulusMpa(
      double fluidMpa, double share, double exponent, double absoluteMpa) {
    return 1 / (share / (exponent * absoluteMpa) + (1 - share) / fluidMpa);
  }

  /**
   * Bulk modulus of fluid with gas at a pressure, the gas squeezed by that pressure.
   *
   * @param share gas as a share of the volume at ambient pressure, 0 to 1
   * @param pressureMpa gauge pressure, MPa
   */
  public static double effectiveModulusMpa(
      double fluidMpa, double share, double exponent, double pressureMpa, double ambientMpa) {
    double gas = squeezedMl(share, pressureMpa, ambientMpa, exponent);
    double fluid = 1 - share;
    double give = gas / (exponent * (ambientMpa + pressureMpa)) + fluid / fluidMpa;
    return (gas + fluid) / give;
  }
}
