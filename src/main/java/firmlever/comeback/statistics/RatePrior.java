package firmlever.comeback.statistics;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.Digamma;
import org.apache.commons.numbers.gamma.LogBeta;
import org.apache.commons.numbers.rootfinder.BrentSolver;
import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * How the true rates of groups are spread, as a beta distribution learned from the groups
 * themselves (empirical Bayes), and what it makes of one group: a small group is drawn towards the
 * rest, a large one keeps its own rate. Source: Efron and Morris 1975 for the idea (from memory);
 * beta-binomial marginal likelihood.
 *
 * @param events worth of earlier events, above 0
 * @param others worth of earlier trials without event, above 0
 */
public record RatePrior(double events, double others) {
  private static final int GRID = 80;

  /** Throws {@link IllegalArgumentException} where a weight is not above 0. */
  public RatePrior {
    if (!(events > 0 && others > 0) || Double.isInfinite(events + others)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "weights must be above 0 and finite, not %s and %s", events, others));
    }
  }

  /**
   * The prior of these groups: its mean is the rate of all together (with half an event and half a
   * non-event added, so that it is never 0 or 1), its weight the one of greatest likelihood from
   * 0.5 to the trials of an average group. It may not weigh more than that: how alike groups are is
   * only guessed from these groups, and one bad lot among hundreds of good ones would be hidden.
   *
   * @throws IllegalArgumentException where there is no trial
   */
  public static RatePrior of(List<Proportion> groups) {
    var all = groups.stream().reduce(Proportion.NONE, Proportion::plus);
    if (all.trials() == 0) {
      throw new IllegalArgumentException("a prior needs at least one trial");
    }
    // Sorted, so that rounding does not depend on the order of the groups.
    var sorted =
        groups.stream()
            .sorted(
                Comparator.comparingLong(Proportion::trials).thenComparingLong(Proportion::events))
            .toList();
    double mean = (all.events() + 0.5) / (all.trials() + 1.0);
    DoubleUnaryOperator slope = logWeight -> slope(sorted, mean, Math.exp(logWeight));
    double least = Math.log(0.5);
    double average = (double) all.trials() / groups.stream().filter(g -> g.trials() > 0).count();
    double step = (Math.log(average) - least) / GRID;
    int best = 0;
    double highest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= GRID; i++) {
      double likelihood = logLikelihood(sorted, mean, Math.exp(least + i * step));
      if (likelihood > highest) {
        highest = likelihood;
        best = i;
      }
    }
    double logWeight = least + best * step;
    double below = Math.max(least, logWeight - step);
    double above = Math.min(least + GRID * step, logWeight + step);
    if (slope.applyAsDouble(below) > 0 && slope.applyAsDouble(above) < 0) {
      logWeight = new BrentSolver(1e-12, 1e-12, 1e-15).findRoot(slope, below, above);
    }
    double weight = Math.exp(logWeight);
    return new RatePrior(mean * weight, (1 - mean) * weight);
  }

  private static double logLikelihood(List<Proportion> groups, double mean, double weight) {
    double a = mean * weight;
    double b = (1 - mean) * weight;
    double sum = 0;
    for (var g : groups) {
      sum += LogBeta.value(a + g.events(), b + g.trials() - g.events()) - LogBeta.value(a, b);
    }
    return sum;
  }

  /** The derivative of the log likelihood by the weight. */
  private static double slope(List<Proportion> groups, double mean, double weight) {
    double a = mean * weight;
    double b = (1 - mean) * weight;
    double sum = 0;
    for (var g : groups) {
      sum += mean * (Digamma.value(a + g.events()) - Digamma.value(a));
      sum += (1 - mean) * (Digamma.value(b + g.trials() - g.events()) - Digamma.value(b));
      sum -= Digamma.value(weight + g.trials()) - Digamma.value(weight);
    }
    return sum;
  }

  /** The rate expected of a group nothing is known about, between 0 and 1. */
  public double mean() {
    return events / weight();
  }

  /** How many trials the prior is worth. */
  double weight() {
    return events + others;
  }

  /** What is known of the rate once these counts are in. */
  public RatePrior after(Proportion seen) {
    return new RatePrior(events + seen.events(), others + seen.trials() - seen.events());
  }

  /**
   * Where the rate lies with this probability, the rest shared by both sides.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(double level) {
    double tail = (1 - Interval.checkedLevel(level)) / 2;
    var beta = BetaDistribution.of(events, others);
    return new Interval(
        beta.inverseCumulativeProbability(tail), beta.inverseSurvivalProbability(tail));
  }
}
