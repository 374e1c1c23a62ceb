package firmlever.comeback;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.comeback.Tally.Cell;
import firmlever.comeback.Tally.CellTally;
import firmlever.comeback.visits.Trait;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Patterns")
class ClustersTest {
  private static TreeMap<Cell, CellTally> shop(long seed, String badLot, double badRate) {
    SplittableRandom random = new SplittableRandom(seed);
    TreeMap<Cell, CellTally> cells = new TreeMap<>();
    for (int i = 0; i < 6000; i++) {
      String lot = "H" + random.nextInt(9);
      int age = random.nextInt(4);
      Cell cell = new Cell(lot, "", "T" + random.nextInt(5), "summer", age, "lever-feel");
      CellTally tally = cells.computeIfAbsent(cell, c -> new CellTally());
      tally.visits++;
      // Old brakes come back more often, whatever their lot.
      double rate = lot.equals(badLot) ? badRate : 0.02 + 0.02 * age;
      if (random.nextDouble() < rate) {
        tally.returns.merge(random.nextBoolean() ? "aged-fluid" : "low-fluid", 1L, Long::sum);
      }
    }
    return cells;
  }

  @Test
  @DisplayName("name the bad lot and nothing else")
  void nameTheBadLot() {
    assertThat(Clusters.find(shop(11, "H4", 0.2), 0.05))
        .extracting(Clusters.Found::trait, Clusters.Found::value)
        .containsExactly(org.assertj.core.groups.Tuple.tuple(Trait.LOT, "H4"));
  }

  @Test
  @DisplayName("accuse nobody where there is nothing, in nearly all of 60 shops")
  void accuseNobody() {
    long accused = 0;
    for (long seed = 0; seed < 60; seed++) {
      accused += Clusters.find(shop(seed, "none", 0), 0.05).isEmpty() ? 0 : 1;
    }
    // 5 % of 60 is 3; more than 8 would come by chance less than once in 100 times (binomial).
    assertThat(accused).isLessThanOrEqualTo(8);
  }
}
