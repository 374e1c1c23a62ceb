package firmlever.hydraulics;

/**
 * Heat of one descent at one brake.
 *
 * <p>A lump of steel cooled by air. Left out: radiation and heat into the hub, which both cool, so
 * the upper end is high rather than low. Rolling resistance is left out too; air drag is in the
 * estimate, not in the textbook functions.
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

  /** Energy of a height lost, J. */
  public static double fallJ(double massKg, double dropM) {
    return massKg * Figures.GRAVITY.value() * dropM;
  }

  /** Energy of a stop from a speed, J. */
  public static double stopJ(double massKg, double speedMPerS) {
    return massKg * speedMPerS * speedMPerS / 2;
  }

  /** Rise of a lump that keeps all the heat, K. */
  public static double lumpRiseK(double energyJ, double massKg, double heatJPerKgK) {
    return energyJ / (massKg * heatJPerKgK);
  }

  /**
   * Height lost on a way along a slope, m; the gradient is rise over run, the way is along the
   * road.
   */
  public static double dropM(double wayM, double gradient) {
    return wayM * sine(gradient);
  }

  /**
   * Speed at which the brakes take most heat, m/s, from the speed of free rolling down the same
   * road.
   */
  public static double worstSpeedMPerS(double freeSpeedMPerS) {
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

  /** Heat into both brakes at a held speed, W, when drag alone limits free rolling. */
  public static double brakingW(
      double massKg, double gradient, double speedMPerS, double freeSpeedMPerS) {
    double share = speedMPerS / freeSpeedMPerS;
    double fallW = massKg * Figures.GRAVITY.value() * sine(gradient) * speedMPerS;
    return Math.max(0, fallW * (1 - share * share));
  }

  /** Length of the descent in time, s. */
  public double seconds() {
    return dropM / sine(gradient) / speedMPerS;
  }

  /**
   * Temperature of the rotor at the foot, °C.
   *
   * @return low: strong drag and cooling; high: weak drag and cooling
   */
  public Interval rotorC(Rotor rotor, double ambientC) {
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
  public Interval fluidC(Rotor rotor, double ambientC) {
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
