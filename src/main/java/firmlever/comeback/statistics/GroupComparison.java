package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.List;

/**
 * Groups (technicians, lots, works) held against the rest, so that noise accuses nobody: each by an
 * exact test, the chances adjusted for the number of groups, and by its rate drawn towards the
 * common one. A verdict needs both: two comebacks in two jobs are rare enough for the test, but far
 * from enough to know a rate.
 *
 * <p>"The rest" is all groups but this one and those that stand out, or else one bad group would
 * make all others look good, and one good group would accuse them.
 *
 * @param all everything together
 * @param prior how the true rates of the groups are spread
 * @param standings one for each group, in the order given
 */
public record GroupComparison(Proportion all, RatePrior prior, List<Standing> standings) {

  /** Enough to stop a verdict on a handful of jobs; false verdicts are held down by the test. */
  private static final double LEAST_PROBABILITY = 0.9;

  /** Copies the standings. */
  public GroupComparison {
    standings = List.copyOf(standings);
  }

  /** What may be said of a group. */
  public enum Verdict {
    /** The rate is above that of the rest by more than chance allows. */
    ABOVE_THE_REST,
    /** The rate is below that of the rest by more than chance allows. */
    BELOW_THE_REST,
    /** Chance explains it: nothing may be said. */
    NOT_SHOWN
  }

  /** A group by name. */
  public record Group(String name, Proportion count) {}

  /**
   * One group.
   *
   * @param group its name and counts
   * @param rest the counts it was held against
   * @param chance of a difference like this from the rest by luck, exact and two-sided
   * @param adjusted the chance after Benjamini and Hochberg over all groups
   * @param shrunk what is known of its rate: mean, interval, chance of being above another rate
   * @param verdict what may be said
   */
  public record Standing(
      Group group,
      Proportion rest,
      double chance,
      double adjusted,
      RatePrior shrunk,
      Verdict verdict) {}

  /**
   * The comparison. Groups without trials are kept and not shown to differ. Every trial belongs to
   * one group only. Give the groups in a fixed order (such as by name): it decides between equals.
   *
   * @param falseShare the share of the verdicts that may be false on average, between 0 and 1; a
   *     verdict also needs a probability of 0.9 that the drawn-in rate lies on its side of the rest
   * @throws IllegalArgumentException where there is no trial at all
   */
  public static GroupComparison of(List<Group> groups, double falseShare) {
    Interval.checkedLevel(falseShare);
    var counts = groups.stream().map(Group::count).toList();
    var all = counts.stream().reduce(Proportion.NONE, Proportion::plus);
    var prior = RatePrior.of(counts);
    boolean[] standsOut = standingOut(counts, all, falseShare);
    var common = all;
    for (int i = 0; i < standsOut.length; i++) {
      common = standsOut[i] ? common.minus(counts.get(i)) : common;
    }
    var rests = new ArrayList<Proportion>(groups.size());
    var chances = new ArrayList<Double>(groups.size());
    for (int i = 0; i < standsOut.length; i++) {
      rests.add(standsOut[i] ? common : common.minus(counts.get(i)));
      chances.add(ExactTest.fisher(counts.get(i), rests.get(i)));
    }
    var adjusted = FalseDiscovery.adjusted(chances);
    var standings = new ArrayList<Standing>(groups.size());
    for (int i = 0; i < standsOut.length; i++) {
      var shrunk = prior.after(counts.get(i));
      double above = shrunk.chanceAbove(rests.get(i).rate().orElse(prior.mean()));
      var verdict = Verdict.NOT_SHOWN;
      if (adjusted.get(i) <= falseShare && Math.max(above, 1 - above) >= LEAST_PROBABILITY) {
        verdict = above > 0.5 ? Verdict.ABOVE_THE_REST : Verdict.BELOW_THE_REST;
      }
      standings.add(
          new Standing(
              groups.get(i), rests.get(i), chances.get(i), adjusted.get(i), shrunk, verdict));
    }
    return new GroupComparison(all, prior, standings);
  }

  /**
   * Which groups to leave out of the rest: one after the other, the one that differs most, as long
   * as the i-th passes the exact test at i · falseShare / groups. What remains is at least two
   * groups and half of all trials, or there would be no rest to speak of.
   */
  private static boolean[] standingOut(List<Proportion> counts, Proportion all, double falseShare) {
    boolean[] standsOut = new boolean[counts.size()];
    var common = all;
    long remaining = counts.stream().filter(c -> c.trials() > 0).count();
    for (int found = 1; remaining > 2; found++, remaining--) {
      // The likelihood ratio finds the group at little cost; only that one is tested exactly.
      int most = -1;
      double gain = 0;
      for (int i = 0; i < standsOut.length; i++) {
        var rest = standsOut[i] ? Proportion.NONE : common.minus(counts.get(i));
        if (2 * rest.trials() >= all.trials()) {
          double apart = logLikelihood(counts.get(i)) + logLikelihood(rest);
          if (apart - logLikelihood(common) > gain) {
            most = i;
            gain = apart - logLikelihood(common);
          }
        }
      }
      if (most < 0
          || ExactTest.fisher(counts.get(most), common.minus(counts.get(most)))
              > falseShare * found / counts.size()) {
        break;
      }
      standsOut[most] = true;
      common = common.minus(counts.get(most));
    }
    return standsOut;
  }

  /** The largest log likelihood of these counts under one rate. */
  private static double logLikelihood(Proportion count) {
    return timesItsLog(count.events())
        + timesItsLog(count.trials() - count.events())
        - timesItsLog(count.trials());
  }

  private static double timesItsLog(double value) {
    return value == 0 ? 0 : value * Math.log(value);
  }
}
