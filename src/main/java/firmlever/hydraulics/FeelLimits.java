package firmlever.hydraulics;

import java.util.OptionalDouble;

/**
 * Limits at which a reading becomes a symptom.
 *
 * @param throwMm long-throw above this, mm
 * @param creepMm lever-sinks above this over 60 s, mm
 * @param pumpMm pumps-up when five strokes shorten the throw by this or more, mm
 * @param softMm spongy-lever when gas or added give take more than this to a firm pull, mm;
 *     hose-swells when added give alone does
 */
public record FeelLimits(double throwMm, double creepMm, double pumpMm, double softMm) {

  /** Limits of common practice, with the maker's throw where it is known. */
  public static FeelLimits common(OptionalDouble makersThrowMm) {
    return new FeelLimits(
        makersThrowMm.orElse(Figures.THROW_LIMIT.value()),
        Figures.CREEP_LIMIT.value(),
        Figures.PUMP_LIMIT.value(),
        Figures.SOFT_LIMIT.value());
  }
}
