package firmlever.plan;

import java.util.Map;

/**
 * What time is worth in this shop. All figures are the shop's own to set; the standard ones are
 * from memory.
 *
 * @param setUpMinutes minutes of each set-up, paid once; one not named here is free
 * @param partMinutes what each part costs, weighed in minutes; one not named costs {@code
 *     otherPartMinutes}
 * @param otherPartMinutes minutes a part not named costs
 * @param acceptanceMinutes minutes of the acceptance check after each work
 * @param acceptanceMisses probability that it passes a brake that is not all right, in [0, 1)
 * @param comebackMinutes what a brake costs that was handed back and is not all right, in minutes
 * @param giveUpMinutes what a brake costs that is known not to be all right and is given up, in
 *     minutes: a new one, fitted
 * @param sure a cause this probable is as good as found, and the work that mends it is done before
 *     anything else is looked for; above 1 for never
 * @param sound a brake less likely all right than this is not handed back untouched: that the
 *     causes looked for are not there does not explain what was found; 0 for by cost alone
 */
public record Shop(
    Map<String, Double> setUpMinutes,
    Map<String, Double> partMinutes,
    double otherPartMinutes,
    double acceptanceMinutes,
    double acceptanceMisses,
    double comebackMinutes,
    double giveUpMinutes,
    double sure,
    double sound) {

  public Shop {
    setUpMinutes = Map.copyOf(setUpMinutes);
    partMinutes = Map.copyOf(partMinutes);
    if (!(otherPartMinutes >= 0
        && acceptanceMinutes >= 0
        && comebackMinutes >= 0
        && giveUpMinutes >= 0)) {
      throw new IllegalArgumentException("minutes must not be negative");
    }
    if (!(acceptanceMisses >= 0 && acceptanceMisses < 1)) {
      throw new IllegalArgumentException(
          "acceptance misses must lie in [0, 1): " + acceptanceMisses);
    }
  }

  /** A shop nobody has asked yet: figures from memory. */
  public static Shop standard() {
    return new Shop(
        Map.of(
            "wheel-out", 2.0,
            "pads-out", 2.0,
            "lever-open", 3.0,
            "caliper-open", 3.0,
            "bleed-kit", 5.0,
            "strip", 20.0,
            "ride", 4.0),
        Map.of("fluid", 0.0),
        15,
        5,
        0.05,
        120,
        480,
        0.75,
        0.5);
  }
}
