package firmlever.hydraulics;

/**
 * Whether the fluid of a warming brake has somewhere to go.
 *
 * @param expansionMl growth of the fluid, mL
 * @param surplusMl growth that the free room does not take, mL, at least 0
 * @param pressureMpa pressure it builds once the pads are home on the rotor, MPa
 * @param clampN force of the pads on the rotor from it, N
 * @param outcome what that comes to
 */
public record HeadRoom(
    double expansionMl, double surplusMl, double pressureMpa, double clampN, Outcome outcome) {

  /** What a warm brake does. */
  public enum Outcome {
    /** The reservoir takes all. */
    ROOM,
    /** Pads move nearer to the rotor; short throw, perhaps a rub. */
    SMALLER_GAP,
    /** Pads press on the rotor. */
    DRAGS,
    /** Pads press as hard as a hand would: the wheel may lock. */
    LOCKS
  }

  /**
   * Works one warming.
   *
   * @param volumeMl all fluid that warms, mL
   * @param freeMl room left in the reservoir, mL; 0 when overfull or when the return port is shut
   * @param gapMm gap between pad and rotor at each piston, mm
   * @param fromC temperature when it was filled, °C
   * @param toC temperature when hot, °C
   */
  public static HeadRoom of(
      Brake brake, double volumeMl, double freeMl, double gapMm, double fromC, double toC) {
    double expansionMl = expansionMl(volumeMl, brake.fluid().expansionPerK(), toC - fromC);
    double surplusMl = Math.max(0, expansionMl - Math.max(0, freeMl));
    double gapMl = brake.pistonAreaMm2() * gapMm / 1000;
    double pressureMpa = Math.max(0, surplusMl - gapMl) / brake.giveMlPerMpa(toC);
    double lockingMpa = brake.pressureMpa(Figures.LOCKING_PULL.value());
    Outcome outcome = Outcome.ROOM;
    if (pressureMpa > lockingMpa) {
      outcome = Outcome.LOCKS;
    } else if (pressureMpa > 0) {
      outcome = Outcome.DRAGS;
    } else if (surplusMl > 0) {
      outcome = Outcome.SMALLER_GAP;
    }
    return new HeadRoom(expansionMl, surplusMl, pressureMpa, brake.clampN(pressureMpa), outcome);
  }

  /** Growth of a fluid, mL: volume × expansion × rise. */
  public static double expansionMl(double volumeMl, double expansionPerK, double riseK) {
    return volumeMl * expansionPerK * riseK;
  }

  /** Pressure of a fluid warmed in a rigid shut space, in the unit of the bulk modulus. */
  public static double shutPressure(double bulkModulus, double expansionPerK, double riseK) {
    return bulkModulus * expansionPerK * riseK;
  }

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
