package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;

/**
 * Whether two or more groups fail at the same pace (log-rank test of Mantel and Cox), with the
 * hypergeometric variance, not the rough sum of (observed − expected)² / expected. Source: Mantel
 * 1966; from memory, checked against R's survdiff.
 *
 * @param groups in the order given
 * @param chiSquared the statistic, 0 or more
 * @param degrees its degrees of freedom: groups that can be told apart, less one
 * @param chance the chance of at least this much difference where there is none, from 0 to 1
 */
public record LogRankTest(List<Group> groups, double chiSquared, int degrees, double chance) {

  /** Copies the groups. */
  public LogRankTest {
    groups = List.copyOf(groups);
  }

  /**
   * One group.
   *
   * @param observed its failures
   * @param expected the failures it would have at the common pace
   * @param variance of observed − expected
   */
  public record Group(long observed, double expected, double variance) {}

  /**
   * The test over these groups. Where no two groups were ever at risk together at a failure, there
   * is nothing to compare: 0 degrees of freedom and a chance of 1.
   *
   * @throws IllegalArgumentException with fewer than two groups
   */
  public static LogRankTest of(List<LifeTable> groups) {
    int size = groups.size();
    if (size < 2) {
      throw new IllegalArgumentException("a comparison needs two groups or more, not " + size);
    }
    // time -> { failures of each group, then losses of each group }
    var times = new TreeMap<Double, long[]>();
    long[] atRisk = new long[size];
    for (int g = 0; g < size; g++) {
      atRisk[g] = groups.get(g).units();
      for (var row : groups.get(g).rows()) {
        long[] counts = times.computeIfAbsent(row.time(), t -> new long[2 * size]);
        counts[g] = row.failures();
        counts[size + g] = row.losses();
      }
    }
    double[] expected = new double[size];
    double[][] covariance = new double[size][size];
    for (long[] counts : times.values()) {
      double all = 0;
      double failures = 0;
      for (int g = 0; g < size; g++) {
        all += atRisk[g];
        failures += counts[g];
      }
      // The last unit at risk fails with certainty: it adds no variance.
      double spread = all > 1 ? failures * (all - failures) / (all - 1) : 0;
      for (int g = 0; failures > 0 && g < size; g++) {
        double share = atRisk[g] / all;
        expected[g] += failures * share;
        for (int h = 0; h < size; h++) {
          covariance[g][h] += spread * share * ((g == h ? 1 : 0) - atRisk[h] / all);
        }
      }
      for (int g = 0; g < size; g++) {
        atRisk[g] -= counts[g] + counts[size + g];
      }
    }
    var results = new ArrayList<Group>(size);
    double[] excess = new double[size];
    for (int g = 0; g < size; g++) {
      long observed = groups.get(g).failures();
      excess[g] = observed - expected[g];
      results.add(new Group(observed, expected[g], covariance[g][g]));
    }
    return tested(results, excess, covariance);
  }

  /** The quadratic form excess' · covariance⁻¹ · excess, by elimination with the largest pivot. */
  private static LogRankTest tested(List<Group> results, double[] excess, double[][] covariance) {
    int size = excess.length;
    double largest = results.stream().mapToDouble(Group::variance).max().orElse(0);
    boolean[] used = new boolean[size];
    double chiSquared = 0;
    int degrees = 0;
    // Rows sum to zero, so the rank is below the size: whatever pivots are left are rounding.
    while (degrees < size - 1) {
      int pivot = -1;
      for (int g = 0; g < size; g++) {
        if (!used[g] && (pivot < 0 || covariance[g][g] > covariance[pivot][pivot])) {
          pivot = g;
        }
      }
      double value = covariance[pivot][pivot];
      if (!(value > 1e-10 * largest)) {
        break;
      }
      used[pivot] = true;
      degrees++;
      chiSquared += excess[pivot] * excess[pivot] / value;
      for (int g = 0; g < size; g++) {
        if (!used[g]) {
          double factor = covariance[g][pivot] / value;
          excess[g] -= factor * excess[pivot];
          for (int h = 0; h < size; h++) {
            covariance[g][h] -= factor * covariance[pivot][h];
          }
        }
      }
    }
    double chance =
        degrees == 0 ? 1 : ChiSquaredDistribution.of(degrees).survivalProbability(chiSquared);
    return new LogRankTest(results, chiSquared, degrees, chance);
  }
}
