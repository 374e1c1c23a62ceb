package firmlever.hydraulics;

/**
 * One brake as built: sizes and stiffness, without any fault.
 *
 * @param leverBoreMm bore of the lever piston, mm
 * @param leverRatio travel at the lever tip per travel of the lever piston
 * @param pistonAreaMm2 area of all caliper pistons together, mm²; a single sliding piston counts
 *     twice, because it takes up both gaps
 * @param hoseLengthMm length of the hose, mm
 * @param hoseBoreMm inner diameter of the hose, mm
 * @param hoseSoftness swelling of the hose, mL per metre and MPa
 * @param fluid fluid in the brake
 * @param fixedVolumeMl fluid in lever and passages, mL
 * @param pistonDepthMm depth of fluid behind each caliper piston, mm
 * @param caliperGiveMmPerMpa give of pads, rotor and caliper seen by each piston, mm per MPa
 * @param bladeFlexMmPerN flex of lever blade and clamp at the tip, mm per N
 * @param deadTravelMm travel at the tip before the return port shuts, mm
 * @param contactPressureMpa pressure that just brings the pads to the rotor, MPa, above 0
 */
public record Brake(
    double leverBoreMm,
    double leverRatio,
    double pistonAreaMm2,
    double hoseLengthMm,
    double hoseBoreMm,
    double hoseSoftness,
    FluidGrade fluid,
    double fixedVolumeMl,
    double pistonDepthMm,
    double caliperGiveMmPerMpa,
    double bladeFlexMmPerN,
    double deadTravelMm,
    double contactPressureMpa) {

  /** Area of a bore, mm². */
  static double areaMm2(double boreMm) {
    return Math.PI / 4 * boreMm * boreMm;
  }

  /** Pressure at a lever force, MPa. */
  public double pressureMpa(double forceN) {
    return forceN * leverRatio / areaMm2(leverBoreMm);
  }

  /** Travel at the lever tip that moves one millilitre, mm. */
  double throwMmPerMl() {
    return 1000 * leverRatio / areaMm2(leverBoreMm);
  }

  /** Clamping force of the pads on the rotor at a pressure, N: one side's pistons. */
  double clampN(double pressureMpa) {
    return pressureMpa * pistonAreaMm2 / 2;
  }

  /** Fluid in the hose, mL. */
  double hoseVolumeMl() {
    return areaMm2(hoseBoreMm) * hoseLengthMm / 1000;
  }

  /** Fluid under pressure when the lever is pulled, mL; the reservoir is not in it. */
  double volumeMl() {
    return hoseVolumeMl() + fixedVolumeMl + pistonAreaMm2 * pistonDepthMm / 1000;
  }

  /** All fluid in the brake, the reservoir's included, mL. */
  public double systemVolumeMl() {
    return volumeMl() + Figures.DEFAULT_RESERVOIR.value();
  }

  /** Swelling of the hose, mL per MPa. */
  double hoseGiveMlPerMpa() {
    return hoseSoftness * hoseLengthMm / 1000;
  }

  /** Give of fluid, hose and caliper together, mL per MPa; without gas or faults. */
  public double giveMlPerMpa(double temperatureC) {
    return volumeMl() / fluid.bulkModulusMpa(temperatureC)
        + hoseGiveMlPerMpa()
        + caliperGiveMmPerMpa * pistonAreaMm2 / 1000;
  }
}
