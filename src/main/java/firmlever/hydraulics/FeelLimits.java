package firmlever.hydraulics;

import java.util.OptionalDouble;

/**
 * Limits at which a reading becomes a symptom.
 *
 * @param makersThrowMm long-throw above this, mm; where the maker gives none, above what sound
 *     brakes of the kind take ({@link SoundThrow})
 * @param creepMm lever-sinks above this over 60 s, mm
 * @param pumpMm pumps-up when five strokes shorten the throw by this or more, mm
 * @param softMm spongy-lever when gas or added give take more than this to a firm pull, mm;
 *     hose-swells when added give alone does
 */
public record FeelLimits(
    OptionalDouble makersThrowMm, double creepMm, double pumpMm, double softMm) {

  /** Limits of common practice, with the maker's throw where it is known. */
  public static FeelLimits common(OptionalDouble makersThrowMm) {
    return new FeelLimits(
        makersThrowMm,
        Figures.CREEP_LIMIT.value(),
        Figures.PUMP_LIMIT.value(),
        Figures.SOFT_LIMIT.value());
  }
}
