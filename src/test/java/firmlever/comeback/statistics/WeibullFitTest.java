package firmlever.comeback.statistics;

import static firmlever.comeback.statistics.Published.lives;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hipparchus.optim.InitialGuess;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.nonlinear.scalar.ObjectiveFunction;
import org.hipparchus.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.hipparchus.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.junit.jupiter.api.Test;

class WeibullFitTest {
  // Nelson 1982 p. 318 as printed in the SAS/QC user's guide, RELIABILITY procedure: 70 engine
  // fans.
  private static final LifeTable FANS =
      lives(
          "450 460+ 1150 1150 1560+ 1600 1660+ 1850+ 1850+ 1850+ 1850+ 1850+ 2030+ 2030+ 2030+"
              + " 2070 2070 2080 2200+ 3000+ 3000+ 3000+ 3000+ 3100 3200+ 3450 3750+ 3750+ 4150+"
              + " 4150+ 4150+ 4150+ 4300+ 4300+ 4300+ 4300+ 4600 4850+ 4850+ 4850+ 4850+ 5000+"
              + " 5000+ 5000+ 6100+ 6100 6100+ 6100+ 6300+ 6450+ 6450+ 6700+ 7450+ 7800+ 7800+"
              + " 8100+ 8100+ 8200+ 8500+ 8500+ 8500+ 8750+ 8750 8750+ 9400+ 9900+ 10100+ 10100+"
              + " 10100+ 11500+");

  // Reliability wiki example (references 12.3): sold 100, 140 and 150 in three months; returns by
  // age in months, and those still running at their age.
  private static final LifeTable SALES =
      new LifeTable(
          List.of(
              new LifeTable.Row(1, 3 + 2 + 4, 146),
              new LifeTable.Row(2, 3 + 4, 134),
              new LifeTable.Row(3, 5, 89)));

  // NIST/SEMATECH handbook 8.4.1.2 (from memory), recomputed in references 7.15.
  @Test
  void tenOfTwentyAsPublished() {
    var unfailed = Stream.generate(() -> "500+").limit(10).collect(Collectors.joining(" "));
    var fit =
        WeibullFit.of(lives("54 187 216 240 244 335 361 373 375 386 " + unfailed)).orElseThrow();
    assertThat(fit.shape()).isCloseTo(1.7208, within(5e-5));
    assertThat(fit.scale()).isCloseTo(606.5276, within(5e-4));
    assertThat(fit.logLikelihood()).isCloseTo(-75.1346, within(5e-5));
    assertThat(fit.failures()).isEqualTo(10);
  }

  // References 7.16, recomputed: shape 1.0584, scale 26.297 thousand hours, ln L −52.260 when the
  // unit is a thousand hours; exponential mean 28.703.
  @Test
  void fansAsPublished() {
    assertThat(FANS.units()).isEqualTo(70);
    assertThat(FANS.failures()).isEqualTo(12);
    var fit = WeibullFit.of(FANS).orElseThrow();
    assertThat(fit.shape()).isCloseTo(1.0584, within(5e-5));
    assertThat(fit.scale()).isCloseTo(26297, within(0.5));
    // A density in hours is a thousandth of that in thousands of hours, for each failure.
    assertThat(fit.logLikelihood() + 12 * Math.log(1000)).isCloseTo(-52.260, within(5e-4));
    double exponentialMean =
        FANS.rows().stream().mapToDouble(r -> r.time() * (r.failures() + r.losses())).sum()
            / FANS.failures();
    assertThat(exponentialMean).isCloseTo(28703, within(5.0));
  }

  // Reliability wiki, six complete lives (references 7.17, recomputed).
  @Test
  void completeLivesAsPublished() {
    var fit = WeibullFit.of(lives("96 257 498 763 1051 1744")).orElseThrow();
    assertThat(fit.shape()).isCloseTo(1.3064, within(5e-5));
    assertThat(fit.scale()).isCloseTo(796.34, within(5e-3));
  }

