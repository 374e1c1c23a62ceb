package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.RatioPrior.Count;
import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.GammaDistribution;
import org.hipparchus.random.RandomDataGenerator;
import org.junit.jupiter.api.Test;

class RatioPriorTest {
  @Test
  void byHandAndByAnotherLibrary() {
    var prior = new RatioPrior(4);
    assertThat(prior.mean(new Count(7, 6))).isEqualTo(1.1);
    // Never seen: 4 / 4.5 where little was to be seen, 4 / 44 where much was.
    assertThat(prior.mean(new Count(0, 0.5))).isCloseTo(0.8889, within(1e-4));
    assertThat(prior.mean(new Count(0, 40))).isCloseTo(0.0909, within(1e-4));
    var other = new GammaDistribution(11, 1 / 10.0);
    var interval = prior.interval(new Count(7, 6), 0.9);
    assertThat(interval.low()).isCloseTo(other.inverseCumulativeProbability(0.05), within(1e-6));
    assertThat(interval.high()).isCloseTo(other.inverseCumulativeProbability(0.95), within(1e-6));
    assertThatThrownBy(() -> new RatioPrior(0)).hasMessageContaining("0.0");
  }

  @Test
  void learnsHowFarCountsLieOff() {
    var random = new RandomDataGenerator(5);
    List<Count> off = new ArrayList<>();
    List<Count> near = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      double expected = 5 + i % 40;
      // Factors with variance 1 / 3: the prior is worth three events.
      double factor = random.nextGamma(3, 1 / 3.0);
      off.add(new Count(random.nextPoisson(expected * factor), expected));
      near.add(new Count(random.nextPoisson(expected), expected));
    }
    assertThat(RatioPrior.of(off).events()).isBetween(2.0, 4.5);
    assertThat(RatioPrior.of(near).events()).isGreaterThan(40);
  }
}
