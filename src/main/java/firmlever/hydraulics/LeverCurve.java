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
    double pressureMpa = brake.pressureMpa(forceN);
    // Seal and pad springs give way in proportion until the pads touch.
    double closed = Math.min(1, pressureMpa / brake.contactPressureMpa());
    double gapMl = closed * brake.pistonAreaMm2() * condition.clearanceMm() / 1000;
    double gasMl = TrappedGas.takenUpMl(condition.gasMl(), pressureMpa, condition.ambientMpa());
    double give = brake.giveMlPerMpa(condition.temperatureC()) + condition.addedGiveMlPerMpa();
    double volumeMl =
        gapMl + gasMl + give * pressureMpa + squaringMl(brake, condition, pressureMpa);
    return closed * brake.deadTravelMm()
        + brake.throwMmPerMl() * volumeMl
        + brake.bladeFlexMmPerN() * forceN;
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
