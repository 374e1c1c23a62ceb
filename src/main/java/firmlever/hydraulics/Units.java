package firmlever.hydraulics;

/** The few foreign units that published tables are printed in. Exact factors of NIST SP 811. */
final class Units {
  private Units() {}

  /** Pressure in MPa from pounds-force per square inch. */
  static double mpaFromPsi(double psi) {
    return psi * Figures.PSI.value() / 1e6;
  }

  /** Pressure in mmHg from MPa. */
  static double mmHgFromMpa(double pressureMpa) {
    return pressureMpa * 1e6 / Figures.MMHG.value();
  }

  /** Temperature in °C from °F. */
  static double celsiusFromFahrenheit(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }
}
