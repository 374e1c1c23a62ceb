package firmlever.hydraulics;

/** The air a brake stands in. */
public final class Air {
  /** Absolute pressure at sea level, MPa. */
  public static final double SEA_LEVEL_MPA = Figures.STANDARD_AIR.value() / 1e6;

  private Air() {}

  /**
   * Absolute air pressure of the standard atmosphere.
   *
   * @param altitudeM height above the sea, metres, held to -500 to 9000
   * @return MPa; weather moves it by some 3 %
   */
  public static double pressureMpa(double altitudeM) {
    double height = Math.max(-500, Math.min(9000, altitudeM));
    double lapse = Figures.STANDARD_LAPSE.at(0);
    return SEA_LEVEL_MPA * Math.pow(1 - lapse * height, Figures.STANDARD_LAPSE.at(1));
  }
}
