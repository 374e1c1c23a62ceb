package firmlever.belief;

import firmlever.belief.TableLayout.Step;
import java.util.List;

/**
 * One component: its observations, and the causes that bear on any of them. A state says which of
 * the observations are explained so far, one bit for each that is in the table at that step; the
 * others have not been reached yet, or are summed out because no later cause bears on them.
 */
final class Table {
  private final Network network;
  private final double[] belief;
  private final Step[] steps;
  private final List<Observation> unreached;

  Table(Network network, TableLayout layout, double[] belief) {
    this.network = network;
    this.belief = belief;
    this.steps = layout.steps;
    this.unreached = layout.unreached;
  }

  /** The table with the bits that come: so far only the background explains them. */
  private double[] entered(Step step, double[] table) {
    double[] wider = table;
    for (Observation one : step.coming) {
      double background = background(one);
      double[] narrow = wider;
      wider = new double[2 * narrow.length];
      for (int state = 0; state < narrow.length; state++) {
        wider[state] = narrow[state] * (1 - background);
        wider[state + narrow.length] = narrow[state] * background;
      }
    }
    return wider;
  }

  /** The same seen from the end: the worth of a state before the bits came. */
  private double[] beforeEntering(Step step, double[] worth) {
    double[] narrow = worth;
    for (int i = step.coming.length - 1; i >= 0; i--) {
      double background = background(step.coming[i]);
      double[] wide = narrow;
      narrow = new double[wide.length / 2];
      for (int state = 0; state < narrow.length; state++) {
        narrow[state] = wide[state] * (1 - background) + wide[state + narrow.length] * background;
      }
    }
    return narrow;
  }

  /** The table without the bits that leave: what was seen of them is taken into account. */
  private static double[] left(Step step, double[] table) {
    double[] narrow = table;
    for (int i = 0; i < step.leaving.length; i++) {
      Observation one = step.leaving[i];
      int half = 1 << step.leavingBits[i];
      double[] wide = narrow;
      narrow = new double[wide.length / 2];
      for (int block = 0; block < narrow.length; block += half) {
        for (int state = block; state < block + half; state++) {
          int without = state + block;
          narrow[state] = wide[without] * one.ifAbsent() + wide[without + half] * one.ifPresent();
        }
      }
    }
    return narrow;
  }

  /** The same seen from the end: the worth of a state before the bits left. */
  private static double[] beforeLeaving(Step step, double[] worth) {
    double[] wide = worth;
    for (int i = step.leaving.length - 1; i >= 0; i--) {
      Observation one = step.leaving[i];
      int half = 1 << step.leavingBits[i];
      double[] narrow = wide;
      wide = new double[2 * narrow.length];
      for (int block = 0; block < narrow.length; block += half) {
        for (int state = block; state < block + half; state++) {
          int without = state + block;
          wide[without] = narrow[state] * one.ifAbsent();
          wide[without + half] = narrow[state] * one.ifPresent();
        }
      }
    }
    return wide;
  }

  /** The table once the cause is present: it explains each of its symptoms or fails to. */
  private double[] pushed(Step step, double[] table) {
    double[] strength = network.strength()[step.cause];
    double[] pushed = table.clone();
    for (int i = 0; i < step.bits.length; i++) {
      double shows = strength[step.symptoms[i]];
      int half = 1 << step.bits[i];
      for (int block = 0; block < pushed.length; block += half << 1) {
        for (int state = block; state < block + half; state++) {
          pushed[state + half] += pushed[state] * shows;
          pushed[state] *= 1 - shows;
        }
      }
    }
    return pushed;
  }

  /** The same seen from the end: the worth of a state if the cause is still to act. */
  private double[] pulled(Step step, double[] table) {
    double[] strength = network.strength()[step.cause];
    double[] pulled = table.clone();
    for (int i = 0; i < step.bits.length; i++) {
      double shows = strength[step.symptoms[i]];
      int half = 1 << step.bits[i];
      for (int block = 0; block < pulled.length; block += half << 1) {
        for (int state = block; state < block + half; state++) {
          pulled[state] = (1 - shows) * pulled[state] + shows * pulled[state + half];
        }
      }
    }
    return pulled;
  }

  /** Both weighed with the belief in the cause; in place of the second. */
  private double[] mixed(Step step, double[] without, double[] with) {
    double present = belief[step.cause];
    for (int state = 0; state < with.length; state++) {
      with[state] = (1 - present) * without[state] + present * with[state];
    }
    return with;
  }

  /**
   * Sets the belief in the causes that bear on the table.
   *
   * @return the natural log of the evidence of its observations
   */
  double solve(double[] posterior, double[] logOdds) {
    // By step, once its cause has acted: what the rest of the observations is worth.
    double[][] worth = new double[steps.length][];
    double[] rest = {1};
    for (int step = steps.length - 1; step >= 0; step--) {
      worth[step] = beforeLeaving(steps[step], rest);
      rest =
          beforeEntering(
              steps[step], mixed(steps[step], worth[step], pulled(steps[step], worth[step])));
    }
    double evidence = rest[0] * unreached();
    if (!(evidence > 0)) {
      throw new ArithmeticException("what was seen has no probability at all in this network");
    }
    double[] result = new double[steps.length];
    double[] table = {1};
    for (int i = 0; i < steps.length; i++) {
      Step step = steps[i];
      double[] before = entered(step, table);
      double[] pushed = pushed(step, before);
      double with = belief[step.cause] * dot(pushed, worth[i]);
      double without = (1 - belief[step.cause]) * dot(before, worth[i]);
      result[i] = with / (with + without);
      logOdds[step.cause] = Math.log(with) - Math.log(without);
      table = left(step, mixed(step, before, pushed));
    }
    for (int i = 0; i < steps.length; i++) {
      posterior[steps[i].cause] = result[i];
    }
    return Math.log(evidence);
  }

  /** What the observations are worth that no cause bears on. */
  private double unreached() {
    double worth = 1;
    for (Observation one : unreached) {
      double background = background(one);
      worth *= background * one.ifPresent() + (1 - background) * one.ifAbsent();
    }
    return worth;
  }

  private double background(Observation one) {
    return network.background()[one.symptom()];
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int state = 0; state < a.length; state++) {
      sum += a[state] * b[state];
    }
    return sum;
  }
}
