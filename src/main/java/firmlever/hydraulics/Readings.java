package firmlever.hydraulics;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Throw readings of one brake, at the lever tip from rest.
 *
 * @param lightMm throw when the pads just touch, mm
 * @param firm throws at a firm pull; several forces tell gas from give
 * @param afterFiveMm throw at a firm pull after five quick strokes, mm
 * @param creepMm sinking over a hold of 60 s, mm
 * @param rulerErrorMm error of the ruler either way, mm, above 0
 * @param scaleErrorShare error of the spring scale either way, as a share
 */
public record Readings(
    OptionalDouble lightMm,
    List<Pull> firm,
    OptionalDouble afterFiveMm,
    OptionalDouble creepMm,
    double rulerErrorMm,
    double scaleErrorShare) {

  /** Force of a firm pull when no scale was used, N. */
  public static final double USUAL_FIRM_N = Figures.FIRM_PULL.value();

  /** Error of a spring scale either way, as a share. */
  public static final double USUAL_SCALE_ERROR = Figures.SCALE_ERROR.value();

  /**
   * A firm pull. A lever that has met the bar stops there: its throw is then too small, and so is
   * any estimate of gas from it.
   *
   * @param throwMm throw, mm
   * @param forceN force, N; held to 1 to the lever strength test's 445 N
   */
  public record Pull(double throwMm, double forceN) {
    /** Holds the force to what a lever is tested with. */
    public Pull {
      forceN = Math.max(1, Math.min(Figures.STRONGEST_PULL.value(), forceN));
    }
  }

  /** Copies the list; no ruler is better than 0.1 mm at a lever. */
  public Readings {
    rulerErrorMm = Math.max(0.1, rulerErrorMm);
    firm = List.copyOf(firm);
  }

  /** Readings with the usual errors of ruler and spring scale. */
  public static Readings of(
      OptionalDouble lightMm, List<Pull> firm, OptionalDouble afterFiveMm, OptionalDouble creepMm) {
    return new Readings(
        lightMm, firm, afterFiveMm, creepMm, Figures.RULER_ERROR.value(), USUAL_SCALE_ERROR);
  }

  /**
   * The same, the firm pulls made by feel and without a scale: {@link #USUAL_FIRM_N} is assumed.
   */
  public Readings byFeel() {
    return new Readings(
        lightMm, firm, afterFiveMm, creepMm, rulerErrorMm, Figures.UNWEIGHED_ERROR.value());
  }

  /** Force of the first firm pull; without one, that of a usual firm pull, N. */
  double firmForceN() {
    return firm.isEmpty() ? USUAL_FIRM_N : firm.get(0).forceN();
  }

  /** Whether anything here speaks of throw. */
  boolean hasThrow() {
    return lightMm.isPresent() || !firm.isEmpty() || afterFiveMm.isPresent();
  }
}
