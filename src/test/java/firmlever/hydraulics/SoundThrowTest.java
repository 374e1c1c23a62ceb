package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.UnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The range of sound throws, against brakes that its own spreads did not make. */
@DisplayName("How far sound brakes of a kind go")
class SoundThrowTest {
  private static final int BRAKES = 10_000;
  private static final double BY_SCALE = 0.10;
  private static final double BY_FEEL = 0.40;

  /** Shares of brakes below, within and above the range. */
  private record Shares(double below, double within, double above) {}

  /**
   * Sound brakes, a gap of 0.06 to 0.15 mm at each piston, and what is made of them.
   *
   * @param scaleErrorShare how far the true force is off the stated one either way, as a share
   */
  private static Shares shares(
      RandomBrakes brakes, double scaleErrorShare, UnaryOperator<Condition> fault) {
    int below = 0;
    int above = 0;
    for (int n = 0; n < BRAKES; n++) {
      RandomBrakes.Sample sample = brakes.next();
      Condition sound =
          sample
              .condition()
              .withGasMl(0)
              .withAddedGive(0)
              .withClearanceMm(brakes.between(0.06, 0.15));
      double trulyN = sample.forceN() * brakes.between(1 - scaleErrorShare, 1 + scaleErrorShare);
      double mm = LeverCurve.throwMm(sample.brake(), fault.apply(sound), trulyN);
      Interval range =
          SoundThrow.of(
                  BrakeDefaults.fill(sample.known()),
                  sample.forceN(),
                  scaleErrorShare,
                  sound.temperatureC())
              .mm();
      below += mm < range.low() ? 1 : 0;
      above += mm > range.high() ? 1 : 0;
    }
    double each = 1.0 / BRAKES;
    return new Shares(below * each, (BRAKES - below - above) * each, above * each);
  }

  @Test
  @DisplayName("10 000 random sound brakes, sizes partly missing: 93 to 97 of 100 lie within")
  void holdsSoundBrakes() {
    Shares shares = shares(new RandomBrakes(20_261_126, false), BY_SCALE, c -> c);
    assertThat(shares.within()).as("%s", shares).isBetween(0.93, 0.97);
  }

  @Test
  @DisplayName("the same with all sizes on record and right: 93 of 100 and more, and not all")
  void holdsSoundBrakesOnRecord() {
    Shares shares = shares(new RandomBrakes(4_712, true), BY_SCALE, c -> c);
    assertThat(shares.within()).as("%s", shares).isBetween(0.93, 0.99);
  }

  @Test
  @DisplayName("the same pulled by feel, up to 40 % off")
  void holdsSoundBrakesPulledByFeel() {
    Shares shares = shares(new RandomBrakes(4_713, false), BY_FEEL, c -> c);
    assertThat(shares.within()).as("%s", shares).isBetween(0.93, 0.99);
  }

  @Test
  @DisplayName("half a millilitre of gas is called long in 99 of 100 brakes, whatever is on record")
  void gasIsLong() {
    assertLong(0.99, 4_714, true, c -> c.withGasMl(0.5));
    assertLong(0.99, 4_714, false, c -> c.withGasMl(0.5));
  }

  @Test
  @DisplayName(
      "a gap of 0.4 mm at worn pads is called long in 99 of 100 brakes on record, 95 of all")
  void wornPadsAreLong() {
    assertLong(0.99, 4_715, true, c -> c.withClearanceMm(0.4));
    assertLong(0.95, 4_715, false, c -> c.withClearanceMm(0.4));
  }

  private static void assertLong(
      double share, long seed, boolean onRecord, UnaryOperator<Condition> fault) {
    Shares shares = shares(new RandomBrakes(seed, onRecord), BY_SCALE, fault);
    assertThat(shares.above()).as("seed %d, %s", seed, shares).isGreaterThan(share);
  }

  @Test
  @DisplayName("a sound rear brake of usual sizes lies within; more force goes further")
  void usual() {
    AssumedBrake rear = BrakeDefaults.fill(SoundBrakes.knownRear());
    SoundThrow at100 = SoundThrow.of(rear, 100, BY_SCALE, 20);
    assertThat(SoundThrow.of(rear, 100, BY_SCALE, 20)).as("drawn in fixed order").isEqualTo(at100);
    double mm = LeverCurve.throwMm(rear.middle(), Condition.sound(), 100);
    double contactMm = HandReading.throwAtContactMm(rear.middle(), Condition.sound());
    assertThat(mm).as("%s holds %.1f mm", at100, mm).isBetween(at100.mm().low(), at100.mm().high());
    assertThat(contactMm)
        .as("%s, %.1f", at100, contactMm)
        .isBetween(at100.contactMm().low(), at100.contactMm().high());
    assertThat(SoundThrow.of(rear, 150, BY_SCALE, 20).mm().best()).isGreaterThan(at100.mm().best());
  }

  @Test
  @DisplayName("what is not on record widens the range, and so does a pull by feel")
  void wider() {
    AssumedBrake known = BrakeDefaults.fill(SoundBrakes.knownRear());
    AssumedBrake unknown =
        BrakeDefaults.fill(SoundBrakes.unknown(KnownBrake.End.REAR, FluidGrade.MINERAL_OIL));
    double width = SoundThrow.of(known, 100, BY_SCALE, 20).mm().width();
    assertThat(SoundThrow.of(unknown, 100, BY_SCALE, 20).mm().width()).isGreaterThan(1.5 * width);
    assertThat(SoundThrow.of(known, 100, BY_FEEL, 20).mm().width()).isGreaterThan(width);
  }
}
