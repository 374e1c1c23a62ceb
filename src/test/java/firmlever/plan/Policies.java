package firmlever.plan;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import java.util.function.ToIntFunction;

/** Exact expected cost of repair in minutes: of the best policy there is, and of a given one. */
final class Policies {
  private final Tables tables;
  private final double misses;
  private final double comeback;
  private final double giveUp;
  private final Map<Key, Double> known = new HashMap<>();

  private Policies(Problem problem) {
    tables = new Tables(problem);
    misses = problem.shop().acceptanceMisses();
    comeback = problem.shop().comebackMinutes();
    giveUp = problem.shop().giveUpMinutes();
  }

  /** Everything the future depends on; weights to nine places. */
  private record Key(long done, int made, int masks, int weights) {}

  /** Cost of the best policy, by dynamic programming over all states that can be reached. */
  static double optimum(Problem problem) {
    Policies policies = new Policies(problem);
    return policies.best(State.start(policies.tables));
  }

  /** Cost of always taking the planner's next step. */
  static double ofPlanner(Problem problem) {
    Planner planner = new Planner(problem);
    Policies policies = new Policies(problem);
    return policies.cost(State.start(planner.tables), state -> planner.choose(state).step());
  }

  /** Cost of mending the likeliest cause first, by its surest work, and never looking. */
  static double ofProbabilityFirst(Problem problem) {
    Policies policies = new Policies(problem);
    return policies.cost(State.start(policies.tables), policies::likeliestFirst);
  }

  private int likeliestFirst(State state) {
    double[] belief = state.belief(tables.causes.length);
    double most = 0;
    int best = Tables.NONE;
    for (int w = 0; w < tables.works; w++) {
      int step = tables.towards(w, state.done, state.done, state.made);
      if (step == Tables.NONE) {
        continue;
      }
      for (int bit = 0; bit < belief.length; bit++) {
        double met = belief[bit] + 1e-6 * tables.mends[w][bit];
        if (tables.mends[w][bit] > 0 && met > most) {
          most = met;
          best = step;
        }
      }
    }
    return best;
  }

  private double best(State state) {
    long[] rounded = new long[state.weights.length];
    for (int s = 0; s < rounded.length; s++) {
      rounded[s] = Math.round(state.weights[s] * 1e9);
    }
    Key key =
        new Key(
            state.done,
            state.made.hashCode(),
            Arrays.hashCode(state.masks),
            Arrays.hashCode(rounded));
    Double before = known.get(key);
    if (before != null) {
      return before;
    }
    double best = giveUp * state.faulty;
    double least = least(state);
    for (int w = 0; w < tables.works; w++) {
      if ((state.done >> w & 1) == 0
          && tables.waits(w, state.done, state.made).isEmpty()
          && tables.price(w, state.paid) < best) {
        best = Math.min(best, cost(state, w, this::best));
      }
    }
    for (int c = 0; c < tables.checks; c++) {
      if (!state.made.get(c) && tables.price(~c, state.paid) + least < best) {
        best = Math.min(best, cost(state, ~c, this::best));
      }
    }
    known.put(key, best);
    return best;
  }

  /** A bound: each story takes at least the cheapest work on its dearest cause. */
  private double least(State state) {
    double[] cheapest = new double[tables.causes.length];
    Arrays.fill(cheapest, giveUp);
    for (int w = 0; w < tables.works; w++) {
      double price = (state.done >> w & 1) == 0 ? tables.price(w, -1) : giveUp;
      for (int bit = 0; bit < cheapest.length; bit++) {
        if (tables.mends[w][bit] > 0) {
          cheapest[bit] = Math.min(cheapest[bit], price);
        }
      }
    }
    double least = 0;
    for (int s = 0; s < state.masks.length; s++) {
      double dearest = 0;
      for (long open = state.masks[s]; open != 0; open &= open - 1) {
        dearest = Math.max(dearest, cheapest[Long.numberOfTrailingZeros(open)]);
      }
      least += state.weights[s] * dearest;
    }
    return least;
  }

  private double cost(State state, ToIntFunction<State> policy) {
    int step = policy.applyAsInt(state);
    return step == Tables.NONE
        ? giveUp * state.faulty
        : cost(state, step, after -> cost(after, policy));
  }

  /** Cost of this step and of what follows at the rate of {@code then}. */
  private double cost(State state, int step, ToDoubleFunction<State> then) {
    double price = tables.price(step, state.paid);
    if (step < 0) {
      double cost = price;
      for (int result = 0; result < tables.results(~step); result++) {
        double chance = state.chance(~step, result);
        cost +=
            chance < 1e-12 ? 0 : chance * then.applyAsDouble(state.after(tables, ~step, result));
      }
      return cost;
    }
    double wrong = state.faultyAfter(tables, step);
    return wrong < 1e-9
        ? price
        : price
            + wrong
                * (misses * comeback
                    + (1 - misses) * then.applyAsDouble(state.afterFailed(tables, step)));
  }
}
