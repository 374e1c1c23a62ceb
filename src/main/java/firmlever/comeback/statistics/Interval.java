package firmlever.comeback.statistics;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A closed range of values.
 *
 * @param low the lower limit
 * @param high the upper limit, not below {@code low}
 */
public record Interval(double low, double high) {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** Throws {@link IllegalArgumentException} where the limits are crossed or not numbers. */
  public Interval {
    if (!(low <= high)) {
      throw new IllegalArgumentException(
          "an interval runs from low to high, not from " + low + " to " + high);
    }
  }

  /** Whether the value lies inside, limits included. */
  public boolean contains(double value) {
    return low <= value && value <= high;
  }

  /**
   * The standard normal deviate that a two-sided interval of this level reaches to: 1.96 at 0.95.
   */
  static double deviate(double level) {
    return NORMAL.inverseSurvivalProbability((1 - checkedLevel(level)) / 2);
  }

  /** The chance of a standard normal value at least this far from zero, on either side. */
  static double twoSidedChance(double deviate) {
    return Math.min(1, 2 * NORMAL.survivalProbability(Math.abs(deviate)));
  }

  static double checkedLevel(double level) {
    if (!(level > 0 && level < 1)) {
      throw new IllegalArgumentException(
          "a confidence level lies between 0 and 1, not at " + level + ". Maybe it is in percent?");
    }
    return level;
  }
}
