package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Scenarios.Scenario;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Scenarios")
class ScenariosTest {
  @Test
  @DisplayName("have the probabilities of brute force in exact fractions, all causes in question")
  void equalBruteForce() {
    Random random = new Random(61);
    for (int round = 0; round < 8; round++) {
      RationalModel model = RationalModel.random(random, 5, 5);
      checkAgainstBruteForce(model, model.observations(random), all(5));
    }
  }

  @Test
  @DisplayName("leave out the causes that are out of question, whatever those may be")
  void leaveOutWhatIsOutOfQuestion() {
    Random random = new Random(63);
    int out = 0;
    for (int round = 0; round < 8; round++) {
      RationalModel model = RationalModel.random(random, 5, 5);
      List<Observation> seen =
          List.of(
              Observation.present(0),
              Observation.absent(1),
              Observation.absent(2),
              new Observation(3, 0.75, 0.25));
      boolean[] inQuestion = Scenarios.inQuestion(model.network(), seen);
      for (int i = 0; i < 5; i++) {
        boolean shows = !model.strength()[i][0].isZero() || !model.strength()[i][3].isZero();
        assertThat(inQuestion[i]).isEqualTo(shows);
        out += shows ? 0 : 1;
      }
      checkAgainstBruteForce(model, seen, inQuestion);
    }
    assertThat(out).as("causes out of question").isGreaterThan(3);
  }

  private static void checkAgainstBruteForce(
      RationalModel model, List<Observation> seen, boolean[] inQuestion) {
    Network network = model.network();
    Inference.Posterior after = Inference.solve(network, seen);
    List<Scenario> stories = Scenarios.likeliest(network, seen, after, inQuestion, 3, 100);
    assertThat(stories)
        .isSortedAccordingTo(Comparator.comparingDouble(Scenario::probability).reversed());
    Set<List<Integer>> told = new HashSet<>();
    double left = 1;
    for (Scenario story : stories) {
      List<Integer> causes = IntStream.of(story.causes()).boxed().toList();
      assertThat(told.add(causes)).as("told once: %s", causes).isTrue();
      assertThat(causes).allSatisfy(cause -> assertThat(inQuestion[cause]).isTrue());
      assertThat(story.probability())
          .isCloseTo(model.story(seen, causes, inQuestion).toDouble(), within(1e-9));
      left -= story.probability();
    }
    // What is left to one: stories of four and five causes, and of causes too rare.
    double rest = 0;
    for (int world = 0; world < 32; world++) {
      List<Integer> causes = new ArrayList<>();
      for (int i = 0; i < 5; i++) {
        if ((world >> i & 1) == 1) {
          causes.add(i);
        }
      }
      if (causes.stream().allMatch(i -> inQuestion[i]) && !told.contains(causes)) {
        assertThat(causes.size() > 3 || causes.stream().anyMatch(i -> after.posterior()[i] < 0.01))
            .as("left out: %s", causes)
            .isTrue();
        rest += model.story(seen, causes, inQuestion).toDouble();
      }
    }
    assertThat(left).isCloseTo(rest, within(1e-9));
  }

  @Test
  @DisplayName("are as many as asked for, the likeliest, the brake without a fault among them")
  void areTheLikeliest() {
    RationalModel model = RationalModel.random(new Random(62), 6, 4);
    Network network = model.network();
    List<Observation> seen = List.of(Observation.present(3), Observation.absent(0));
    Inference.Posterior after = Inference.solve(network, seen);
    List<Scenario> all = Scenarios.likeliest(network, seen, after, all(6), 3, 1000);
    List<Scenario> four = Scenarios.likeliest(network, seen, after, all(6), 3, 4);
    assertThat(four).hasSize(4);
    for (int k = 0; k < 4; k++) {
      assertThat(four.get(k).causes()).isEqualTo(all.get(k).causes());
    }
    assertThat(all)
        .filteredOn(story -> story.causes().length == 0)
        .singleElement()
        .satisfies(
            none -> assertThat(none.probability()).isCloseTo(after.noFault(), within(1e-12)));
  }

  private static boolean[] all(int causes) {
    boolean[] all = new boolean[causes];
    Arrays.fill(all, true);
    return all;
  }
}
