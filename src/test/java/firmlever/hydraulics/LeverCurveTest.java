package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class LeverCurveTest {
  @Test
  @DisplayName("Pascal: 500 N on 5 mm moves 12 500 N on 25 mm, 2.5e7 Pa (OpenStax physics ch. 11)")
  void openStax() {
    double pressureMpa = 500 / Brake.areaMm2(5.00);
    assertThat(pressureMpa).isCloseTo(25.46, within(0.01)); // printed rounded as 2.5e7 Pa
    assertThat(pressureMpa * Brake.areaMm2(25.0)).isCloseTo(12_500, within(1e-6));
    Brake brake = sized(5, 1, 2 * Brake.areaMm2(25.0));
    assertThat(brake.pressureMpa(500)).isCloseTo(pressureMpa, within(1e-9));
    assertThat(brake.clampN(brake.pressureMpa(500))).isCloseTo(12_500, within(1e-6));
  }

  @Test
  @DisplayName(
      "Pascal: 500 N on 5 cm² is 1.0 MPa, 5000 N on 50 cm² (problem set, algebra.com 629556)")
  void fiveSquareCentimetres() {
    double boreMm = Math.sqrt(500 * 4 / Math.PI);
    Brake brake = sized(boreMm, 1, 2 * 5000);
    assertThat(brake.pressureMpa(500)).isCloseTo(1.0, within(1e-12));
    assertThat(brake.clampN(1.0)).isCloseTo(5000, within(1e-9));
  }

  private static Brake sized(double leverBoreMm, double ratio, double pistonAreaMm2) {
    Brake rear = SoundBrakes.rear();
    return new Brake(
        leverBoreMm,
        ratio,
        pistonAreaMm2,
        rear.hoseLengthMm(),
        rear.hoseBoreMm(),
        rear.hoseSoftness(),
        rear.fluid(),
        rear.fixedVolumeMl(),
        rear.pistonDepthMm(),
        rear.caliperGiveMmPerMpa(),
        rear.bladeFlexMmPerN(),
        rear.deadTravelMm(),
        rear.contactPressureMpa());
  }

  /** A brake of which no two figures are alike. */
  private static final Brake ODD =
      new Brake(9, 5, 700, 1200, 2, 0.003, FluidGrade.MINERAL_OIL, 1.1, 4, 0.005, 0.02, 1.7, 0.05);

  private static final Condition ODD_STATE = new Condition(0.13, 0.2, 0.004, 0, 20, 0.1);

  @Test
  @DisplayName("volumes and give of an odd brake, worked by hand")
  void volumes() {
    assertThat(ODD.hoseVolumeMl()).isCloseTo(3.7699112, within(1e-6));
    assertThat(ODD.volumeMl()).isCloseTo(7.6699112, within(1e-6));
    assertThat(ODD.systemVolumeMl()).isCloseTo(11.6699112, within(1e-6));
    assertThat(ODD.hoseGiveMlPerMpa()).isCloseTo(0.0036, within(1e-12));
    assertThat(ODD.giveMlPerMpa(20)).isCloseTo(0.0117204284, within(1e-9));
  }

  @Test
  @DisplayName(
      "throws of an odd brake, worked by hand: firm, before contact, after five, off centre")
  void throwsByHand() {
    assertThat(LeverCurve.throwMm(ODD, ODD_STATE, 80)).isCloseTo(32.129335, within(1e-5));
    assertThat(LeverCurve.throwMm(ODD, ODD_STATE, 0.4)).isCloseTo(10.478015, within(1e-5));
    assertThat(HandReading.throwAfterFiveMm(ODD, ODD_STATE, 80, new Pumping(0.6, 0.25)))
        .isCloseTo(27.646799, within(1e-5));
    Condition off = with(ODD_STATE, 0.3, 20);
    double firmMm = LeverCurve.throwMm(ODD, off, 80) - LeverCurve.throwMm(ODD, ODD_STATE, 80);
    assertThat(firmMm).as("half the area times 0.3 mm").isCloseTo(8.252479, within(1e-5));
    double lightMm = LeverCurve.throwMm(ODD, off, 5) - LeverCurve.throwMm(ODD, ODD_STATE, 5);
    assertThat(lightMm).isCloseTo(7.864172, within(1e-5));
  }

  @Test
  @DisplayName("pumping shares lie between their bounds, in proportion")
  void pumpingShares() {
    assertThat(Pumping.between(0, 0)).isEqualTo(new Pumping(0.2, 0));
    assertThat(Pumping.between(1, 1)).isEqualTo(new Pumping(1, 0.8));
    assertThat(Pumping.between(0.25, 0.5)).isEqualTo(new Pumping(0.4, 0.4));
  }

  @Test
  @DisplayName(
      "a sound bicycle hose swells under a tenth of a motor hose's limit: 49 CFR 571.106 Table I,"
          + " bore up to 3 mm, low expansion, 0.33 mL/ft at 1000 psi")
  void stifferThanAMotorHose() {
    Brake brake = SoundBrakes.rear();
    double limitMl = 0.33 / 0.3048 * brake.hoseLengthMm() / 1000;
    assertThat(brake.hoseGiveMlPerMpa() * Units.mpaFromPsi(1000))
        .isPositive()
        .isLessThan(limitMl / 10);
  }

  @Test
  @DisplayName("a sound rear brake: contact in 5 to 8 mm, firm at 100 N in 9 to 13 mm, at rest 0")
  void soundBrake() {
    Brake brake = SoundBrakes.rear();
    assertThat(LeverCurve.throwMm(brake, Condition.sound(), 0)).isZero();
    assertThat(HandReading.throwAtContactMm(brake, Condition.sound())).isBetween(5.0, 8.0);
    assertThat(LeverCurve.throwMm(brake, Condition.sound(), 100)).isBetween(9.0, 13.0);
    assertThat(brake.volumeMl()).isBetween(7.0, 14.0);
  }

  @Test
  @DisplayName("1 mL of gas costs 70 mm of throw at 100 N: the lever is on the bar")
  void oneMillilitreOfGas() {
    Brake brake = SoundBrakes.rear();
    double lostMm =
        LeverCurve.throwMm(brake, Condition.sound().withGasMl(1), 100)
            - LeverCurve.throwMm(brake, Condition.sound(), 100);
    // travel per mL 71.3 mm, and 98.6 % of it squeezed at 7.1 MPa (Boyle)
    assertThat(lostMm).isCloseTo(71.30 * 0.98599, within(0.05));
  }

  @Test
  @DisplayName(
      "throw grows with force, gas, gap, give, off-centre and warmth, and shrinks by pumping")
  void monotone() {
    RandomBrakes brakes = new RandomBrakes(53, false);
    for (int n = 0; n < 2000; n++) {
      RandomBrakes.Sample sample = brakes.next();
      Brake brake = sample.brake();
      Condition now = sample.condition();
      double forceN = brakes.between(1, 200);
      double mm = LeverCurve.throwMm(brake, now, forceN);
      assertThat(LeverCurve.throwMm(brake, now, forceN + 5)).isGreaterThan(mm);
      assertThat(LeverCurve.throwMm(brake, now.withGasMl(now.gasMl() + 0.05), forceN))
          .isGreaterThan(mm);
      assertThat(LeverCurve.throwMm(brake, now.withClearanceMm(now.clearanceMm() + 0.1), forceN))
          .isGreaterThan(mm);
      assertThat(
              LeverCurve.throwMm(brake, now.withAddedGive(now.addedGiveMlPerMpa() + 0.01), forceN))
          .isGreaterThan(mm);
      assertThat(LeverCurve.throwMm(brake, with(now, 0.3, now.temperatureC()), forceN))
          .isGreaterThan(mm);
      assertThat(LeverCurve.throwMm(brake, with(now, 0, now.temperatureC() + 30), forceN))
          .isGreaterThan(mm);
      assertThat(HandReading.throwAfterFiveMm(brake, now, forceN, Pumping.between(0.5, 0.5)))
          .isLessThanOrEqualTo(mm);
    }
  }

  private static Condition with(Condition now, double offCentreMm, double temperatureC) {
    return new Condition(
        now.gasMl(),
        now.clearanceMm(),
        now.addedGiveMlPerMpa(),
        offCentreMm,
        temperatureC,
        now.ambientMpa());
  }
}
