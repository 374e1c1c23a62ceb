package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The stated interval holds the truth of brakes that the estimator's own spreads did not make. */
class ThrowCoverageTest {
  private static final int BRAKES = 10_000;
  private static final FeelLimits LIMITS = FeelLimits.common(OptionalDouble.empty());

  @Test
  @DisplayName("10 000 random brakes, sizes and readings partly missing: each interval holds 95 %")
  void holdsTheTruthWhateverIsMissing() {
    Tallies all = run(new RandomBrakes(20_261_125, false));
    all.assertCoverage();
    assertThat(all.gas.medianWidth()).as("gas, mL").isLessThan(0.36);
    assertThat(all.gas.medianError()).as("gas, mL").isLessThan(0.07);
    assertThat(all.gap.medianError()).as("gap, mm").isLessThan(0.06);
  }

  @Test
  @DisplayName("10 000 random brakes, sizes known, light and two firm pulls: 95 %, and narrower")
  void holdsTheTruthMoreNarrowlyWhenMeasured() {
    Tallies all = run(new RandomBrakes(4_711, true));
    all.assertCoverage();
    assertThat(all.gas.medianWidth()).as("gas, mL").isLessThan(0.25);
    assertThat(all.gas.medianError()).as("gas, mL").isLessThan(0.05);
  }

  @Test
  @DisplayName(
      "10 000 random brakes: spongy-lever is as likely as stated; what is called gas is gas")
  void saysWhatItKnows() {
    RandomBrakes brakes = new RandomBrakes(977, false);
    int[] stated = new int[5];
    int[] soft = new int[5];
    int gas = 0;
    int trulyGas = 0;
    int give = 0;
    int trulyGive = 0;
    for (int n = 0; n < BRAKES; n++) {
      RandomBrakes.Sample sample = brakes.next();
      ThrowEstimate estimate = estimate(sample);
      double gasMm = gasTravelMm(sample);
      double giveMm =
          sample.brake().throwMmPerMl()
              * sample.condition().addedGiveMlPerMpa()
              * sample.brake().pressureMpa(sample.forceN());
      int fifth = (int) (estimate.findings().get(0).ifPresent() * 5);
      stated[fifth]++;
      soft[fifth] += gasMm + giveMm > LIMITS.softMm() ? 1 : 0;
      if (estimate.meaning() == ThrowEstimate.Meaning.GAS) {
        gas++;
        trulyGas += gasMm > giveMm ? 1 : 0;
      } else if (estimate.meaning() == ThrowEstimate.Meaning.GIVE) {
        give++;
        trulyGive += giveMm > gasMm ? 1 : 0;
      }
    }
    for (int fifth = 0; fifth < 5; fifth++) {
      assertThat((double) soft[fifth] / stated[fifth])
          .as("soft where a likelihood of %.1f to %.1f is stated", fifth / 5.0, (fifth + 1) / 5.0)
          .isCloseTo((fifth + 0.5) / 5, within(0.2));
    }
    assertThat((double) trulyGas / gas).as("of %d called gas", gas).isGreaterThan(0.94);
    assertThat((double) trulyGive / give).as("of %d called give", give).isGreaterThan(0.9);
    assertThat(gas).isGreaterThan(4_000);
    assertThat(give).isGreaterThan(100);
  }

  private static double gasTravelMm(RandomBrakes.Sample sample) {
    Brake brake = sample.brake();
    Condition none = sample.condition().withGasMl(0);
    double firm =
        LeverCurve.throwMm(brake, sample.condition(), sample.forceN())
            - LeverCurve.throwMm(brake, none, sample.forceN());
    double contact =
        HandReading.throwAtContactMm(brake, sample.condition())
            - HandReading.throwAtContactMm(brake, none);
    return firm - contact;
  }

  private static Tallies run(RandomBrakes brakes) {
    Tallies all = new Tallies();
    for (int n = 0; n < BRAKES; n++) {
      RandomBrakes.Sample sample = brakes.next();
      ThrowEstimate estimate = estimate(sample);
      all.gas.add(n, estimate, sample.condition());
      all.gap.add(n, estimate, sample.condition());
      all.give.add(n, estimate, sample.condition());
      all.fits += estimate.fits() ? 1 : 0;
    }
    return all;
  }

  /** Gas, gap and added give together. */
  private static final class Tallies {
    final Tally gas = new Tally(ThrowEstimate::gasMl, Condition::gasMl);
    final Tally gap = new Tally(ThrowEstimate::clearanceMm, Condition::clearanceMm);
    final Tally give = new Tally(ThrowEstimate::addedGiveMlPerMpa, Condition::addedGiveMlPerMpa);
    int fits;

    void assertCoverage() {
      assertThat(gas.coverage()).as("gas of %s", this).isGreaterThanOrEqualTo(0.95);
      assertThat(gap.coverage()).as("gap of %s", this).isGreaterThanOrEqualTo(0.95);
      assertThat(give.coverage()).as("added give of %s", this).isGreaterThanOrEqualTo(0.95);
      assertThat(fits).as("readings of credible brakes are believed").isGreaterThan(9_900);
    }

    @Override
    public String toString() {
      return "gas in mL: %s; gap in mm: %s; added give in mL/MPa: %s; believed %d"
          .formatted(gas, gap, give, fits);
    }
  }

  static ThrowEstimate estimate(RandomBrakes.Sample sample) {
    Condition condition = sample.condition();
    return ThrowEstimate.of(
            BrakeDefaults.fill(sample.known()),
            sample.readings(),
            condition.ambientMpa(),
            condition.temperatureC(),
            LIMITS)
        .orElseThrow();
  }

  /** Counts hits and widths of one quantity. */
  private static final class Tally {
    private final Function<ThrowEstimate, Interval> stated;
    private final ToDoubleFunction<Condition> truth;
    private final double[] widths = new double[BRAKES];
    private final double[] errors = new double[BRAKES];
    private int held;

    Tally(Function<ThrowEstimate, Interval> stated, ToDoubleFunction<Condition> truth) {
      this.stated = stated;
      this.truth = truth;
    }

    void add(int n, ThrowEstimate estimate, Condition condition) {
      Interval interval = stated.apply(estimate);
      double value = truth.applyAsDouble(condition);
      held += value >= interval.low() && value <= interval.high() ? 1 : 0;
      widths[n] = interval.width();
      errors[n] = Math.abs(interval.best() - value);
    }

    double coverage() {
      return (double) held / BRAKES;
    }

    double medianWidth() {
      return median(widths);
    }

    double medianError() {
      return median(errors);
    }

    private static double median(double[] values) {
      return Arrays.stream(values).sorted().toArray()[BRAKES / 2];
    }

    @Override
    public String toString() {
      return "held %.4f, median width %.4f, median error %.4f"
          .formatted(coverage(), medianWidth(), medianError());
    }
  }
}
