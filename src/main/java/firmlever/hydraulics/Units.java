package firmlever.hydraulics;

/** The few foreign units that published tables are printed in. Exact factors of NIST SP 811. */
public final class Units {
  private Units() {}

  /** Pressure in MPa from pounds-force per square inch. */
  public static double mpaFromPsi(double psi) {
    return psi * Figures.PSI.value() / 1e6;
  }

  /** Volume per length in mL/m from mL/ft. */
  public static double perMetreFromPerFoot(double perFoot) {
    return perFoot / Figures.FOOT.value();
  }

  /** Pressure in mmHg from MPa. */
  public static double mmHgFromMpa(double pressureMpa) {
    return pressureMpa * 1e6 / Figures.MMHG.value();
  }

  /** A change per kelvin from a change per degree Fahrenheit. */
  public static double perKelvinFromPerFahrenheit(double perFahrenheit) {
    return perFahrenheit * 1.8;
  }

  /** Temperature in °C from °F. */
  public static double celsiusFromFahrenheit(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }
}
