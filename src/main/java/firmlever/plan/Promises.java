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

  /** By outcome, check and story: probability of both. */
  private final double[][][] weights;

  /** By outcome and check: cost of the cheapest order at hand, times the probability. */
  private final double[][] least;

  private final boolean[] taken;

  Promises(Tables tables, State state) {
    this.tables = tables;
    this.state = state;
    int stories = state.masks.length;
    weights = new double[2][tables.checks][stories];
    least = new double[2][tables.checks];
    taken = new boolean[tables.checks];
    for (int c = 0; c < tables.checks; c++) {
      taken[c] = state.made.get(c);
      for (int s = 0; s < stories && !taken[c]; s++) {
        double found = tables.found(c, state.masks[s]);
        weights[0][c][s] = state.weights[s] * found;
        weights[1][c][s] = state.weights[s] * (1 - found);
      }
    }
    Arrays.fill(least[0], Double.POSITIVE_INFINITY);
    Arrays.fill(least[1], Double.POSITIVE_INFINITY);
  }

  /** Counts in that the works may be done in this order. */
  void allow(int[] steps) {
    double[] costs = WorkOrder.costs(tables, state, steps);
    for (int outcome = 0; outcome < 2; outcome++) {
      for (int c = 0; c < tables.checks; c++) {
        double sum = 0;
        for (int s = 0; s < costs.length && !taken[c]; s++) {
          sum += weights[outcome][c][s] * costs[s];
        }
        least[outcome][c] = Math.min(least[outcome][c], sum);
      }
    }
  }

  /** The check that promises the cheapest repair and has not been taken; -1 if none is left. */
  int takeBest() {
    int best = -1;
    double cheapest = Double.POSITIVE_INFINITY;
    for (int c = 0; c < tables.checks; c++) {
      double promise = tables.price(~c, state.paid) + least[0][c] + least[1][c];
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
