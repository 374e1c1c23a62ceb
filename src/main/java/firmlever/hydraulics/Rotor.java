package firmlever.hydraulics;

/**
 * A rotor as a lump of steel.
 *
 * @param massKg mass, kg
 * @param diameterMm diameter, mm
 */
public record Rotor(double massKg, double diameterMm) {
  /** A rotor of which only the diameter is known. */
  public static Rotor ofDiameterMm(double diameterMm) {
    double square = diameterMm / 160 * (diameterMm / 160);
    return new Rotor(Figures.ROTOR_MASS.value() * square, diameterMm);
  }

  /** Area of both faces that the air meets, m². */
  double areaM2() {
    return 2 * Figures.ROTOR_FILLED.value() * Brake.areaMm2(diameterMm) / 1e6;
  }
}
