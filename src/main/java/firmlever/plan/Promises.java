package firmlever.plan;

import java.util.Arrays;

/**
 * Which checks are worth weighing. What an order of works costs is a weighted sum over the stories,
 * so the orders at hand tell at once what each check would let one pay at most; an order found for
 * one check serves to judge the others better.
 */
final class Promises {
  private final Tables tables;
  private final State state;

  /** By check, result and story: probability of both. */
  private final double[][][] weights;

  /** By check and result: cost of the cheapest order at hand, times the probability. */
  private final double[][] least;

  private final boolean[] taken;

  Promises(Tables tables, State state) {
    this.tables = tables;
    this.state = state;
    int stories = state.masks.length;
    weights = new double[tables.checks][][];
    least = new double[tables.checks][];
    taken = new boolean[tables.checks];
    for (int c = 0; c < tables.checks; c++) {
      taken[c] = state.made.get(c);
      weights[c] = new double[taken[c] ? 0 : tables.results(c)][stories];
      least[c] = new double[weights[c].length];
      Arrays.fill(least[c], Double.POSITIVE_INFINITY);
      for (int s = 0; s < stories && !taken[c]; s++) {
        double[] results = state.stories.results(c)[s];
        for (int result = 0; result < results.length; result++) {
          weights[c][result][s] = state.weights[s] * results[result];
        }
      }
    }
  }

  /** Counts in that the works may be done in this order. */
  void allow(int[] steps) {
    double[][] looks = new double[tables.checks][];
    double[] costs = WorkOrder.costs(tables, state, steps, looks);
    for (int c = 0; c < tables.checks; c++) {
      // A look that the order asks for is made once, whether now or on the way.
      double[] own = looks[c];
      for (int result = 0; result < least[c].length; result++) {
        double sum = 0;
        for (int s = 0; s < costs.length; s++) {
          sum += weights[c][result][s] * (own == null ? costs[s] : costs[s] - own[s]);
        }
        least[c][result] = Math.min(least[c][result], sum);
      }
    }
  }

  /** The check that promises the cheapest repair and has not been taken; -1 if none is left. */
  int takeBest() {
    int best = -1;
    double cheapest = Double.POSITIVE_INFINITY;
    for (int c = 0; c < tables.checks; c++) {
      double promise = tables.price(~c, state.paid) + Arrays.stream(least[c]).sum();
      if (!taken[c] && promise < cheapest) {
        cheapest = promise;
        best = c;
      }
    }
    if (best >= 0) {
      taken[best] = true;
    }
    return best;
  }
}
