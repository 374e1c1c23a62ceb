package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.SurvivalCurve.Scale;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Invented data, and what R 4.2.2 with its package survival 3.5-3 says of them; written by
 * src/test/r/reference.R.
 */
class SecondOpinionTest {
  private static final List<String> EXPECTED = lines("expected.csv");

  private static final List<Proportion[]> TABLES =
      List.of(
          new Proportion[] {new Proportion(3, 20), new Proportion(30, 430)},
          new Proportion[] {new Proportion(9, 29), new Proportion(40, 611)},
          new Proportion[] {new Proportion(0, 15), new Proportion(12, 88)},
          new Proportion[] {new Proportion(25, 260), new Proportion(61, 377)});

  private static List<String> lines(String file) {
    var stream = Objects.requireNonNull(SecondOpinionTest.class.getResourceAsStream(file), file);
    try (var reader = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
      return reader.lines().skip(1).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double[] expected(String name) {
    double[] values =
        EXPECTED.stream()
            .map(line -> line.split(","))
            .filter(cells -> cells[0].equals(name))
            // R has no limits where the curve has reached 0.
            .mapToDouble(cells -> cells[2].equals("NA") ? Double.NaN : Double.parseDouble(cells[2]))
            .toArray();
    assertThat(values).as(name).isNotEmpty();
    return values;
  }

  private static LifeTable lives(int group) {
    var counter = new LifeTable.Counter();
    for (String line : lines("lives.csv")) {
      String[] cells = line.split(",");
      if (group == 0 || Integer.parseInt(cells[2]) == group) {
        counter.add(Double.parseDouble(cells[0]), cells[1].equals("1"));
      }
    }
    return counter.table();
  }

  private static <T> void assertValues(
      String name, List<T> ours, ToDoubleFunction<T> value, double relative) {
    double[] theirs = expected(name);
    assertThat(ours).as(name).hasSameSizeAs(theirs);
    for (int i = 0; i < theirs.length; i++) {
      if (!Double.isNaN(theirs[i])) {
        assertThat(value.applyAsDouble(ours.get(i)))
            .as("%s, row %d", name, i)
            .isCloseTo(theirs[i], within(relative * Math.max(1e-3, Math.abs(theirs[i]))));
      }
    }
  }

  @Test
  void survival() {
    var curve = SurvivalCurve.of(lives(0));
    var steps = curve.steps();
    assertThat(steps.get(steps.size() - 1).survival()).isZero();
    var positive = steps.subList(0, steps.size() - 1);
    assertValues("survival-time", steps, SurvivalCurve.Step::time, 0);
    assertValues("survival", steps, SurvivalCurve.Step::survival, 1e-12);
    assertThat(expected("survival-error")).hasSize(positive.size() + 1);
    assertValues("survival-error", steps, SurvivalCurve.Step::standardError, 1e-12);
    assertValues("plain-low", steps, s -> curve.interval(s.time(), 0.95, Scale.PLAIN).low(), 1e-12);
    assertValues(
        "plain-high", steps, s -> curve.interval(s.time(), 0.95, Scale.PLAIN).high(), 1e-12);
    assertValues(
        "log-log-low-90", steps, s -> curve.interval(s.time(), 0.9, Scale.LOG_LOG).low(), 1e-10);
    assertValues(
        "log-log-high-90", steps, s -> curve.interval(s.time(), 0.9, Scale.LOG_LOG).high(), 1e-10);
  }

  @Test
  void logRankOfFourGroups() {
    var test = LogRankTest.of(List.of(lives(1), lives(2), lives(3), lives(4)));
    assertValues("log-rank-expected", test.groups(), LogRankTest.Group::expected, 1e-12);
    assertValues("log-rank-variance", test.groups(), LogRankTest.Group::variance, 1e-12);
    assertValues(
        "log-rank",
        List.of(test.chiSquared(), (double) test.degrees(), test.chance()),
        v -> v,
        1e-11);
  }

  @Test
  void weibull() {
    var fit = WeibullFit.of(lives(0)).orElseThrow();
    assertValues("weibull", List.of(fit.shape(), fit.scale(), fit.logLikelihood()), v -> v, 1e-9);
    assertValues(
        "weibull-log-variances",
        List.of(fit.varianceLogShape(), fit.varianceLogScale(), fit.covarianceLogs()),
        v -> v,
        1e-7);
  }

  @Test
  void meanCumulativeFunction() {
    var counter = new ReturnHistories.Counter();
    for (String line : lines("histories.csv")) {
      double[] cells = Arrays.stream(line.split(",")).mapToDouble(Double::parseDouble).toArray();
      counter.add(cells[1], Arrays.copyOfRange(cells, 2, cells.length));
    }
    var steps = MeanCumulativeFunction.of(counter.histories()).steps();
    assertValues("returns-time", steps, MeanCumulativeFunction.Step::time, 0);
    assertValues("returns-mean", steps, MeanCumulativeFunction.Step::mean, 1e-12);
    assertValues("returns-error", steps, s -> Math.sqrt(s.variance()), 1e-10);
  }

  @Test
  void countsAndChances() {
    assertValues("fisher", TABLES, t -> ExactTest.fisher(t[0], t[1]), 1e-9);
    assertValues(
        "binomial", TABLES, t -> ExactTest.binomial(t[0], t[1].rate().orElseThrow()), 1e-9);
    assertValues(
        "poisson",
        TABLES,
        t -> ExactTest.poisson(t[0].events(), t[0].trials(), t[1].events(), t[1].trials()),
        1e-9);
    assertValues("wilson-low", TABLES, t -> t[0].wilson(0.95).low(), 1e-9);
    assertValues("wilson-high", TABLES, t -> t[0].wilson(0.95).high(), 1e-9);
    assertValues("exact-low", TABLES, t -> t[0].exact(0.95).low(), 1e-9);
    assertValues("exact-high", TABLES, t -> t[0].exact(0.95).high(), 1e-9);
    var chances = Arrays.stream(expected("chances")).boxed().toList();
    assertValues("chances-adjusted", FalseDiscovery.adjusted(chances), v -> v, 1e-12);
    assertThat(Stream.of("fisher", "binomial", "poisson")).allMatch(n -> expected(n).length == 4);
  }
}
