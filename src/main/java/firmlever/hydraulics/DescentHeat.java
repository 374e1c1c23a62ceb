package firmlever.hydraulics;

/**
 * Heat of one descent at one brake.
 *
 * <p>A lump of steel cooled by air. Left out: radiation and heat into the hub, which both cool, so
 * the upper end is high rather than low. Rolling resistance is left out too.
 *
 * @param massKg rider, bicycle and load, kg
 * @param dropM height lost, m
 * @param gradient rise over run of the road, above 0
 * @param speedMPerS speed held on the brakes, m/s, above 0
 * @param wheelShare share of the braking at this wheel, 0 to 1
 */
public record DescentHeat(
    double massKg, double dropM, double gradient, double speedMPerS, double wheelShare) {

  /** Share of the braking that one brake takes where both are used. */
  public static final double USUAL_SHARE = Figures.BRAKING_SHARE.value();

  /**
   * Speed at which the brakes take most heat, m/s, from the speed of free rolling down the same
   * road.
   */
  static double worstSpeedMPerS(double freeSpeedMPerS) {
    return freeSpeedMPerS / Math.sqrt(3); // where the slope of v (1 - v²/vT²) is 0
  }

  /**
   * The descent at the held speed that heats most, with usual air drag.
   *
   * @param gradient rise over run of the road, above 0
   */
  public static DescentHeat atWorstSpeed(
      double massKg, double dropM, double gradient, double wheelShare) {
    double fallN = massKg * Figures.GRAVITY.value() * sine(gradient);
    double freeMPerS = Math.sqrt(fallN / Figures.RIDING_DRAG.at(1));
    return new DescentHeat(massKg, dropM, gradient, worstSpeedMPerS(freeMPerS), wheelShare);
  }

  /** Length of the descent in time, s. */
  double seconds() {
    return dropM / sine(gradient) / speedMPerS;
  }

  /**
   * Temperature of the rotor at the foot, °C.
   *
   * @return low: strong drag and cooling; high: weak drag and cooling
   */
  Interval rotorC(Rotor rotor, double ambientC) {
    Figures drag = Figures.RIDING_DRAG;
    double filmLow = Figures.FILM.at(0);
    double filmHigh = Figures.FILM.at(1);
    double heatLow = Figures.ROTOR_HEAT.at(0);
    double heatHigh = Figures.ROTOR_HEAT.at(1);
    return new Interval(
        ambientC + riseK(rotor, powerW(drag.at(2)), filmHigh, heatHigh),
        ambientC + riseK(rotor, powerW(drag.at(1)), Math.sqrt(filmLow * filmHigh), heatLow),
        ambientC + riseK(rotor, powerW(drag.at(0)), filmLow, heatLow));
  }

  /**
   * Temperature of the fluid at the caliper at the foot, °C: part of the rotor's rise reaches it.
   */
  Interval fluidC(Rotor rotor, double ambientC) {
    Interval rotorC = rotorC(rotor, ambientC);
    double low = Figures.FLUID_SHARE.at(0);
    double high = Figures.FLUID_SHARE.at(1);
    return new Interval(
        ambientC + low * (rotorC.low() - ambientC),
        ambientC + Math.sqrt(low * high) * (rotorC.best() - ambientC),
        ambientC + high * (rotorC.high() - ambientC));
  }

  private double powerW(double dragKgPerM) {
    double fallN = massKg * Figures.GRAVITY.value() * sine(gradient);
    double dragN = dragKgPerM * speedMPerS * speedMPerS;
    return Math.max(0, fallN - dragN) * speedMPerS * wheelShare;
  }

  private double riseK(Rotor rotor, double powerW, double film, double heatJPerKgK) {
    double lossWPerK = film * rotor.areaM2();
    double warmed = -Math.expm1(-seconds() * lossWPerK / (rotor.massKg() * heatJPerKgK));
    return powerW / lossWPerK * warmed;
  }

  private static double sine(double gradient) {
    return gradient / Math.sqrt(1 + gradient * gradient);
  }
}
