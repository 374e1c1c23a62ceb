package firmlever.comeback.statistics;

import static firmlever.comeback.statistics.Published.list;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class FalseDiscoveryTest {
  // Benjamini and Hochberg 1995, JRSS B 57:289-300, section 3.2.
  private static final List<Double> PAPER =
      list(
          ".0001 .0004 .0019 .0095 .0201 .0278 .0298 .0344 .0459 .3240 .4262 .5719 .6528 .7590"
              + " 1.000");

  @Test
  void findingsAsPublished() {
    // Four findings at 0.05, the last at 0.0095; Bonferroni has three, no correction nine.
    var adjusted = FalseDiscovery.adjusted(PAPER);
    assertThat(adjusted.stream().filter(p -> p <= 0.05)).hasSize(4);
    assertThat(adjusted.get(3)).isLessThanOrEqualTo(0.05);
    assertThat(PAPER.stream().filter(p -> p * PAPER.size() <= 0.05)).hasSize(3);
    assertThat(PAPER.stream().filter(p -> p <= 0.05)).hasSize(9);
  }

  // References 7.21, recomputed: the sixth and the seventh tie.
  @Test
  void adjustedChancesAsPublished() {
    double[] expected =
        Published.numbers(
            ".0015 .0030 .0095 .0356 .0603 .0639 .0639 .0645 .0765 .4860 .5812 .7149 .7532 .8132"
                + " 1");
    var adjusted = FalseDiscovery.adjusted(PAPER);
    for (int i = 0; i < expected.length; i++) {
      assertThat(adjusted.get(i)).isCloseTo(expected[i], within(5.1e-5));
    }
    assertThat(adjusted.get(5)).isEqualTo(adjusted.get(6));
  }

  // R package HDLSSkST, BenHoch: input in no order, findings 0 1 1 0 1 0 1 at 0.05.
  @Test
  void keepsTheOrderOfTheInput() {
    assertThat(FalseDiscovery.adjusted(list(".50 .01 .001 .69 .02 .05 .0025")).stream())
        .extracting(p -> p <= 0.05)
        .containsExactly(false, true, true, false, true, false, true);
  }

  // References 7.23: a step-up method accepts all five.
  @Test
  void stepsUp() {
    assertThat(FalseDiscovery.adjusted(list(".01 .02 .03 .04 .05"))).allMatch(p -> p <= 0.05);
  }

  @Test
  void shufflingChangesNothing() {
    var order = new ArrayList<Integer>();
    for (int i = 0; i < PAPER.size(); i++) {
      order.add(i);
    }
    Collections.shuffle(order, new Random(2));
    var shuffled = FalseDiscovery.adjusted(order.stream().map(PAPER::get).toList());
    var straight = FalseDiscovery.adjusted(PAPER);
    assertThat(shuffled).isEqualTo(order.stream().map(straight::get).toList());
    assertThat(FalseDiscovery.adjusted(List.of())).isEmpty();
  }

  @Test
  void refusesWhatCannotBe() {
    assertThatThrownBy(() -> FalseDiscovery.adjusted(List.of(0.2, 1.5)))
        .hasMessageContaining("1.5");
  }
}
