package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.hydraulics.ThrowEstimate.Meaning;
import firmlever.hydraulics.ThrowEstimate.Reading;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ThrowEstimateTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();
  private static final FeelLimits LIMITS = FeelLimits.common(NONE);

  private static ThrowEstimate estimate(Readings readings) {
    return estimate(SoundBrakes.knownRear(), readings);
  }

  private static ThrowEstimate estimate(KnownBrake known, Readings readings) {
    return ThrowEstimate.of(BrakeDefaults.fill(known), readings, Air.SEA_LEVEL_MPA, 20, LIMITS)
        .orElseThrow();
  }

  /** Readings that a brake in this condition gives, without error. */
  private static Readings exact(Condition condition, double... forcesN) {
    Brake brake = SoundBrakes.rear();
    List<Readings.Pull> pulls =
        Arrays.stream(forcesN)
            .mapToObj(n -> new Readings.Pull(LeverCurve.throwMm(brake, condition, n), n))
            .toList();
    OptionalDouble light = OptionalDouble.of(HandReading.throwAtContactMm(brake, condition));
    return Readings.of(light, pulls, NONE, NONE);
  }

  private static double ifPresent(ThrowEstimate estimate, String symptom) {
    return estimate.findings().stream()
        .filter(finding -> finding.symptom().equals(symptom))
        .findFirst()
        .orElseThrow()
        .ifPresent();
  }

  @Test
  @DisplayName("no throw, no estimate")
  void nothingRead() {
    Readings creepOnly = Readings.of(NONE, List.of(), NONE, OptionalDouble.of(3));
    assertThat(
            ThrowEstimate.of(
                BrakeDefaults.fill(SoundBrakes.knownRear()), creepOnly, 0.1, 20, LIMITS))
        .isEmpty();
  }

  @Test
  @DisplayName("a sound brake is called sound")
  void sound() {
    ThrowEstimate estimate = estimate(exact(Condition.sound(), 100, 30));
    assertThat(estimate.meaning()).isEqualTo(Meaning.SOUND);
    assertThat(estimate.gasMl().low()).isZero();
    assertThat(estimate.gasMl().high()).isLessThan(0.15);
    assertThat(ifPresent(estimate, "spongy-lever")).isLessThan(0.15);
    assertThat(estimate.wouldTell()).isEmpty();
    assertThat(estimate.fits()).isTrue();
  }

  @Test
  @DisplayName("0.3 mL of gas is found and called gas")
  void gas() {
    ThrowEstimate estimate = estimate(exact(Condition.sound().withGasMl(0.3), 100, 30));
    assertThat(estimate.meaning()).isEqualTo(Meaning.GAS);
    assertThat(0.3).isBetween(estimate.gasMl().low(), estimate.gasMl().high());
    assertThat(estimate.gasMl().low()).isGreaterThan(0.1);
    assertThat(ifPresent(estimate, "spongy-lever")).isGreaterThan(0.9);
    assertThat(ifPresent(estimate, "long-throw")).isGreaterThan(0.95);
  }

  @Test
  @DisplayName(
      "a soft hose, pulled at three forces, is called give; the finger would feel it swell")
  void give() {
    double give = 3 * SoundBrakes.rear().giveMlPerMpa(20);
    ThrowEstimate estimate = estimate(exact(Condition.sound().withAddedGive(give), 100, 30, 200));
    assertThat(estimate.meaning()).isEqualTo(Meaning.GIVE);
    assertThat(estimate.addedGiveMlPerMpa().low()).isPositive();
    assertThat(ifPresent(estimate, "hose-swells")).isGreaterThan(0.8);
  }

  @Test
  @DisplayName("long before contact and firm after: pads and pistons, not gas")
  void clearance() {
    ThrowEstimate estimate = estimate(exact(Condition.sound().withClearanceMm(0.4), 100, 30));
    assertThat(estimate.meaning()).isEqualTo(Meaning.CLEARANCE);
    assertThat(0.4).isBetween(estimate.clearanceMm().low(), estimate.clearanceMm().high());
    assertThat(ifPresent(estimate, "spongy-lever")).isLessThan(0.5);
  }

  @Test
  @DisplayName(
      "one firm pull cannot tell gas from give; it says so and names the reading that would")
  void cannotTell() {
    Brake brake = SoundBrakes.rear();
    double give = 1.5 * brake.giveMlPerMpa(20);
    Condition soft = Condition.sound().withAddedGive(give);
    ThrowEstimate one = estimate(exact(soft, 100));
    assertThat(one.meaning()).isEqualTo(Meaning.GAS_OR_GIVE);
    ThrowEstimate.NextReading next = one.wouldTell().orElseThrow();
    assertThat(next.reading()).isEqualTo(Reading.THROW_AT_FORCE);
    ThrowEstimate two = estimate(exact(soft, 100, next.forceN()));
    assertThat(two.gasRatherThanGive()).isLessThan(one.gasRatherThanGive());
    assertThat(two.gasMl().width()).isLessThan(one.gasMl().width());
  }

  @Test
  @DisplayName("what is not known of the brake widens the interval and is named")
  void unknownBrake() {
    Readings readings = exact(Condition.sound().withGasMl(0.2), 100);
    ThrowEstimate known = estimate(readings);
    ThrowEstimate unknown =
        estimate(SoundBrakes.unknown(KnownBrake.End.UNKNOWN, FluidGrade.UNKNOWN), readings);
    assertThat(unknown.gasMl().width()).isGreaterThan(known.gasMl().width());
    assertThat(unknown.assumptions()).isNotEmpty();
    assertThat(known.assumptions()).isEmpty();
  }

  @Test
  @DisplayName("near its limit a reading says little, far from it much")
  void softEvidence() {
    assertThat(sinks(2.0)).isBetween(0.45, 0.55);
    assertThat(sinks(6.0)).isGreaterThan(0.99);
    assertThat(sinks(0.0)).isLessThan(0.01);
    assertThat(sinks(2.3)).isBetween(sinks(2.0), sinks(3.0));
  }

  private static double sinks(double creepMm) {
    Readings readings =
        Readings.of(OptionalDouble.of(7), List.of(), NONE, OptionalDouble.of(creepMm));
    return ifPresent(estimate(readings), "lever-sinks");
  }

  @Test
  @DisplayName("after five strokes 7 mm shorter: it pumps up; 0.5 mm: it does not")
  void pumpsUp() {
    List<Readings.Pull> pull = List.of(new Readings.Pull(19, 100));
    OptionalDouble light = OptionalDouble.of(8);
    ThrowEstimate much = estimate(Readings.of(light, pull, OptionalDouble.of(12), NONE));
    ThrowEstimate little = estimate(Readings.of(light, pull, OptionalDouble.of(18.5), NONE));
    assertThat(ifPresent(much, "pumps-up")).isGreaterThan(0.99);
    assertThat(ifPresent(little, "pumps-up")).isLessThan(0.01);
  }

  @Test
  @DisplayName("a firm throw far shorter than the light one fits no brake: measure again")
  void contradiction() {
    List<Readings.Pull> pull = List.of(new Readings.Pull(6, 100));
    ThrowEstimate estimate = estimate(Readings.of(OptionalDouble.of(25), pull, NONE, NONE));
    assertThat(estimate.fits()).isFalse();
    assertThat(estimate.gasMl().best()).isFinite();
  }

  @Test
  @DisplayName("absurd readings never crash and never give numbers that are none")
  void absurdReadings() {
    for (double mm : new double[] {0, 1e-9, 300, 1e6}) {
      for (double forceN : new double[] {-5, 0, 1e-3, 1e9}) {
        List<Readings.Pull> pull = List.of(new Readings.Pull(mm, forceN));
        ThrowEstimate estimate = estimate(Readings.of(NONE, pull, OptionalDouble.of(mm), NONE));
        assertThat(estimate.gasMl().low()).isFinite().isNotNegative();
        assertThat(estimate.gasMl().high()).isFinite();
        assertThat(estimate.clearanceMm().high()).isFinite();
      }
    }
  }

  @Test
  @DisplayName("the fitted brake's own curve passes through the readings, within the ruler's error")
  void fittedCurve() {
    RandomBrakes brakes = new RandomBrakes(67, true);
    for (int n = 0; n < 500; n++) {
      RandomBrakes.Sample sample = brakes.next();
      Fitted fitted = ThrowCoverageTest.estimate(sample).fitted();
      double light = HandReading.throwAtContactMm(fitted.brake(), fitted.condition());
      assertThat(light).isCloseTo(sample.readings().lightMm().orElseThrow(), within(2.5));
      for (Readings.Pull pull : sample.readings().firm()) {
        double mm = LeverCurve.throwMm(fitted.brake(), fitted.condition(), pull.forceN());
        assertThat(mm).isCloseTo(pull.throwMm(), within(3.5)); // ruler, and scale off by 10 %
      }
    }
  }

  @Test
  @DisplayName("a useless ruler leaves what was held beforehand: half-normal gas, wide gap")
  void uselessRuler() {
    Readings useless = new Readings(OptionalDouble.of(7), List.of(), NONE, NONE, 1e7, 0.1);
    ThrowEstimate estimate = estimate(useless);
    assertThat(estimate.gasMl().low()).isZero();
    assertThat(estimate.gasMl().best()).isCloseTo(0.4 * 0.6745, within(0.004));
    assertThat(estimate.gasMl().high()).isCloseTo(0.4 * 2.2414, within(0.03));
    // N(0.15, 0.20²) held above 0: median where half of the upper 0.7734 is passed, z 0.2878
    assertThat(estimate.clearanceMm().best()).isCloseTo(0.2076, within(0.004));
    double own = SoundBrakes.rear().giveMlPerMpa(20);
    assertThat(estimate.addedGiveMlPerMpa().best()).isCloseTo(own * 0.6745, within(own * 0.01));
    assertThat(estimate.addedGiveMlPerMpa().low()).isZero();
    assertThat(estimate.clearanceMm().low()).isZero();
  }

  @Test
  @DisplayName("with no reading after five strokes, a wide gap is expected to pump up")
  void expectsPumping() {
    ThrowEstimate wide = estimate(exact(Condition.sound().withClearanceMm(0.4), 100, 30));
    ThrowEstimate sound = estimate(exact(Condition.sound(), 100, 30));
    assertThat(ifPresent(wide, "pumps-up")).isGreaterThan(0.8);
    assertThat(ifPresent(sound, "pumps-up")).isLessThan(0.1);
    assertThat(ifPresent(sound, "hose-swells")).isLessThan(0.2);
  }

  @ParameterizedTest(name = "light throw known: {0}")
  @ValueSource(booleans = {false, true})
  @DisplayName("the reading named as telling most narrows the doubt more than the others do")
  void namesTheBestReading(boolean lightKnown) {
    RandomBrakes brakes = new RandomBrakes(71, true);
    double named = 0;
    double others = 0;
    double promised = 0;
    int otherCount = 0;
    int unclear = 0;
    for (int n = 0; n < 1500; n++) {
      RandomBrakes.Sample sample = brakes.next();
      Readings.Pull one = sample.readings().firm().get(0);
      OptionalDouble light = lightKnown ? sample.readings().lightMm() : NONE;
      ThrowEstimate before = estimateOf(sample, Readings.of(light, List.of(one), NONE, NONE));
      if (before.wouldTell().isEmpty()) {
        continue;
      }
      unclear++;
      ThrowEstimate.NextReading told = before.wouldTell().orElseThrow();
      assertThat(told.settles()).isBetween(0.0, 1.0);
      promised += told.settles();
      for (double part : new double[] {0.3, 2.5, 0}) {
        double forceN = Math.min(part * one.forceN(), 178);
        ThrowEstimate after = estimateOf(sample, withOneMore(sample, light, one, forceN));
        double left = doubt(after) / doubt(before);
        boolean isNamed =
            part == 0
                ? told.reading() == Reading.THROW_LIGHT
                : told.reading() == Reading.THROW_AT_FORCE
                    && Math.abs(told.forceN() - forceN) < 1e-9;
        if (isNamed) {
          named += left * left;
        } else {
          others += left * left;
          otherCount++;
        }
      }
    }
    assertThat(unclear).isGreaterThan(150);
    assertThat(named / unclear).as("doubt left").isLessThan(others / otherCount - 0.1);
    assertThat(1 - named / unclear).as("as promised").isCloseTo(promised / unclear, within(0.2));
  }

  private static double doubt(ThrowEstimate estimate) {
    return estimate.gasTravelMm().width() + estimate.giveTravelMm().width();
  }

  private static ThrowEstimate estimateOf(RandomBrakes.Sample sample, Readings readings) {
    return ThrowEstimate.of(
            BrakeDefaults.fill(sample.known()),
            readings,
            sample.condition().ambientMpa(),
            sample.condition().temperatureC(),
            LIMITS)
        .orElseThrow();
  }

  /** Adds a pull at another force, or the throw at contact where the force is 0. */
  private static Readings withOneMore(
      RandomBrakes.Sample sample, OptionalDouble light, Readings.Pull one, double forceN) {
    Brake brake = sample.brake();
    if (forceN == 0) {
      double mm = HandReading.throwAtContactMm(brake, sample.condition());
      return Readings.of(OptionalDouble.of(mm), List.of(one), NONE, NONE);
    }
    double mm = LeverCurve.throwMm(brake, sample.condition(), forceN);
    return Readings.of(light, List.of(one, new Readings.Pull(mm, forceN)), NONE, NONE);
  }

  @Test
  @DisplayName("a maker's throw takes the place of the common limit")
  void makersThrow() {
    assertThat(FeelLimits.common(OptionalDouble.of(14)).makersThrowMm()).hasValue(14);
    assertThat(LIMITS).isEqualTo(new FeelLimits(NONE, 2, 3, 4));
  }

  @Test
  @DisplayName("a pull by feel leaves the give less certain than one with a scale")
  void byFeel() {
    Readings weighed = exact(Condition.sound().withAddedGive(0.012), 100, 30);
    ThrowEstimate felt = estimate(weighed.byFeel());
    assertThat(felt.giveTravelMm().width()).isGreaterThan(estimate(weighed).giveTravelMm().width());
  }

  @Test
  @DisplayName("the same readings give the same answer, and longer throws more gas")
  void sameAndMonotone() {
    RandomBrakes brakes = new RandomBrakes(61, false);
    for (int n = 0; n < 300; n++) {
      RandomBrakes.Sample sample = brakes.next();
      assertThat(ThrowCoverageTest.estimate(sample)).isEqualTo(ThrowCoverageTest.estimate(sample));
    }
    double before = -1;
    for (double mm = 14; mm < 40; mm += 3) {
      List<Readings.Pull> pull = List.of(new Readings.Pull(mm, 100));
      double best = estimate(Readings.of(OptionalDouble.of(10), pull, NONE, NONE)).gasMl().best();
      assertThat(best).isGreaterThan(before);
      before = best;
    }
  }
}
