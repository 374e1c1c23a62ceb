package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.StratifiedTest.Stratum;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.hipparchus.stat.descriptive.StreamingStatistics;
import org.junit.jupiter.api.Test;

class StratifiedTestTest {
  private static Stratum stratum(int trials, int events, int all) {
    return new Stratum(trials, new Proportion(events, all));
  }

  // Penicillin and rabbits: Agresti, Categorical Data Analysis, 1990, p. 231-237; the documentation
  // of mantelhaen.test of R 2.9.1 gives the exact chance as 0.040. Cured at once 0 3 6 5 2, of
  // 6 6 6 6 2; cured later 0 0 2 6 5, of 5 6 6 6 5.
  @Test
  void rabbitsAsPublished() {
    var test =
        new StratifiedTest(
            List.of(
                stratum(6, 0, 11),
                stratum(6, 3, 12),
                stratum(6, 8, 12),
                stratum(6, 11, 12),
                stratum(2, 7, 7)));
    assertThat(test.chance(0 + 3 + 6 + 5 + 2)).isCloseTo(0.040, within(0.0005));
  }

  @Test
  void oneStratumIsFisher() {
    for (int own = 0; own <= 9; own++) {
      assertThat(new StratifiedTest(List.of(stratum(29, 49, 640))).chance(own))
          .isCloseTo(
              ExactTest.fisher(new Proportion(own, 29), new Proportion(49 - own, 611)),
              within(1e-9));
    }
  }

  /** Every way to deal the labels, counted one by one. */
  @Test
  void threeStrataByCounting() {
    int[][] strata = {{2, 3, 5}, {3, 2, 6}, {1, 1, 4}};
    double[] ways = {1};
    for (int[] s : strata) {
      double[] here = new double[s[0] + 1];
      for (int mask = 0; mask < 1 << s[2]; mask++) {
        if (Integer.bitCount(mask) == s[0]) {
          here[Integer.bitCount(mask & ((1 << s[1]) - 1))]++;
        }
      }
      double[] sum = new double[ways.length + s[0]];
      for (int i = 0; i < ways.length; i++) {
        for (int j = 0; j < here.length; j++) {
          sum[i + j] += ways[i] * here[j];
        }
      }
      ways = sum;
    }
    double all = 0;
    for (double each : ways) {
      all += each;
    }
    List<Stratum> told = new ArrayList<>();
    for (int[] s : strata) {
      told.add(stratum(s[0], s[1], s[2]));
    }
    for (int seen = 0; seen < ways.length; seen++) {
      double tail = 0;
      for (double each : ways) {
        tail += each <= ways[seen] * (1 + 1e-9) ? each : 0;
      }
      if (ways[seen] > 0) {
        assertThat(new StratifiedTest(told).chance(seen)).isCloseTo(tail / all, within(1e-12));
      }
    }
  }

  @Test
  void largeStrataByTheNormalAgreeWithTheExact() {
    // Just below and just above the variance up to which the exact form is used.
    var exact = new StratifiedTest(List.of(stratum(20_000, 20_000, 40_000)));
    var normal = new StratifiedTest(List.of(stratum(20_400, 20_400, 40_800)));
    for (int sd = 0; sd <= 3; sd++) {
      double one = exact.chance(10_000 + 50L * sd);
      double other = normal.chance(10_200 + Math.round(50.5 * sd));
      assertThat(other).isCloseTo(one, within(0.012));
    }
    assertThat(new StratifiedTest(List.of(stratum(4, 0, 9), stratum(5, 5, 5))).tells()).isFalse();
  }

  @Test
  void drawsAsTheDistributionSays() {
    var random = new SplittableRandom(3);
    var drawn = new StreamingStatistics();
    for (int i = 0; i < 20_000; i++) {
      drawn.addValue(StratifiedTest.draw(30, new Proportion(40, 100), random.nextDouble()));
    }
    // Mean n·M/N = 12, variance n·M/N·(1-M/N)·(N-n)/(N-1) = 5.0909.
    assertThat(drawn.getMean()).isCloseTo(12, within(4 * Math.sqrt(5.09 / 20_000)));
    assertThat(drawn.getVariance()).isCloseTo(5.0909, within(0.25));
  }
}