  // References 12.3: shape 2.4928, scale 6.6951 months, 28.6 returns expected next month.
  @Test
  void returnsBySalesMonthAsPublished() {
    var fit = WeibullFit.of(SALES).orElseThrow();
    assertThat(SALES.failures()).isEqualTo(21);
    assertThat(SALES.units()).isEqualTo(390);
    assertThat(fit.shape()).isCloseTo(2.4928, within(5e-5));
    assertThat(fit.scale()).isCloseTo(6.6951, within(5e-5));
  }

  @Test
  void noOtherShapeAndScaleAreLikelier() {
    var random = new Random(77);
    for (int round = 0; round < 15; round++) {
      double shape = 0.5 + 3 * random.nextDouble();
      var counter = new LifeTable.Counter();
      for (int i = 0; i < 60; i++) {
        double fails = Math.ceil(40 * Math.pow(-Math.log(random.nextDouble()), 1 / shape));
        double lost = 1 + random.nextInt(80);
        counter.add(Math.min(fails, lost), fails <= lost);
      }
      var table = counter.table();
      var fit = WeibullFit.of(table).orElseThrow();
      // Second opinion: a general optimiser of another library, on the likelihood itself.
      var best =
          new SimplexOptimizer(1e-15, 1e-14)
              .optimize(
                  new MaxEval(20_000),
                  new ObjectiveFunction(p -> logLikelihood(table, Math.exp(p[0]), Math.exp(p[1]))),
                  GoalType.MAXIMIZE,
                  new InitialGuess(new double[] {0, 3}),
                  new NelderMeadSimplex(2));
      assertThat(fit.logLikelihood()).isCloseTo(best.getValue(), within(1e-9));
      assertThat(fit.shape()).isCloseTo(Math.exp(best.getPoint()[0]), within(1e-5));
      assertThat(fit.scale()).isCloseTo(Math.exp(best.getPoint()[1]), within(1e-3));
    }
  }

  private static double logLikelihood(LifeTable table, double shape, double scale) {
    double sum = 0;
    for (var row : table.rows()) {
      double ratio = row.time() / scale;
      sum -= (row.failures() + row.losses()) * Math.pow(ratio, shape);
      sum += row.failures() * (Math.log(shape / scale) + (shape - 1) * Math.log(ratio));
    }
    return sum;
  }

  @Test
  void limitsCoverTheTruth() {
    var random = new Random(15);
    int fleets = 600;
    int shapeMisses = 0;
    for (int round = 0; round < fleets; round++) {
      var counter = new LifeTable.Counter();
      for (int i = 0; i < 300; i++) {
        double fails = 50 * Math.pow(-Math.log(random.nextDouble()), 1 / 1.6);
        counter.add(Math.min(fails, 45), fails <= 45);
      }
      var fit = WeibullFit.of(counter.table()).orElseThrow();
      shapeMisses += fit.shapeInterval(0.9).contains(1.6) ? 0 : 1;
    }
    assertThat(new Proportion(shapeMisses, fleets).exact(0.999).contains(0.1)).isTrue();
  }

  @Test
  void wholeTablesFitLikeTheirUnits() {
    // Ten times each unit: the same estimates, a tenth of the variance.
    var tenfold = LifeTable.EMPTY;
    for (int i = 0; i < 10; i++) {
      tenfold = tenfold.plus(FANS);
    }
    var one = WeibullFit.of(FANS).orElseThrow();
    var ten = WeibullFit.of(tenfold).orElseThrow();
    assertThat(ten.shape()).isCloseTo(one.shape(), within(1e-12));
    assertThat(ten.varianceLogShape()).isCloseTo(one.varianceLogShape() / 10, within(1e-10));
    assertThat(ten.varianceLogScale()).isCloseTo(one.varianceLogScale() / 10, within(1e-10));
  }

  @Test
  void withoutAnAnswerThereIsNone() {
    assertThat(WeibullFit.of(LifeTable.EMPTY)).isEmpty();
    assertThat(WeibullFit.of(lives("4+ 9+"))).isEmpty();
    assertThat(WeibullFit.of(lives("4+ 9 9"))).isEmpty();
    // One failure before longer lives is enough; a loss at 0 says nothing.
    assertThat(WeibullFit.of(lives("0+ 4 9+"))).isPresent();
    assertThatThrownBy(() -> WeibullFit.of(lives("0 4 9"))).hasMessageContaining("Maybe");
  }
}
