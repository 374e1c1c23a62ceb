package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A redrawn network")
class RedrawTest {
  private static final Network NETWORK = RationalModel.random(new Random(71), 30, 20).network();
  private static final List<Integer> ALL = IntStream.range(0, 20).boxed().toList();

  @Test
  @DisplayName("is a function of seed and draw, whatever was drawn before and in parallel")
  void isDeterministic() {
    double[][] forwards = new double[40][];
    for (int draw = 0; draw < 40; draw++) {
      forwards[draw] = numbers(Redraw.draw(NETWORK, ALL, 5, draw));
    }
    for (int draw = 39; draw >= 0; draw--) {
      assertThat(numbers(Redraw.draw(NETWORK, ALL, 5, draw))).isEqualTo(forwards[draw]);
    }
    double[][] parallel =
        IntStream.range(0, 40)
            .parallel()
            .mapToObj(draw -> numbers(Redraw.draw(NETWORK, ALL, 5, draw)))
            .toArray(double[][]::new);
    assertThat(parallel).isDeepEqualTo(forwards);
    assertThat(numbers(Redraw.draw(NETWORK, ALL, 6, 3))).isNotEqualTo(forwards[3]);
    assertThat(forwards[4]).isNotEqualTo(forwards[3]);
  }

  @Test
  @DisplayName("gives a number the same noise whichever other symptoms are asked for")
  void doesNotDependOnTheSymptomsAskedFor() {
    Network all = Redraw.draw(NETWORK, ALL, 9, 2);
    Network few = Redraw.draw(NETWORK, List.of(17, 4), 9, 2);
    assertThat(few.priorLogOdds()).isEqualTo(all.priorLogOdds());
    for (int j : new int[] {4, 17}) {
      assertThat(few.background()[j]).isEqualTo(all.background()[j]);
      for (int i = 0; i < 30; i++) {
        assertThat(few.strength()[i][j]).isEqualTo(all.strength()[i][j]);
      }
    }
    assertThat(few.background()[5]).isEqualTo(NETWORK.background()[5]);
  }

  @Test
  @DisplayName("has noise of mean 0 and standard deviation 0.5 on all log odds")
  void hasNoiseOfHalf() {
    List<Double> priors = new ArrayList<>();
    List<Double> backgrounds = new ArrayList<>();
    List<Double> strengths = new ArrayList<>();
    for (int draw = 0; draw < 400; draw++) {
      Network drawn = Redraw.draw(NETWORK, ALL, 11, draw);
      for (int i = 0; i < 30; i++) {
        priors.add(drawn.priorLogOdds()[i] - NETWORK.priorLogOdds()[i]);
        for (int j = 0; j < 20; j++) {
          double before = NETWORK.strength()[i][j];
          if (before == 0) {
            assertThat(drawn.strength()[i][j]).as("no link stays none").isZero();
          } else {
            strengths.add(Odds.log(drawn.strength()[i][j]) - Odds.log(before));
          }
        }
      }
      for (int j = 0; j < 20; j++) {
        backgrounds.add(Odds.log(drawn.background()[j]) - Odds.log(NETWORK.background()[j]));
      }
    }
    for (List<Double> noise : List.of(priors, backgrounds, strengths)) {
      // Four standard errors of the mean and of the standard deviation of so many normal numbers.
      double error = 4 * 0.5 / Math.sqrt(noise.size());
      double mean = noise.stream().mapToDouble(x -> x).average().orElseThrow();
      double square =
          noise.stream().mapToDouble(x -> (x - mean) * (x - mean)).average().orElseThrow();
      assertThat(mean).isCloseTo(0, within(error));
      assertThat(Math.sqrt(square)).isCloseTo(0.5, within(error / Math.sqrt(2)));
      long beyond = noise.stream().filter(x -> Math.abs(x) > 0.5 * 1.959964).count();
      assertThat(beyond / (double) noise.size())
          .as("share beyond 1.96 standard deviations")
          .isCloseTo(0.05, within(4 * Math.sqrt(0.05 * 0.95 / noise.size())));
    }
  }

  @Test
  @DisplayName("moves different numbers independently of each other")
  void movesNumbersIndependently() {
    int draws = 4000;
    double together = 0;
    double neighbours = 0;
    for (int draw = 0; draw < draws; draw++) {
      Network drawn = Redraw.draw(NETWORK, ALL, 13, draw);
      double prior = drawn.priorLogOdds()[0] - NETWORK.priorLogOdds()[0];
      double next = drawn.priorLogOdds()[1] - NETWORK.priorLogOdds()[1];
      double background = Odds.log(drawn.background()[0]) - Odds.log(NETWORK.background()[0]);
      together += prior * background;
      neighbours += prior * next;
    }
    double error = 4 / Math.sqrt(draws);
    assertThat(together / draws / 0.25).isCloseTo(0, within(error));
    assertThat(neighbours / draws / 0.25).isCloseTo(0, within(error));
  }

  private static double[] numbers(Network network) {
    return IntStream.range(0, network.causes().size())
        .boxed()
        .flatMapToDouble(
            i ->
                java.util.stream.DoubleStream.concat(
                    java.util.stream.DoubleStream.of(network.priorLogOdds()[i]),
                    java.util.Arrays.stream(network.strength()[i])))
        .toArray();
  }
}
