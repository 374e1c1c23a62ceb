package firmlever.hydraulics;

import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * Brakes, faults and readings drawn without the estimator's own spreads: flat over what a workshop
 * may meet, with stiffness of hose, caliper and blade drawn each for itself.
 */
final class RandomBrakes {
  private final SplittableRandom random;

  private final boolean measured;

  /**
   * @param measured whether every brake has its sizes on record and both a light and a second firm
   *     reading; otherwise each is there or missing by chance
   */
  RandomBrakes(long seed, boolean measured) {
    random = new SplittableRandom(seed);
    this.measured = measured;
  }

  /** One truth with what a mechanic would know and read of it. */
  record Sample(
      Brake brake, Condition condition, KnownBrake known, Readings readings, double forceN) {}

  double between(double low, double high) {
    return low + random.nextDouble() * (high - low);
  }

  boolean chance(double share) {
    return random.nextDouble() < share;
  }

  private <T> T any(List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  Sample next() {
    int pistons = any(List.of(2, 2, 4));
    double caliperBoreMm = pistons == 4 ? between(15, 18) : between(20, 23);
    double areaMm2 = pistons * Brake.areaMm2(caliperBoreMm);
    KnownBrake.End end = any(List.of(KnownBrake.End.values()));
    double hoseMm =
        switch (end) {
          case FRONT -> between(800, 1100);
          case REAR -> between(1400, 1900);
          case UNKNOWN -> between(800, 1900);
        };
    FluidGrade fluid = any(List.of(FluidGrade.MINERAL_OIL, FluidGrade.DOT_4, FluidGrade.DOT_5_1));
    Brake brake =
        new Brake(
            between(9, 11),
            between(4.5, 6.5),
            areaMm2,
            hoseMm,
            between(2.0, 2.4),
            about(Figures.BICYCLE_HOSE_SOFTNESS.value(), 2.2),
            fluid,
            between(1.8, 3.2),
            between(1.5, 5),
            about(Figures.DEFAULT_CALIPER_GIVE.value(), 2.2),
            about(Figures.DEFAULT_BLADE_FLEX.value(), 2),
            between(0.5, 3.5),
            about(Figures.DEFAULT_CONTACT_PRESSURE.value(), 2.5));
    double temperatureC = between(5, 30);
    double gasMl = chance(0.3) ? 0 : between(0, 0.6);
    double addedGive = chance(0.5) ? 0 : between(0, 1.5) * brake.giveMlPerMpa(20);
    double ambientMpa = Air.pressureMpa(between(0, 1500));
    Condition condition =
        new Condition(gasMl, between(0.06, 0.40), addedGive, 0, temperatureC, ambientMpa);
    KnownBrake known =
        new KnownBrake(
            end,
            fluid,
            maybe(0.5, brake.leverBoreMm()),
            maybe(0.5, brake.leverRatio()),
            measured || chance(0.8) ? pistons : 0,
            measured || chance(0.5) ? List.of(caliperBoreMm) : List.of(),
            maybe(0.5, brake.hoseLengthMm()),
            maybe(0.5, brake.hoseBoreMm()));
    double forceN = between(60, 140);
    return new Sample(brake, condition, known, read(brake, condition, forceN), forceN);
  }

  /** From value / factor to value × factor, each ratio alike likely. */
  private double about(double value, double factor) {
    return value * Math.pow(factor, between(-1, 1));
  }

  private Readings read(Brake brake, Condition condition, double forceN) {
    OptionalDouble light =
        measured || chance(0.8)
            ? OptionalDouble.of(ruler(HandReading.throwAtContactMm(brake, condition)))
            : OptionalDouble.empty();
    Readings.Pull first = pull(brake, condition, forceN);
    List<Readings.Pull> firm =
        measured || chance(0.4)
            ? List.of(first, pull(brake, condition, 0.3 * forceN))
            : List.of(first);
    Pumping pumping = new Pumping(between(0.2, 1), between(0, 0.8));
    OptionalDouble afterFive =
        chance(0.4)
            ? OptionalDouble.of(
                ruler(HandReading.throwAfterFiveMm(brake, condition, scale(forceN), pumping)))
            : OptionalDouble.empty();
    return Readings.of(light, firm, afterFive, OptionalDouble.empty());
  }

  /** A pull whose stated force the scale got wrong. */
  private Readings.Pull pull(Brake brake, Condition condition, double statedN) {
    return new Readings.Pull(ruler(LeverCurve.throwMm(brake, condition, scale(statedN))), statedN);
  }

  private double scale(double statedN) {
    return statedN * between(0.9, 1.1);
  }

  private double ruler(double mm) {
    return mm + between(-1, 1);
  }

  private OptionalDouble maybe(double share, double value) {
    return measured || chance(share) ? OptionalDouble.of(value) : OptionalDouble.empty();
  }
}
