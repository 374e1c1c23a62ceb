package firmlever.hydraulics;

/**
 * What state a brake is in.
 *
 * @param gasMl trapped gas at ambient pressure, mL
 * @param clearanceMm gap between pad and rotor at each piston, mm
 * @param addedGiveMlPerMpa give beyond a sound brake's, such as a soft hose or pads, mL per MPa
 * @param offCentreMm how far the rotor stands from the middle or the pads from square, mm
 * @param temperatureC temperature of the fluid, °C
 * @param ambientMpa absolute air pressure, MPa
 */
public record Condition(
    double gasMl,
    double clearanceMm,
    double addedGiveMlPerMpa,
    double offCentreMm,
    double temperatureC,
    double ambientMpa) {

  /** A sound brake at 20 °C at sea level. */
  public static Condition sound() {
    double gapMm = Figures.DEFAULT_CLEARANCE.value();
    return new Condition(0, gapMm, 0, 0, 20, Air.SEA_LEVEL_MPA);
  }

  /** The same with this much gas, mL. */
  public Condition withGasMl(double ml) {
    return new Condition(ml, clearanceMm, addedGiveMlPerMpa, offCentreMm, temperatureC, ambientMpa);
  }

  /** The same with this gap at each piston, mm. */
  public Condition withClearanceMm(double mm) {
    return new Condition(gasMl, mm, addedGiveMlPerMpa, offCentreMm, temperatureC, ambientMpa);
  }

  /** The same with this added give, mL per MPa. */
  public Condition withAddedGive(double mlPerMpa) {
    return new Condition(gasMl, clearanceMm, mlPerMpa, offCentreMm, temperatureC, ambientMpa);
  }
}
