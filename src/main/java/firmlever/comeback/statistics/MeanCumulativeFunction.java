package firmlever.comeback.statistics;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.TreeMap;

/**
 * The mean number of returns of one unit up to a time, for units that may return again and again,
 * watched for different lengths of time. The variance is robust: it allows some units to return
 * more often than others. A unit whose watch ends at the time of a return still counts then.
 * Source: Nelson 1995, Technometrics 37:147-157; Lawless and Nadeau 1995, Technometrics 37:158-168
 * (the variance; from memory, checked against R).
 *
 * @param steps one for each time with a return, in ascending order
 */
public record MeanCumulativeFunction(List<Step> steps) {

  /** Copies the steps. */
  public MeanCumulativeFunction {
    steps = List.copyOf(steps);
  }

  /**
   * The function from one time to the next.
   *
   * @param time when it starts
   * @param atRisk units watched then
   * @param returns how many returns there were then
   * @param mean returns of one unit up to and with this time
   * @param variance robust variance of that mean, 0 or more
   * @param varianceIfIndependent what the variance would be if every return were a draw of its own:
   *     smaller than the robust one where the same few units return again and again. Some tables
   *     print this one
   */
  public record Step(
      double time,
      long atRisk,
      long returns,
      double mean,
      double variance,
      double varianceIfIndependent) {

    /**
     * Limits for the mean from the robust variance, symmetrical on a log scale, so that the lower
     * one stays above 0.
     *
     * @param level between 0 and 1, for example 0.95
     */
    public Interval interval(double level) {
      double factor = Math.exp(Interval.deviate(level) * Math.sqrt(variance) / mean);
      return new Interval(mean / factor, mean * factor);
    }
  }

  /** The function for this fleet; without a step where nothing returned. */
  public static MeanCumulativeFunction of(ReturnHistories fleet) {
    var returns = new TreeMap<Double, Long>();
    fleet.returnsByEnd().forEach((t, count) -> returns.merge(t.first(), count, Math::addExact));
    var ends = fleet.ends().entrySet().iterator();
    var ended = ends.hasNext() ? ends.next() : null;
    var returnsByEnd = fleet.returnsByEnd().entrySet().iterator();
    var ending = returnsByEnd.hasNext() ? returnsByEnd.next() : null;
    var pairs = fleet.pairs().entrySet().iterator();
    var pair = pairs.hasNext() ? pairs.next() : null;

    /*
     * With n(j) units at risk and m(j) = returns(j) / n(j), the variance at t is the sum over units
     * of [ sum over times j up to t of at-risk(unit, j) (returns(unit, j) − m(j)) / n(j) ]².
     * Multiplied out, the part of times j ≤ k is
     *   [ pairs(j, k) − m(k) · returns at j of units still watched at k ] / (n(j) n(k)),
     * so counts of pairs are enough, and one pass in order of the later time.
     */
    var atRiskAt = new HashMap<Double, Long>();
    var steps = new ArrayList<Step>(returns.size());
    long atRisk = fleet.units();
    double mean = 0;
    double variance = 0;
    double independent = 0;
    double watchedBefore = 0; // sum over j < k of returns at j of units still watched, / n(j)
    for (var entry : returns.entrySet()) {
      double time = entry.getKey();
      long count = entry.getValue();
      while (ended != null && ended.getKey() < time) {
        atRisk -= ended.getValue();
        ended = ends.hasNext() ? ends.next() : null;
      }
      while (ending != null && ending.getKey().second() < time) {
        watchedBefore -=
            (double) ending.getValue() / requireNonNull(atRiskAt.get(ending.getKey().first()));
        ending = returnsByEnd.hasNext() ? returnsByEnd.next() : null;
      }
      atRiskAt.put(time, atRisk);
      double before = 0; // sum over j < k of pairs(j, k) / n(j)
      double same = 0;
      while (pair != null && pair.getKey().second() == time) {
        if (pair.getKey().first() == time) {
          same = pair.getValue();
        } else {
          before += (double) pair.getValue() / requireNonNull(atRiskAt.get(pair.getKey().first()));
        }
        pair = pairs.hasNext() ? pairs.next() : null;
      }
      double rate = (double) count / atRisk;
      mean += rate;
      variance += (same - rate * count) / atRisk / atRisk;
      variance += 2 * (before - rate * watchedBefore) / atRisk;
      watchedBefore += rate;
      independent += rate * (1 - 1.0 / atRisk) / atRisk;
      steps.add(new Step(time, atRisk, count, mean, Math.max(0, variance), independent));
    }
    return new MeanCumulativeFunction(steps);
  }
}
