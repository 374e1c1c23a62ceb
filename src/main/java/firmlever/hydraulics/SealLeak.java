package firmlever.hydraulics;

/** Fluid that slips past the lever piston's seal: laminar flow through a thin ring. */
public final class SealLeak {
  private SealLeak() {}

  /**
   * Leakage, Q = pi D c³ dP / (12 mu L). A piston right over to one side leaks up to 2.5 times as
   * much.
   *
   * @param boreMm diameter D, mm
   * @param gapMm radial gap c, mm
   * @param pressureMpa pressure across the gap, MPa
   * @param viscosityMilliPaS dynamic viscosity mu, mPa·s
   * @param lengthMm length of the gap L, mm
   * @return mm³ per second
   */
  public static double flowMm3PerS(
      double boreMm, double gapMm, double pressureMpa, double viscosityMilliPaS, double lengthMm) {
    double viscosityMpaS = viscosityMilliPaS * 1e-9;
    double cube = gapMm * gapMm * gapMm;
    return Math.PI * boreMm * cube * pressureMpa / (12 * viscosityMpaS * lengthMm);
  }

  /**
   * Gap that explains a creep, mm.
   *
   * @param creepMm sinking at the lever tip during the hold, mm, at least 0
   * @param forceN force of the hold, N, above 0
   * @param seconds length of the hold, s, above 0
   */
  public static double gapMm(Brake brake, double creepMm, double forceN, double seconds) {
    double flowMm3PerS = Math.max(0, creepMm) / brake.throwMmPerMl() * 1000 / seconds;
    double perCube =
        flowMm3PerS(
            brake.leverBoreMm(),
            1,
            brake.pressureMpa(forceN),
            brake.fluid().viscosityMilliPaS(),
            Figures.SEAL_LAND.value());
    return Math.cbrt(flowMm3PerS / perCube);
  }
}
