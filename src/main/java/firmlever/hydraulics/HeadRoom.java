package firmlever.hydraulics;

/** Room for fluid in the reservoir, and what takes it. */
public final class HeadRoom {
  private HeadRoom() {}

  /**
   * Fluid that pad wear takes out of the reservoir, mL; new pads push as much back.
   *
   * @param pistonAreaMm2 area of all pistons, mm²
   * @param wearMm wear of each pad, mm
   */
  public static double padWearMl(double pistonAreaMm2, double wearMm) {
    return pistonAreaMm2 * wearMm / 1000;
  }
}
