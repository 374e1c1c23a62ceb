package firmlever.belief;

/** Probabilities and their natural log odds. */
public final class Odds {
  private Odds() {}

  /** Log odds of a probability in (0, 1). */
  public static double log(double probability) {
    return Math.log(probability) - Math.log1p(-probability);
  }

  /** Probability of the log odds, to full relative precision however small it is. */
  static double probability(double logOdds) {
    return 1 / (1 + Math.exp(-logOdds));
  }
}
