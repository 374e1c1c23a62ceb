package firmlever.hydraulics;

/** Gas in the line, in a slow pull, in which it keeps the fluid's temperature. */
final class TrappedGas {
  private TrappedGas() {}

  /**
   * Fluid that must flow in to squeeze the gas, mL: V P / (p0 + P), Boyle's law.
   *
   * @param freeMl volume at ambient pressure, mL, at least 0
   * @param pressureMpa gauge pressure, MPa, at least 0
   * @param ambientMpa absolute air pressure, MPa, above 0
   */
  static double takenUpMl(double freeMl, double pressureMpa, double ambientMpa) {
    return freeMl - freeMl * (ambientMpa / (ambientMpa + pressureMpa));
  }
}
