package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ExactTestTest {
  @Test
  void fisherByHand() {
    // 3 of 3 against 0 of 3: one of the 20 ways to deal three events to six, on either side.
    assertThat(ExactTest.fisher(new Proportion(3, 3), new Proportion(0, 3)))
        .isCloseTo(0.1, within(1e-12));
    assertThat(ExactTest.fisher(new Proportion(0, 4), new Proportion(0, 9))).isEqualTo(1);
    assertThat(ExactTest.fisher(new Proportion(4, 4), new Proportion(9, 9))).isEqualTo(1);
    assertThat(ExactTest.fisher(Proportion.NONE, new Proportion(2, 9))).isEqualTo(1);
  }

  @Test
  void binomialByHand() {
    // 5 of 5 heads, two-sided: 2 / 32.
    assertThat(ExactTest.binomial(new Proportion(5, 5), 0.5)).isCloseTo(0.0625, within(1e-12));
    assertThat(ExactTest.binomial(Proportion.NONE, 0.3)).isEqualTo(1);
  }

  @Test
  void poissonByHand() {
    // 4 against 0 over equal exposures is 4 of 4 heads: 2 / 16.
    assertThat(ExactTest.poisson(4, 70, 0, 70)).isCloseTo(0.125, within(1e-12));
    assertThat(ExactTest.poisson(0, 30, 0, 70)).isEqualTo(1);
    assertThatThrownBy(() -> ExactTest.poisson(1, 0, 2, 9)).hasMessageContaining("0.0 and 9.0");
  }
}
