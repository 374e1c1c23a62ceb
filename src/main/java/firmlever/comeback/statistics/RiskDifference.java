package firmlever.comeback.statistics;

import java.util.Map;
import java.util.SortedMap;
import java.util.function.Predicate;

/**
 * By how much the rate of one label lies above that of others within the same strata: Mantel and
 * Haenszel's weighted mean of the differences, with the variance of Greenland and Robins 1985,
 * Biometrics 41:55-68 (from memory), which holds for few large strata and for many small ones.
 *
 * @param difference of rates, from −1 to 1; 0 where nothing can be compared
 * @param standardError of it
 * @param own events and trials of the label, of strata where it can be compared
 * @param others those of the others there
 */
public record RiskDifference(
    double difference, double standardError, Proportion own, Proportion others) {

  /** Holds the label against those others. */
  public static <S> RiskDifference of(
      SortedMap<S, SortedMap<String, Proportion>> cells,
      Predicate<String> label,
      Predicate<String> against) {
    double weights = 0;
    double sum = 0;
    double variance = 0;
    Proportion own = Proportion.NONE;
    Proportion others = Proportion.NONE;
    for (SortedMap<String, Proportion> row : cells.values()) {
      Proportion one = sum(row, label);
      Proportion other = sum(row, against);
      if (one.trials() == 0 || other.trials() == 0) {
        continue;
      }
      own = own.plus(one);
      others = others.plus(other);
      double n = one.trials();
      double m = other.trials();
      double a = one.events();
      double b = other.events();
      weights += n * m / (n + m);
      sum += (a * m - b * n) / (n + m);
      variance += (a * (n - a) * m * m * m + b * (m - b) * n * n * n) / (n * m * (n + m) * (n + m));
    }
    return weights == 0
        ? new RiskDifference(0, 0, own, others)
        : new RiskDifference(sum / weights, Math.sqrt(variance) / weights, own, others);
  }

  private static Proportion sum(Map<String, Proportion> row, Predicate<String> label) {
    return row.entrySet().stream()
        .filter(each -> label.test(each.getKey()))
        .map(Map.Entry::getValue)
        .reduce(Proportion.NONE, Proportion::plus);
  }

  /**
   * Normal limits, cut off at −1 and 1.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(double level) {
    double reach = Interval.deviate(level) * standardError;
    return new Interval(Math.max(-1, difference - reach), Math.min(1, difference + reach));
  }
}
