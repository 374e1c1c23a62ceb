package firmlever.hydraulics;

import java.util.SplittableRandom;

/**
 * Fixed, evenly spread points of the unit cube (a seeded Latin hypercube): the same readings give
 * the same answer, on every machine.
 */
final class Spreads {
  /** Number of points. */
  static final int POINTS = 384;

  private static final long SEED = 4;

  private Spreads() {}

  /** POINTS values in (0, 1) for each dimension, each value once, in shuffled order. */
  static double[][] uniform(int dimensions) {
    SplittableRandom random = new SplittableRandom(SEED);
    double[][] values = new double[dimensions][POINTS];
    for (double[] column : values) {
      for (int i = 0; i < POINTS; i++) {
        int j = random.nextInt(i + 1);
        column[i] = column[j];
        column[j] = (i + 0.5) / POINTS;
      }
    }
    return values;
  }

  /** The same, as standard normal scores. */
  static double[][] normal(double[][] uniform) {
    double[][] scores = new double[uniform.length][POINTS];
    for (int d = 0; d < uniform.length; d++) {
      for (int i = 0; i < POINTS; i++) {
        scores[d][i] = Normal.quantile(uniform[d][i]);
      }
    }
    return scores;
  }
}
