package firmlever.comeback.statistics;

import static firmlever.comeback.statistics.Published.lives;
import static firmlever.comeback.statistics.Published.numbers;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.SurvivalCurve.Scale;
import org.junit.jupiter.api.Test;

class SurvivalCurveTest {

  private static void assertSurvival(LifeTable table, String expected, double tolerance) {
    assertThat(
            SurvivalCurve.of(table).steps().stream()
                .mapToDouble(SurvivalCurve.Step::survival)
                .toArray())
        .containsExactly(numbers(expected), within(tolerance));
  }

  // NIST/SEMATECH handbook 8.2.1.5 (last three recomputed from its products).
  @Test
  void twentyUnitsAsPublished() {
    var curve =
        SurvivalCurve.of(
            lives(
                "10 32 56 98 122 181 50+ 100+ 125+ 150+"
                    + " 200+ 200+ 200+ 200+ 200+ 200+ 200+ 200+ 200+ 200+"));
    double[] expected = {0.95, 0.90, 0.8471, 0.7941, 0.7374, 0.6704};
    double[] times = {10, 32, 56, 98, 122, 181};
    for (int i = 0; i < times.length; i++) {
      assertThat(curve.survival(times[i])).isCloseTo(expected[i], within(5e-5));
    }
    assertThat(curve.survival(9.99)).isEqualTo(1);
    assertThat(curve.survival(1e9)).isEqualTo(curve.survival(181));
  }

  // Textbook p. 91, as quoted in scipy's test_survival.py.
  @Test
  void endsAtZeroAsPublished() {
    assertSurvival(
        lives("37 43 47 56 60 62 71 77 80 81", "0 0 1 1 0 0 0 1 1 1"),
        "1 1 .875 .75 .75 .75 .75 .5 .25 0",
        1e-15);
  }

  // Boston University BS704, as quoted in scipy's test_survival.py: a death at 8 comes before the
  // loss at 8.
  @Test
  void firstArmAsPublished() {
    assertSurvival(
        lives("8 12 26 14 21 27 8 32 20 40", "1 1 1 1 1 1 0 0 0 0"),
        ".9 .788 .675 .675 .54 .405 .27 .27 .27",
        5.1e-4);
  }

  // Same source, second arm.
  @Test
  void secondArmAsPublished() {
    assertSurvival(
        lives("33 28 41 48 48 25 37 48 25 43", "1 1 1 0 0 0 0 0 0 0"),
        "1 .875 .75 .75 .6 .6 .6",
        1e-15);
  }

  // Same source: 20 subjects with the half widths of 95 % limits by Greenwood.
  @Test
  void greenwoodAsPublished() {
    var table =
        lives(
            "24 3 11 19 24 13 14 2 18 17 24 21 12 1 10 23 6 5 9 17",
            "0 1 0 0 0 0 1 0 0 0 0 0 0 1 0 1 0 1 0 1");
    assertSurvival(
        table,
        ".95 .95 .897 .844 .844 .844 .844 .844 .844 .844 .76 .676 .676 .676 .676 .507 .507",
        5.1e-4);
    assertThat(
            SurvivalCurve.of(table).steps().stream()
                .mapToDouble(s -> 1.96 * s.standardError())
                .toArray())
        .containsExactly(
            numbers(
                ".096 .096 .135 .162 .162 .162 .162 .162 .162 .162 .214 .246 .246 .246 .246"
                    + " .341 .341"),
            within(5.1e-4));
  }

  // Freireich 1963 by R: curve of the drug arm (references 7.13).
  @Test
  void remissionAsPublished() {
    var drug = SurvivalCurve.of(Published.DRUG);
    assertThat(
            drug.steps().stream()
                .filter(s -> s.failures() > 0)
                .mapToDouble(SurvivalCurve.Step::survival)
                .toArray())
        .containsExactly(numbers(".8571 .8067 .7529 .6902 .6275 .5378 .4482"), within(5e-5));
  }

  @Test
  void intervalsAtTheEdges() {
    var curve = SurvivalCurve.of(lives("3 5+ 7 9"));
    for (var scale : Scale.values()) {
      assertThat(curve.interval(2, 0.95, scale)).isEqualTo(new Interval(1, 1));
      var last = curve.interval(8, 0.95, scale);
      assertThat(last.low()).isGreaterThanOrEqualTo(0);
      assertThat(curve.interval(9, 0.95, scale)).isEqualTo(new Interval(0, last.high()));
      assertThat(curve.interval(5, 0.8, scale).high())
          .isLessThanOrEqualTo(curve.interval(5, 0.95, scale).high());
    }
    assertThat(SurvivalCurve.of(LifeTable.EMPTY).interval(4, 0.95, Scale.LOG_LOG))
        .isEqualTo(new Interval(1, 1));
    var sudden = SurvivalCurve.of(lives("4 4 4"));
    assertThat(sudden.interval(4, 0.95, Scale.PLAIN)).isEqualTo(new Interval(0, 1));
  }
}
