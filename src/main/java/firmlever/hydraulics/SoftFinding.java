package firmlever.hydraulics;

/**
 * A symptom as uncertain evidence: how well the readings fit its being there, and its not being
 * there.
 *
 * <p>From a reading, or from the share of fitting brakes beyond the limit; what is held of a brake
 * beforehand is spread so wide about the limit that this share stands for the likelihood.
 *
 * <p>Only the ratio of the two counts, so they are scaled to sum 1. Far from the limit they are
 * near 0 and 1 and the symptom is as good as seen; near the limit they are both near one half and
 * say little.
 *
 * @param symptom id of the symptom
 * @param ifPresent likelihood of the readings if the symptom is present, 0 to 1
 * @param limit limit that divides present from absent
 * @param unit unit of the limit
 */
public record SoftFinding(String symptom, double ifPresent, double limit, String unit) {
  private static final double MOST = 0.999; // no reading is beyond doubt: wrong brake, wrong ruler

  /** Holds the likelihood away from 0 and 1. */
  public SoftFinding {
    ifPresent = Math.max(1 - MOST, Math.min(MOST, ifPresent));
  }

  /** From a reading whose error is known, with no opinion beforehand. */
  static SoftFinding ofReading(
      String symptom, double reading, double standardError, double limit, String unit) {
    double above = Normal.below((reading - limit) / standardError);
    return new SoftFinding(symptom, above, limit, unit);
  }
}
