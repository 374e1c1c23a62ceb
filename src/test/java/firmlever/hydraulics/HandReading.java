package firmlever.hydraulics;

/**
 * What a hand would read at a lever whose brake and state are known: the estimate run backwards.
 */
final class HandReading {
  private HandReading() {}

  /** Throw when the pads just touch, mm. */
  static double throwAtContactMm(Brake brake, Condition condition) {
    double forceN = brake.contactPressureMpa() / brake.pressureMpa(1);
    return LeverCurve.throwMm(brake, condition, forceN);
  }

  /**
   * Throw after five quick strokes, mm: the gap beyond a sound brake's is partly taken up, the gas
   * partly kept squeezed.
   */
  static double throwAfterFiveMm(Brake brake, Condition condition, double forceN, Pumping pumping) {
    double excessMm = Math.max(0, condition.clearanceMm() - Figures.DEFAULT_CLEARANCE.value());
    double gapMl = pumping.gapShare() * excessMm * brake.pistonAreaMm2() / 1000;
    double contactMpa = Math.min(brake.contactPressureMpa(), brake.pressureMpa(forceN));
    double gasMl = TrappedGas.takenUpMl(condition.gasMl(), contactMpa, condition.ambientMpa());
    return LeverCurve.throwMm(brake, condition, forceN)
        - brake.throwMmPerMl() * (gapMl + pumping.gasShare() * gasMl);
  }
}
