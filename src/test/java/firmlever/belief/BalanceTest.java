package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The balance of evidence")
class BalanceTest {
  @Test
  @DisplayName("adds up to the posterior log odds of every cause")
  void addsUp() {
    Random random = new Random(51);
    for (int round = 0; round < 80; round++) {
      RationalModel model = RationalModel.random(random, 10, 12);
      Network network = model.network();
      List<Observation> seen = model.observations(random);
      List<Observation> otherwise = new ArrayList<>(seen);
      Collections.reverse(otherwise);
      Inference.Posterior after = Inference.solve(network, otherwise);
      List<Balance.Weighed> weighed = weigh(network, seen);
      assertThat(weighed).hasSameSizeAs(seen);
      for (int i = 0; i < 10; i++) {
        double sum = network.priorLogOdds()[i];
        for (Balance.Weighed each : weighed) {
          sum += each.weight()[i];
        }
        assertThat(sum).isCloseTo(after.logOdds(i), within(1e-10));
      }
    }
  }

  @Test
  @DisplayName("weighs each observation alone as if nothing else were known")
  void weighsAlone() {
    Random random = new Random(52);
    for (int round = 0; round < 20; round++) {
      RationalModel model = RationalModel.random(random, 5, 6);
      Network network = model.network();
      for (Balance.Weighed each : weigh(network, model.observations(random))) {
        List<Observation> one = List.of(each.observation());
        for (int i = 0; i < 5; i++) {
          double exact = Odds.log(model.posterior(one, i).toDouble()) - network.priorLogOdds()[i];
          assertThat(each.alone()[i]).isCloseTo(exact, within(1e-9));
        }
      }
    }
  }

  @Test
  @DisplayName("weighs the clearly absent first, and keeps the given order otherwise")
  void ordersAbsentFirst() {
    Observation wet = Observation.present(3);
    Observation dry = Observation.absent(1);
    Observation doubtful = new Observation(2, 0.2, 0.8);
    Observation quiet = Observation.absent(0);
    assertThat(Balance.inOrder(List.of(wet, dry, doubtful, quiet)))
        .containsExactly(dry, quiet, wet, doubtful);
  }

  @Test
  @DisplayName("shows that one cause explains another away")
  void explainsAway() {
    // Two causes of one symptom; the second is told by a symptom of its own.
    Network network =
        new Network(
            List.of("drag", "dirt"),
            new double[] {Odds.log(0.1), Odds.log(0.2)},
            List.of("rub", "dust"),
            new double[] {0.01, 0.02},
            new double[][] {{0.8, 0}, {0.7, 0.9}});
    List<Balance.Weighed> weighed =
        weigh(network, List.of(Observation.present(1), Observation.present(0)));
    Balance.Weighed rub = weighed.get(1);
    assertThat(rub.observation().symptom()).isZero();
    assertThat(rub.weight()[0]).isPositive().isLessThan(rub.alone()[0] / 2);
    assertThat(weighed.get(0).weight()[0]).isCloseTo(0, within(1e-12));
  }

  @Test
  @DisplayName("does not depend on observations that come later")
  void laterObservationsChangeNothingBefore() {
    Random random = new Random(53);
    RationalModel model = RationalModel.random(random, 7, 9);
    List<Observation> two = List.of(Observation.present(1), Observation.present(4));
    List<Observation> three = new ArrayList<>(two);
    three.add(Observation.present(6));
    assertThat(weigh(model.network(), three).get(1).weight())
        .containsExactly(weigh(model.network(), two).get(1).weight(), within(1e-12));
  }

  private static List<Balance.Weighed> weigh(Network network, List<Observation> seen) {
    return Balance.weigh(network, seen, Inference.solve(network, seen));
  }
}
