package firmlever.belief;

/** Probabilities and their natural log odds. */
public final class Odds {
  private Odds() {}

  /** Log odds of a probability in (0, 1). */
  public static double log(double probability) {
    return Math.log(probability) - Math.log1p(-probability);
  }

  /** Probability of the log odds. */
  public static double probability(double logOdds) {
    return logOdds >= 0 ? 1 / (1 + Math.exp(-logOdds)) : 1 - 1 / (1 + Math.exp(logOdds));
  }
}
