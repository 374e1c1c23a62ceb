package firmlever.hydraulics;

/**
 * The normal distribution, in plain arithmetic: Chebyshev fit of erfc, Acklam's fit of the
 * quantile.
 */
public final class Normal {
  private static final double[] ERFC = {
    0.17087277, -0.82215223, 1.48851587, -1.13520398, 0.27886807,
    -0.18628806, 0.09678418, 0.37409196, 1.00002368, -1.26551223
  };
  private static final double TAIL = 0.02425;
  private static final double[] TAIL_OVER = {
    -7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838,
    -2.549732539343734, 4.374664141464968, 2.938163982698783
  };
  private static final double[] TAIL_UNDER = {
    7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996, 3.754408661907416, 1
  };
  private static final double[] MIDDLE_OVER = {
    -3.969683028665376e+01, 2.209460984245205e+02, -2.759285104469687e+02,
    1.383577518672690e+02, -3.066479806614716e+01, 2.506628277459239
  };
  private static final double[] MIDDLE_UNDER = {
    -5.447609879822406e+01,
    1.615858368580409e+02,
    -1.556989798598866e+02,
    6.680131188771972e+01,
    -1.328068155288572e+01,
    1
  };

  private Normal() {}

  /** Share below x; relative error under 2e-7 in the lower tail too. */
  public static double below(double x) {
    double z = Math.abs(x) / Math.sqrt(2);
    double t = 1 / (1 + z / 2);
    double tail = t * Math.exp(polynomial(ERFC, t) - z * z) / 2;
    return x < 0 ? tail : 1 - tail;
  }

  /** The x with this share below it, 0 < share < 1; relative error under 2e-9. */
  static double quantile(double share) {
    if (share > 0.5) {
      return -quantile(1 - share);
    }
    if (share < TAIL) {
      double q = Math.sqrt(-2 * Math.log(share));
      return polynomial(TAIL_OVER, q) / polynomial(TAIL_UNDER, q);
    }
    double q = share - 0.5;
    return q * polynomial(MIDDLE_OVER, q * q) / polynomial(MIDDLE_UNDER, q * q);
  }

  /**
   * A draw of N(mean, sd²) held above 0.
   *
   * @param above share of the curve above 0, {@code below(mean / sd)}
   * @param u uniform in (0, 1)
   */
  static double drawAboveZero(double mean, double sd, double above, double u) {
    // From the upper tail: stays exact when nearly all of the curve lies below 0.
    return Math.max(0, mean - sd * quantile(above * u));
  }

  /** Polynomial, highest power first. */
  private static double polynomial(double[] factors, double x) {
    double sum = 0;
    for (double factor : factors) {
      sum = sum * x + factor;
    }
    return sum;
  }
}
