package firmlever.hydraulics;

/**
 * Throw at the lever tip against force, quasi-static.
 *
 * <p>Left out: friction, the lever's return spring, lag of the hose. The lever's ratio is taken as
 * fixed.
 */
public final class LeverCurve {
  private LeverCurve() {}

  /**
   * Throw in a slow first pull, mm from rest.
   *
   * @param forceN force at the lever tip, N, at least 0
   */
  public static double throwMm(Brake brake, Condition condition, double forceN) {
    return throwMm(brake, condition, forceN, TrappedGas.SLOW);
  }

  /**
   * Throw, mm from rest.
   *
   * @param forceN force at the lever tip, N, at least 0
   * @param exponent {@link TrappedGas#SLOW} to {@link TrappedGas#QUICK}
   */
  public static double throwMm(Brake brake, Condition condition, double forceN, double exponent) {
    double pressureMpa = brake.pressureMpa(forceN);
    // Seal and pad springs give way in proportion until the pads touch.
    double closed = Math.min(1, pressureMpa / brake.contactPressureMpa());
    double gapMl = closed * brake.pistonAreaMm2() * condition.clearanceMm() / 1000;
    double gasMl =
        TrappedGas.takenUpMl(condition.gasMl(), pressureMpa, condition.ambientMpa(), exponent);
    double give = brake.giveMlPerMpa(condition.temperatureC()) + condition.addedGiveMlPerMpa();
    double volumeMl =
        gapMl + gasMl + give * pressureMpa + squaringMl(brake, condition, pressureMpa);
    return closed * brake.deadTravelMm()
        + brake.throwMmPerMl() * volumeMl
        + brake.bladeFlexMmPerN() * forceN;
  }

  /** Throw when the pads just touch, mm. */
  public static double throwAtContactMm(Brake brake, Condition condition) {
    double forceN = brake.contactPressureMpa() / brake.pressureMpa(1);
    return throwMm(brake, condition, forceN);
  }

  /**
   * Throw after five quick strokes, mm: the gap beyond a sound brake's is partly taken up, the gas
   * partly kept squeezed.
   */
  public static double throwAfterFiveMm(
      Brake brake, Condition condition, double forceN, Pumping pumping) {
    double excessMm = Math.max(0, condition.clearanceMm() - Figures.DEFAULT_CLEARANCE.value());
    double gapMl = pumping.gapShare() * excessMm * brake.pistonAreaMm2() / 1000;
    double contactMpa = Math.min(brake.contactPressureMpa(), brake.pressureMpa(forceN));
    double gasMl =
        TrappedGas.takenUpMl(
            condition.gasMl(), contactMpa, condition.ambientMpa(), TrappedGas.SLOW);
    return throwMm(brake, condition, forceN)
        - brake.throwMmPerMl() * (gapMl + pumping.gasShare() * gasMl);
  }

  /** Creep of a held lever past a leaking seal, mm. */
  public static double creepMm(Brake brake, Condition condition, double forceN, double seconds) {
    double flowMm3PerS =
        SealLeak.flowMm3PerS(
            brake.leverBoreMm(),
            condition.sealGapMm(),
            brake.pressureMpa(forceN),
            brake.fluid().viscosityMilliPaS(),
            Figures.SEAL_LAND.value());
    return flowMm3PerS * seconds / 1000 * brake.throwMmPerMl();
  }

  /** Fluid that squares an off-centre rotor to the pads: one side's pistons bend it across, mL. */
  private static double squaringMl(Brake brake, Condition condition, double pressureMpa) {
    double offMm = condition.offCentreMm();
    if (offMm <= 0) {
      return 0;
    }
    double bentMm = brake.clampN(pressureMpa) / Figures.ROTOR_SIDE_STIFFNESS.value();
    return brake.pistonAreaMm2() / 2 * offMm * (1 - Math.exp(-bentMm / offMm)) / 1000;
  }
}
