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

  private FluidExchange() {}

  /** How new and old fluid meet. */
  public enum Flow {
    /** New pushes old out; the best there can be. */
    PLUG,
    /** New mixes with old at once; the worst of a steady push. */
    MIXED
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
   * Share of old fluid below which to-and-fro cannot go: the mixture of syringes and brake.
   *
   * @param syringesMl clean fluid in both syringes together, mL
   * @param refills how often the syringes were emptied, and filled afresh, before
   */
  public static double toAndFroFloor(double syringesMl, double brakeMl, int refills) {
    return Math.pow(brakeMl / (brakeMl + syringesMl), refills + 1);
  }
}
