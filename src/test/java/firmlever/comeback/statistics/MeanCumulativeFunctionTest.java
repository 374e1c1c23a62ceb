package firmlever.comeback.statistics;

import static firmlever.comeback.statistics.Published.numbers;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class MeanCumulativeFunctionTest {
  private record Unit(double end, double[] returns) {}

  private static ReturnHistories fleet(List<Unit> units) {
    var counter = new ReturnHistories.Counter();
    units.forEach(u -> counter.add(u.end, u.returns));
    return counter.histories();
  }

  private static List<Unit> invented(Random random, int units) {
    var fleet = new ArrayList<Unit>();
    for (int i = 0; i < units; i++) {
      int end = random.nextInt(30);
      // Few different times, so that many returns are equal, even within a unit.
      double[] returns = random.ints(random.nextInt(4), 0, end + 1).mapToDouble(t -> t).toArray();
      fleet.add(new Unit(end, returns));
    }
    return fleet;
  }

  // Documentation of a public reliability library, recomputed (references 12.1): five systems.
  @Test
  void fiveSystemsAsPublished() {
    var function =
        MeanCumulativeFunction.of(
            fleet(
                List.of(
                    new Unit(17, numbers("5 10 15")),
                    new Unit(19, numbers("6 13 17")),
                    new Unit(26, numbers("12 20 25")),
                    new Unit(24, numbers("13 15")),
                    new Unit(28, numbers("16 22 25")))));
    double[] times = numbers("5 6 10 12 13 15 16 17 20 22 25");
    double[] means = numbers(".2 .4 .6 .8 1.2 1.6 1.8 2.0 2.33333 2.66667 3.66667");
    assertThat(function.steps()).hasSize(times.length);
    for (int i = 0; i < times.length; i++) {
      assertThat(function.steps().get(i).time()).isEqualTo(times[i]);
      assertThat(function.steps().get(i).mean()).isCloseTo(means[i], within(5e-6));
    }
    // The variances printed there, .032 .394074 .718148, take every return for independent; the
    // robust one is the same for the first return and smaller later, as these systems take turns.
    var first = function.steps().get(0);
    var atTwenty = function.steps().get(8);
    var last = function.steps().get(10);
    assertThat(first.varianceIfIndependent()).isCloseTo(0.032, within(1e-12));
    assertThat(atTwenty.varianceIfIndependent()).isCloseTo(0.394074, within(5e-7));
    assertThat(last.varianceIfIndependent()).isCloseTo(0.718148, within(5e-7));
    assertThat(first.variance()).isCloseTo(0.032, within(1e-12));
    assertThat(atTwenty.variance()).isCloseTo(0.189630, within(5e-7));
  }

  /** The definition, unit by unit (Lawless and Nadeau 1995), without any of the shortcuts. */
  private static double variance(List<Unit> units, double until) {
    var times =
        units.stream()
            .flatMapToDouble(u -> Arrays.stream(u.returns))
            .filter(t -> t <= until)
            .sorted()
            .distinct()
            .toArray();
    double variance = 0;
    for (var unit : units) {
      double sum = 0;
      for (double time : times) {
        if (unit.end >= time) {
          double atRisk = units.stream().filter(u -> u.end >= time).count();
          double all = units.stream().mapToDouble(u -> count(u, time)).sum();
          sum += (count(unit, time) - all / atRisk) / atRisk;
        }
      }
      variance += sum * sum;
    }
    return variance;
  }

  private static double count(Unit unit, double time) {
    return Arrays.stream(unit.returns).filter(t -> t == time).count();
  }

  @Test
  void varianceFollowsTheDefinition() {
    var random = new Random(8);
    for (int round = 0; round < 20; round++) {
      var units = invented(random, 1 + random.nextInt(25));
      for (var step : MeanCumulativeFunction.of(fleet(units)).steps()) {
        assertThat(step.variance()).isCloseTo(variance(units, step.time()), within(1e-12));
      }
    }
  }

  @Test
  void anySplitInAnyOrderGivesTheSameHistories() {
    var random = new Random(5);
    var units = invented(random, 400);
    var parts = Stream.generate(ReturnHistories.Counter::new).limit(4).toList();
    units.forEach(u -> parts.get(random.nextInt(4)).add(u.end, u.returns));
    var forwards =
        parts.stream()
            .map(ReturnHistories.Counter::histories)
            .reduce(ReturnHistories::plus)
            .orElseThrow();
    var backwards = parts.get(3).histories().plus(parts.get(2).histories());
    backwards = parts.get(1).histories().plus(backwards).plus(parts.get(0).histories());
    assertThat(forwards).isEqualTo(fleet(units)).isEqualTo(backwards);
    assertThat(forwards.units()).isEqualTo(400);
  }

  @Test
  void intervalSurroundsTheMean() {
    var step = new MeanCumulativeFunction.Step(30, 50, 2, 0.4, 0.01, 0.008);
    // 0.4 · exp(∓1.959964 · 0.1 / 0.4)
    assertThat(step.interval(0.95).low()).isCloseTo(0.2450528, within(5e-7));
    assertThat(step.interval(0.95).high()).isCloseTo(0.6529206, within(5e-7));
  }

  @Test
  void edges() {
    assertThat(MeanCumulativeFunction.of(fleet(List.of(new Unit(9, new double[0])))).steps())
        .isEmpty();
    assertThat(MeanCumulativeFunction.of(fleet(List.of())).steps()).isEmpty();
    assertThat(new ReturnHistories(new TreeMap<>(), new TreeMap<>(), new TreeMap<>()).units())
        .isZero();
    var counter = new ReturnHistories.Counter();
    assertThatThrownBy(() -> counter.add(5, 3, 7))
        .hasMessageContaining("7.0")
        .hasMessageContaining("5.0");
  }
}
