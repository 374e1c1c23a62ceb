package firmlever.comeback.statistics;

import java.util.Arrays;
import java.util.List;

/** Published data sets that several tests use, and a short way to write such data down. */
final class Published {
  private Published() {}

  /** Freireich 1963, weeks of remission, drug arm (as printed by Gehan 1965). */
  static final LifeTable DRUG =
      lives("6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+");

  /** Freireich 1963, placebo arm. */
  static final LifeTable PLACEBO = lives("1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23");

  /** Units in the usual notation: a time is a failure, a time with + was last seen whole then. */
  static LifeTable lives(String units) {
    var counter = new LifeTable.Counter();
    for (String unit : units.split(" ")) {
      counter.add(Double.parseDouble(unit.replace("+", "")), !unit.endsWith("+"));
    }
    return counter.table();
  }

  /** Units as two rows: times, and 1 for a failure or 0 for a loss. */
  static LifeTable lives(String times, String failed) {
    var counter = new LifeTable.Counter();
    double[] at = numbers(times);
    double[] fails = numbers(failed);
    for (int i = 0; i < at.length; i++) {
      counter.add(at[i], fails[i] == 1);
    }
    return counter.table();
  }

  static double[] numbers(String row) {
    return Arrays.stream(row.split(" ")).mapToDouble(Double::parseDouble).toArray();
  }

  static List<Double> list(String row) {
    return Arrays.stream(numbers(row)).boxed().toList();
  }
}
