package firmlever.hydraulics;

/**
 * How much fluid an exchange takes.
 *
 * <p>The truth lies between plug flow, where the new fluid pushes the old one out, and mixed flow,
 * where it mixes at once. Pushing the same fluid to and fro moves gas, but only thins dirt down to
 * the mixture of syringes and brake: for a flush, discard and refill.
 */
public final class FluidExchange {
  /** Fluid drawn in a usual pass, mL. */
  public static final double USUAL_PASS_ML = Figures.PASS_DRAWN.value();

  /** Passes of a usual exchange. */
  public static final int USUAL_PASSES = (int) Figures.PASSES.value();

  private static final double ROUNDING = 1e-9;

  private FluidExchange() {}

  /** How new and old fluid meet. */
  public enum Flow {
    /** New pushes old out; the best there can be. */
    PLUG,
    /** New mixes with old at once; the worst of a steady push. */
    MIXED
  }

  /**
   * Share of the old fluid left after a steady push.
   *
   * @param pushedMl new fluid pushed in, mL
   * @param brakeMl fluid in the brake, mL, above 0
   */
  public static double leftAfterPush(Flow flow, double pushedMl, double brakeMl) {
    return flow == Flow.PLUG ? Math.max(0, 1 - pushedMl / brakeMl) : Math.exp(-pushedMl / brakeMl);
  }

  /**
   * Fluid to push through until no more than a share of the old one is left, mL.
   *
   * @param share 0 to 1, above 0 for mixed flow
   */
  public static double pushMl(Flow flow, double share, double brakeMl) {
    return flow == Flow.PLUG ? brakeMl * (1 - share) : -brakeMl * Math.log(share);
  }

  /**
   * Share left after draw-and-refill passes: each takes out a share of the mixture and refills with
   * new.
   *
   * @param drawnMl drawn in a pass, mL, 0 to brakeMl
   */
  public static double leftAfterPasses(double drawnMl, double brakeMl, int passes) {
    return Math.pow(1 - Math.min(1, drawnMl / brakeMl), passes);
  }

  /**
   * Share of the old fluid at which a content, such as water, comes down to its limit; 1 or more
   * when it is there already, 0 or less when the fresh fluid itself is beyond it.
   *
   * @param now content of the old fluid
   * @param fresh content of the new fluid
   * @param limit content to reach, in the same unit
   */
  public static double shareFor(double now, double fresh, double limit) {
    return now <= limit ? 1 : (limit - fresh) / (now - fresh);
  }

  /** Draw-and-refill passes until no more than a share is left; share between 0 and 1. */
  public static int passes(double share, double drawnMl, double brakeMl) {
    double kept = 1 - Math.min(1, drawnMl / brakeMl);
    if (kept <= share) {
      return 1;
    }
    return (int) Math.ceil(Math.log(share) / Math.log(kept) - ROUNDING);
  }

  /**
   * Share of old fluid below which to-and-fro cannot go: the mixture of syringes and brake.
   *
   * @param syringesMl clean fluid in both syringes together, mL
   * @param refills how often the syringes were emptied, and filled afresh, before
   */
  public static double toAndFroFloor(double syringesMl, double brakeMl, int refills) {
    return Math.pow(brakeMl / (brakeMl + syringesMl), refills + 1);
  }

  /** Fresh fillings of the syringes that bring to-and-fro under a share; share between 0 and 1. */
  public static int fillings(double share, double syringesMl, double brakeMl) {
    double kept = brakeMl / (brakeMl + syringesMl);
    return (int) Math.ceil(Math.log(share) / Math.log(kept) - ROUNDING);
  }

  /**
   * Lever strokes that pump a volume through.
   *
   * @param strokeMl fluid moved by one full stroke, mL, above 0
   */
  public static int strokes(double volumeMl, double strokeMl) {
    return (int) Math.ceil(volumeMl / strokeMl - ROUNDING);
  }

  /** Fluid moved by one stroke, mL, from its travel at the lever tip, mm. */
  public static double strokeMl(Brake brake, double travelMm) {
    return travelMm / brake.throwMmPerMl();
  }
}
