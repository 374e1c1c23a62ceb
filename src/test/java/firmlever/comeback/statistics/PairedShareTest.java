package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class PairedShareTest {
  @Test
  void limitsByHand() {
    // Cells 794 86 150 570 of 1600 (Agresti, Categorical Data Analysis, 2002,
    // approval of a prime minister asked twice):
    // difference (86 - 150) / 1600 = -0.04. With half a unit in each cell: (86.5 - 150.5) / 1602,
    // error sqrt(237 - 64² / 1602) / 1602.
    var share = new PairedShare(794, 86, 150, 570);
    assertThat(share.difference()).isEqualTo(-0.04);
    double error = Math.sqrt(237 - 64.0 * 64 / 1602) / 1602;
    assertThat(share.interval(0.95).low()).isCloseTo(-64.0 / 1602 - 1.959964 * error, within(1e-7));
    assertThat(share.interval(0.95).high())
        .isCloseTo(-64.0 / 1602 + 1.959964 * error, within(1e-7));
    // Without the half units: -0.04 with an error of 0.0095 (the book, from memory).
    assertThat(share.interval(0.95).low()).isCloseTo(-0.04 - 1.96 * 0.0095, within(0.0005));
    assertThat(share.interval(0.95).high()).isCloseTo(-0.04 + 1.96 * 0.0095, within(0.0005));
  }

  @Test
  void coversTheTruthAtItsLevel() {
    var random = new SplittableRandom(12);
    int covered = 0;
    for (int round = 0; round < 2000; round++) {
      var share = PairedShare.NONE;
      for (int unit = 0; unit < 60; unit++) {
        boolean first = random.nextDouble() < 0.3;
        share = share.plus(first, first ? random.nextDouble() < 0.6 : random.nextDouble() < 0.1);
      }
      // 0.3 against 0.3 · 0.6 + 0.7 · 0.1 = 0.25.
      covered += share.interval(0.95).contains(0.05) ? 1 : 0;
    }
    assertThat(new Proportion(covered, 2000).exact(0.999).high()).isGreaterThan(0.95);
    assertThat(covered).isLessThan(1980);
  }
}
