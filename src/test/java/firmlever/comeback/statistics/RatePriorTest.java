package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.special.Beta;
import org.junit.jupiter.api.Test;

class RatePriorTest {
  private static final int[] SIZES = {2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 377};

  /** An invented shop: groups of very different size, each with its own true rate. */
  private static List<Proportion> shop(Random random, double[] rates) {
    var counts = new ArrayList<Proportion>();
    for (int g = 0; g < SIZES.length; g++) {
      double rate = rates[g];
      long events = random.doubles(SIZES[g]).filter(u -> u < rate).count();
      counts.add(new Proportion(events, SIZES[g]));
    }
    return counts;
  }

  @Test
  void priorLimitsByHand() {
    // Beta(1, 1) is uniform; Beta(2, 1) has the distribution function x².
    assertThat(new RatePrior(1, 1).interval(0.9).low()).isCloseTo(0.05, within(1e-9));
    assertThat(new RatePrior(1, 1).interval(0.9).high()).isCloseTo(0.95, within(1e-9));
    assertThat(new RatePrior(2, 1).interval(0.9).low()).isCloseTo(Math.sqrt(0.05), within(1e-9));
    assertThat(new RatePrior(2, 1).mean()).isCloseTo(2.0 / 3, within(1e-15));
  }

  @Test
  void priorHasTheLikeliestWeight() {
    var random = new Random(6);
    for (int round = 0; round < 10; round++) {
      double[] rates = random.doubles(SIZES.length, 0.02, 0.5).toArray();
      var counts = shop(random, rates);
      var prior = RatePrior.of(counts);
      double mean = prior.mean();
      // Second opinion: another library's optimiser and beta function.
      var best =
          new BrentOptimizer(1e-12, 1e-14)
              .optimize(
                  new MaxEval(1000),
                  new UnivariateObjectiveFunction(w -> likelihood(counts, mean, Math.exp(w))),
                  GoalType.MAXIMIZE,
                  new SearchInterval(Math.log(0.5), Math.log(82), 2));
      assertThat(Math.log(prior.weight())).isCloseTo(best.getPoint(), within(1e-4));
    }
  }

  @Test
  void priorKnowsNoOrderAndItsLimits() {
    var counts = new ArrayList<>(shop(new Random(9), new Random(9).doubles(12, 0, 0.4).toArray()));
    var prior = RatePrior.of(counts);
    Collections.reverse(counts);
    assertThat(RatePrior.of(counts)).isEqualTo(prior);
    // Groups more alike than chance would make them: the largest weight, that of a usual group.
    var alike = RatePrior.of(List.of(new Proportion(10, 100), new Proportion(20, 200)));
    assertThat(alike.weight()).isCloseTo(150, within(1e-9));
    assertThat(alike.mean()).isCloseTo(30.5 / 301, within(1e-15));
    // Groups of nothing or all: hardly any weight.
    var torn = RatePrior.of(List.of(new Proportion(0, 80), new Proportion(90, 90)));
    assertThat(torn.weight()).isLessThan(2);
    assertThat(torn.after(new Proportion(3, 10)).events())
        .isCloseTo(torn.events() + 3, within(1e-12));
  }

  private static double likelihood(List<Proportion> counts, double mean, double weight) {
    double a = mean * weight;
    double b = weight - a;
    return counts.stream()
        .mapToDouble(
            c -> Beta.logBeta(a + c.events(), b + c.trials() - c.events()) - Beta.logBeta(a, b))
        .sum();
  }

  @Test
  void refusesWhatIsNoPrior() {
    assertThatThrownBy(() -> new RatePrior(0, 3)).hasMessageContaining("0.0 and 3.0");
    assertThatThrownBy(() -> RatePrior.of(List.of(Proportion.NONE)))
        .hasMessageContaining("one trial");
  }
}
