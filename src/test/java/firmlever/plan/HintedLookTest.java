package firmlever.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Scenarios.Scenario;
import firmlever.plan.Problem.Check;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;

@DisplayName("A look at what was hinted at")
class HintedLookTest {
  private static final int CAUSES = 4;
  private static final double HINT = 0.15;

  @RepeatedTest(20)
  @DisplayName("comes out as exact inference with the hint says, which it does not count twice")
  void likeInference(RepetitionInfo run) {
    Random random = new Random(run.getCurrentRepetition());
    Network network = network(random);
    Observation hint = new Observation(0, 1, HINT);
    List<Scenario> stories = stories(network);
    Problem problem =
        new Problem(
            network,
            stories,
            List.of(new Check("s0", 0, 1, Set.of(), 0, 0)),
            List.of(),
            List.of(),
            SmallModels.byCostAlone(Map.of(), Map.of(), 0, 0, 0, 0, 1000),
            Set.of(),
            Map.of(0, HINT));

    Tables tables = new Tables(problem);
    double present = 0;
    double presentWithFirst = 0;
    for (Scenario story : stories) {
      long mask = 0;
      boolean first = false;
      for (int cause : story.causes()) {
        mask |= 1L << IntStream.range(0, CAUSES).filter(b -> tables.causes[b] == cause).sum();
        first |= cause == 0;
      }
      double joint = story.probability() * tables.results(0, mask)[0];
      present += joint;
      presentWithFirst += first ? joint : 0;
    }

    List<Observation> hinted = List.of(hint);
    List<Observation> looked = Observation.joined(hinted, Observation.present(0));
    assertThat(looked).hasSize(1);
    Inference.Posterior before = Inference.solve(network, hinted);
    Inference.Posterior after = Inference.solve(network, looked);
    assertThat(present)
        .isCloseTo(Math.exp(after.logEvidence() - before.logEvidence()), within(1e-12));
    assertThat(presentWithFirst / present).isCloseTo(after.posterior()[0], within(1e-12));
    assertThat(after.posterior()[0])
        .as("once it is seen, the hint says nothing more")
        .isCloseTo(
            Inference.solve(network, List.of(Observation.present(0))).posterior()[0],
            within(1e-12));
  }

  private static Network network(Random random) {
    double[] prior = random.doubles(CAUSES, -3, 1).toArray();
    double[][] strength = new double[CAUSES][];
    for (int i = 0; i < CAUSES; i++) {
      strength[i] = new double[] {random.nextInt(3) == 0 ? 0 : random.nextDouble(0.05, 0.95)};
    }
    return new Network(
        IntStream.range(0, CAUSES).mapToObj(i -> "c" + i).toList(),
        prior,
        List.of("s0"),
        new double[] {random.nextDouble(0.01, 0.3)},
        strength);
  }

  /** All sets of causes, weighed by hand with the hint. */
  private static List<Scenario> stories(Network network) {
    List<Scenario> stories = new ArrayList<>();
    double sum = 0;
    double[] weights = new double[1 << CAUSES];
    for (int set = 0; set < weights.length; set++) {
      double weight = 1;
      double absent = 1 - network.background()[0];
      for (int i = 0; i < CAUSES; i++) {
        boolean there = (set >> i & 1) != 0;
        weight *= there ? network.prior(i) : 1 - network.prior(i);
        absent *= there ? 1 - network.strength()[i][0] : 1;
      }
      weights[set] = weight * (1 - absent + HINT * absent);
      sum += weights[set];
    }
    for (int set = 0; set < weights.length; set++) {
      int bits = set;
      int[] causes = IntStream.range(0, CAUSES).filter(i -> (bits >> i & 1) != 0).toArray();
      stories.add(new Scenario(causes, weights[set] / sum));
    }
    return stories;
  }
}
