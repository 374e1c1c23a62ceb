package firmlever.hydraulics;

import static firmlever.hydraulics.FluidExchange.Flow.MIXED;
import static firmlever.hydraulics.FluidExchange.Flow.PLUG;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FluidExchangeTest {
  @Test
  @DisplayName(
      "10 l at 0.15 l/s, 99 %: 305 s in steps of a second (respfun flush_time), 307.0 s steady")
  void flushTime() {
    assertThat(FluidExchange.passes(0.01, 150, 10_000)).isEqualTo(305);
    assertThat(FluidExchange.pushMl(MIXED, 0.01, 10_000) / 150).isCloseTo(307.0, within(0.05));
  }

  @ParameterizedTest(name = "leaving {0}: {1} passes to 1 %, {2} to 0.1 %")
  @DisplayName("fill and dump, residual (v/V)^n (essay Dilutions of Grandeur), counts recomputed")
  @CsvSource({"0.10, 2, 3", "0.20, 3, 5", "0.30, 4, 6", "0.50, 7, 10"})
  void fillAndDump(double left, int toOnePercent, int toOnePerMille) {
    double drawnMl = 40 * (1 - left);
    assertThat(FluidExchange.passes(0.01, drawnMl, 40)).isEqualTo(toOnePercent);
    assertThat(FluidExchange.passes(0.001, drawnMl, 40)).isEqualTo(toOnePerMille);
    assertThat(FluidExchange.leftAfterPasses(drawnMl, 40, 3))
        .isCloseTo(Math.pow(left, 3), within(1e-12));
  }

  @Test
  @DisplayName(
      "mixed flow to 1 % and 0.1 %: 4.605 and 6.908 volumes; plug flow never over 1 volume")
  void volumes() {
    assertThat(FluidExchange.pushMl(MIXED, 0.01, 1)).isCloseTo(4.605, within(0.0005));
    assertThat(FluidExchange.pushMl(MIXED, 0.001, 1)).isCloseTo(6.908, within(0.0005));
    assertThat(FluidExchange.pushMl(PLUG, 0.01, 12)).isCloseTo(11.88, within(1e-9));
    assertThat(FluidExchange.leftAfterPush(PLUG, 13, 12)).isZero();
    assertThat(FluidExchange.leftAfterPush(PLUG, 3, 12)).isCloseTo(0.75, within(1e-12));
    assertThat(FluidExchange.leftAfterPush(MIXED, 13, 12)).isCloseTo(0.3385, within(0.0001));
  }

  @Test
  @DisplayName(
      "usual practice, four passes of 10 mL, leaves a tenth or less of a 13 mL brake even mixed")
  void usualPractice() {
    double pushedMl = FluidExchange.USUAL_PASSES * FluidExchange.USUAL_PASS_ML;
    assertThat(pushedMl).isEqualTo(40);
    assertThat(FluidExchange.leftAfterPush(MIXED, pushedMl, 13)).isLessThan(0.1);
    assertThat(FluidExchange.leftAfterPush(PLUG, pushedMl, 13)).isZero();
  }

  @Test
  @DisplayName("to and fro never gets below the mixture, however long; fresh fillings do")
  void toAndFro() {
    double floor = FluidExchange.toAndFroFloor(20, 13, 0);
    assertThat(floor).isCloseTo(13.0 / 33, within(1e-12));
    assertThat(FluidExchange.toAndFroFloor(20, 13, 2))
        .isCloseTo(floor * floor * floor, within(1e-12));
    int fillings = FluidExchange.fillings(0.05, 20, 13);
    assertThat(fillings).isEqualTo(4); // ln 0.05 / ln(13/33) = 3.22
    assertThat(FluidExchange.toAndFroFloor(20, 13, fillings - 1)).isLessThanOrEqualTo(0.05);
    assertThat(FluidExchange.toAndFroFloor(20, 13, fillings - 2)).isGreaterThan(0.05);
  }

  @Test
  @DisplayName("water of 4 % down to 3 % with fresh fluid of 0.2 %: 0.737 of the old may stay")
  void shareForALimit() {
    assertThat(FluidExchange.shareFor(4, 0.2, 3)).isCloseTo(2.8 / 3.8, within(1e-12));
    assertThat(FluidExchange.shareFor(2.5, 0.2, 3)).isEqualTo(1);
    assertThat(FluidExchange.shareFor(4, 3.5, 3)).isNegative();
  }

  @Test
  @DisplayName("strokes, and the volume of one")
  void strokes() {
    Brake brake = SoundBrakes.rear();
    assertThat(FluidExchange.strokeMl(brake, 35.65)).isCloseTo(0.5, within(0.001));
    assertThat(FluidExchange.strokes(13, 0.5)).isEqualTo(26);
    assertThat(FluidExchange.strokes(13.1, 0.5)).isEqualTo(27);
  }

  @Test
  @DisplayName("plug never leaves more than mixed, and what passes say is enough is enough")
  void order() {
    RandomBrakes random = new RandomBrakes(41, false);
    for (int n = 0; n < 1000; n++) {
      double brakeMl = random.between(5, 40);
      double pushedMl = random.between(0, 100);
      assertThat(FluidExchange.leftAfterPush(PLUG, pushedMl, brakeMl))
          .isLessThanOrEqualTo(FluidExchange.leftAfterPush(MIXED, pushedMl, brakeMl));
      double share = random.between(0.001, 0.9);
      double drawnMl = random.between(1, brakeMl);
      int passes = FluidExchange.passes(share, drawnMl, brakeMl);
      assertThat(FluidExchange.leftAfterPasses(drawnMl, brakeMl, passes))
          .isLessThanOrEqualTo(share * 1.000001);
      if (passes > 1) {
        assertThat(FluidExchange.leftAfterPasses(drawnMl, brakeMl, passes - 1))
            .isGreaterThan(share);
      }
    }
  }
}
