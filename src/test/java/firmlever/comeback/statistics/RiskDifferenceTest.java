package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class RiskDifferenceTest {
  private static SortedMap<String, SortedMap<String, Proportion>> cells(Object... rows) {
    SortedMap<String, SortedMap<String, Proportion>> cells = new TreeMap<>();
    for (int i = 0; i < rows.length; i += 3) {
      cells.put(
          (String) rows[i],
          new TreeMap<>(Map.of("new", (Proportion) rows[i + 1], "old", (Proportion) rows[i + 2])));
    }
    return cells;
  }

  private static RiskDifference difference(SortedMap<String, SortedMap<String, Proportion>> cells) {
    return RiskDifference.of(cells, "new"::equals, "old"::equals);
  }

  @Test
  void byHand() {
    // One stratum: the plain difference with its plain variance.
    RiskDifference one = difference(cells("a", new Proportion(10, 50), new Proportion(30, 100)));
    assertThat(one.difference()).isCloseTo(-0.1, within(1e-12));
    assertThat(one.standardError())
        .isCloseTo(Math.sqrt(0.2 * 0.8 / 50 + 0.3 * 0.7 / 100), within(1e-12));
    // Two: weights 50·100/150 and 20·20/40; differences −0.1 and +0.25.
    RiskDifference two =
        difference(
            cells(
                "a",
                new Proportion(10, 50),
                new Proportion(30, 100),
                "b",
                new Proportion(10, 20),
                new Proportion(5, 20),
                "c",
                new Proportion(3, 9),
                Proportion.NONE));
    double weights = 100 / 3.0 + 10;
    assertThat(two.difference()).isCloseTo((-10 / 3.0 + 2.5) / weights, within(1e-12));
    double variance =
        Math.pow(100 / 3.0, 2) * (0.16 / 50 + 0.21 / 100) + 100 * (0.25 / 20 + 0.1875 / 20);
    assertThat(two.standardError()).isCloseTo(Math.sqrt(variance) / weights, within(1e-12));
    assertThat(two.own()).isEqualTo(new Proportion(20, 70));
    assertThat(difference(cells()).standardError()).isZero();
  }

  @Test
  void coversTheTrueDifferenceOverManySmallStrata() {
    Random random = new Random(21);
    int covered = 0;
    int runs = 1000;
    for (int run = 0; run < runs; run++) {
      SortedMap<String, SortedMap<String, Proportion>> cells = new TreeMap<>();
      for (int stratum = 0; stratum < 25; stratum++) {
        double base = 0.05 + 0.5 * random.nextDouble();
        cells.put(
            "s" + stratum,
            new TreeMap<>(
                Map.of(
                    "new", drawn(random, 3 + random.nextInt(20), base + 0.08),
                    "old", drawn(random, 3 + random.nextInt(20), base))));
      }
      covered += difference(cells).interval(0.95).contains(0.08) ? 1 : 0;
    }
    assertThat((double) covered / runs).isBetween(0.93, 0.97);
  }

  private static Proportion drawn(Random random, int trials, double rate) {
    int events = 0;
    for (int i = 0; i < trials; i++) {
      events += random.nextDouble() < rate ? 1 : 0;
    }
    return new Proportion(events, trials);
  }
}
