package firmlever.comeback.statistics;

import java.util.List;
import java.util.Optional;
import org.apache.commons.numbers.rootfinder.BrentSolver;

/**
 * A Weibull distribution fitted to failures and losses by maximum likelihood: the share whole at a
 * time is exp(−(time / scale)^shape). Source: Nelson 1982, Applied Life Data Analysis.
 *
 * @param shape below 1: early faults; about 1: by chance; above 1: wear
 * @param scale the time by which 63.2 % have failed, in the caller's unit
 * @param logLikelihood natural log of the likelihood at the fit
 * @param failures how many failures it rests on
 * @param varianceLogShape variance of ln shape, from the observed information
 * @param varianceLogScale variance of ln scale
 * @param covarianceLogs covariance of the two
 */
public record WeibullFit(
    double shape,
    double scale,
    double logLikelihood,
    long failures,
    double varianceLogShape,
    double varianceLogScale,
    double covarianceLogs) {

  private static final double LEAST_LOG_SHAPE = Math.log(1e-3);
  private static final double LARGEST_LOG_SHAPE = Math.log(1e3);

  /**
   * The fit; empty where there is none: no failure, all failures at the longest time seen, or a
   * best shape outside 0.001 to 1000.
   *
   * @throws IllegalArgumentException where a unit failed at time 0
   */
  public static Optional<WeibullFit> of(LifeTable table) {
    var rows = table.rows();
    long failures = table.failures();
    if (failures == 0) {
      return Optional.empty();
    }
    double meanLog = 0; // of the failures, relative to the longest time
    double longest = rows.get(rows.size() - 1).time();
    for (var row : rows) {
      if (row.failures() > 0) {
        if (row.time() == 0) {
          throw new IllegalArgumentException(
              "a Weibull fit cannot use a failure at time 0. Maybe count the day of the repair as"
                  + " day 1, or as half a day.");
        }
        meanLog += row.failures() * Math.log(row.time() / longest) / failures;
      }
    }
    double mean = meanLog;
    if (pull(rows, mean, LARGEST_LOG_SHAPE) <= 0 || pull(rows, mean, LEAST_LOG_SHAPE) >= 0) {
      return Optional.empty();
    }
    double logShape =
        new BrentSolver(1e-15, 1e-15, 1e-15)
            .findRoot(x -> pull(rows, mean, x), LEAST_LOG_SHAPE, LARGEST_LOG_SHAPE);
    return Optional.of(at(table, Math.exp(logShape), longest, failures));
  }

  /** The fit with this shape and the best scale to it, with its likelihood and information. */
  private static WeibullFit at(LifeTable table, double shape, double longest, long failures) {
    double powers = 0;
    for (var row : table.rows()) {
      powers += (row.failures() + row.losses()) * Math.pow(row.time() / longest, shape);
    }
    double scale = longest * Math.pow(powers / failures, 1 / shape);
    double logLikelihood = 0;
    double shapeShape = 0; // minus the second derivatives in ln shape and ln scale
    double shapeScale = 0;
    for (var row : table.rows()) {
      if (row.time() > 0) {
        double z = shape * Math.log(row.time() / scale);
        double hazard = Math.exp(z) * (row.failures() + row.losses());
        logLikelihood += row.failures() * (Math.log(shape) + z - Math.log(row.time())) - hazard;
        shapeShape += (z * z + z) * hazard - row.failures() * z;
        shapeScale += shape * (row.failures() - (1 + z) * hazard);
      }
    }
    double scaleScale = shape * shape * failures;
    double determinant = shapeShape * scaleScale - shapeScale * shapeScale;
    return new WeibullFit(
        shape,
        scale,
        logLikelihood,
        failures,
        scaleScale / determinant,
        shapeShape / determinant,
        -shapeScale / determinant);
  }

  /**
   * What pulls the shape down: minus the derivative of the log likelihood, with the best scale to
   * each shape put in. Rises steadily. Times relative to the longest cannot overflow.
   */
  private static double pull(List<LifeTable.Row> rows, double meanLog, double logShape) {
    double shape = Math.exp(logShape);
    double longest = rows.get(rows.size() - 1).time();
    double powers = 0;
    double weighted = 0;
    for (var row : rows) {
      if (row.time() > 0) {
        double log = Math.log(row.time() / longest);
        double power = (row.failures() + row.losses()) * Math.exp(shape * log);
        powers += power;
        weighted += power * log;
      }
    }
    return weighted / powers - meanLog - 1 / shape;
  }

  /**
   * Limits for the shape, symmetrical on a log scale.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval shapeInterval(double level) {
    double factor = Math.exp(Interval.deviate(level) * Math.sqrt(varianceLogShape));
    return new Interval(shape / factor, shape * factor);
  }
}
