package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The share still whole over time (Kaplan and Meier's product limit), with Greenwood's variance. A
 * unit lost at the time of a failure still counts as at risk then. Source: NIST/SEMATECH handbook
 * 8.2.1.5; Greenwood 1926 (from memory).
 *
 * @param steps one for each row of the life table, in ascending order of time
 */
public record SurvivalCurve(List<Step> steps) {
  /** Copies the steps. */
  public SurvivalCurve {
    steps = List.copyOf(steps);
  }

  /** On which scale an interval is symmetrical. */
  public enum Scale {
    /** survival ± z · standard error, cut off at 0 and 1. */
    PLAIN,
    /** symmetrical in ln(−ln survival): stays within 0 and 1 and is better for small samples. */
    LOG_LOG
  }

  /**
   * The curve from one time to the next.
   *
   * @param time when it starts
   * @param atRisk units whole and in sight just before
   * @param failures units that failed at this time
   * @param losses units lost from sight at this time
   * @param survival share still whole from this time on
   * @param greenwood sum of failures / (at risk · (at risk − failures)) up to this time; infinite
   *     once the curve has reached 0
   */
  public record Step(
      double time, long atRisk, long failures, long losses, double survival, double greenwood) {

    /** Standard error of the survival; 0 once the curve has reached 0. */
    double standardError() {
      return survival == 0 ? 0 : survival * Math.sqrt(greenwood);
    }

    private Interval interval(double z, Scale scale) {
      // Before the first failure and after the last unit Greenwood has nothing to go on.
      if (survival == 1 || survival == 0) {
        return new Interval(survival, survival);
      }
      if (scale == Scale.PLAIN) {
        double reach = z * standardError();
        return new Interval(Math.max(0, survival - reach), Math.min(1, survival + reach));
      }
      double reach = z * Math.sqrt(greenwood) / -Math.log(survival);
      return new Interval(
          Math.pow(survival, Math.exp(reach)), Math.pow(survival, Math.exp(-reach)));
    }
  }

  /** The curve of these units; without a step where there are none. */
  public static SurvivalCurve of(LifeTable table) {
    var steps = new ArrayList<Step>(table.rows().size());
    long atRisk = table.units();
    double survival = 1;
    double greenwood = 0;
    for (var row : table.rows()) {
      if (row.failures() > 0) {
        survival *= (double) (atRisk - row.failures()) / atRisk;
        greenwood += row.failures() / ((double) atRisk * (atRisk - row.failures()));
      }
      steps.add(new Step(row.time(), atRisk, row.failures(), row.losses(), survival, greenwood));
      atRisk -= row.failures() + row.losses();
    }
    return new SurvivalCurve(steps);
  }

  /** The share still whole at this time; 1 before the first step. */
  public double survival(double time) {
    return stepAt(time).map(Step::survival).orElse(1.0);
  }

  /**
   * Limits for the share still whole at this time. Both are 1 before the first failure. Once the
   * curve has reached 0 the lower limit is 0 and the upper one that of the last step above 0.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(double time, double level, Scale scale) {
    double z = Interval.deviate(level);
    var step = stepAt(time);
    if (step.isPresent() && step.get().survival == 0) {
      return new Interval(0, lastAboveZero().map(s -> s.interval(z, scale).high()).orElse(1.0));
    }
    return step.map(s -> s.interval(z, scale)).orElse(new Interval(1, 1));
  }

  private Optional<Step> stepAt(double time) {
    // The steps ascend: search by halving, for a page may ask at every day of a year.
    int low = 0;
    int high = steps.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (steps.get(middle).time <= time) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low == 0 ? Optional.empty() : Optional.of(steps.get(low - 1));
  }

  private Optional<Step> lastAboveZero() {
    return steps.stream().filter(s -> s.survival > 0).reduce((a, b) -> b);
  }
}
