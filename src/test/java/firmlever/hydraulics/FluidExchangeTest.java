package firmlever.hydraulics;

import static firmlever.hydraulics.FluidExchange.Flow.MIXED;
import static firmlever.hydraulics.FluidExchange.Flow.PLUG;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class FluidExchangeTest {
  @Test
  @DisplayName(
      "10 l at 0.15 l/s to 1 % of the old: 307.0 s (case of respfun flush_time, recomputed)")
  void flushTime() {
    assertThat(FluidExchange.pushMl(MIXED, 0.01, 10_000) / 150).isCloseTo(307.0, within(0.05));
  }

  @Test
  @DisplayName(
      "mixed flow to 1 % and 0.1 %: 4.605 and 6.908 volumes; plug flow never over 1 volume")
  void volumes() {
    assertThat(FluidExchange.pushMl(MIXED, 0.01, 1)).isCloseTo(4.605, within(0.0005));
    assertThat(FluidExchange.pushMl(MIXED, 0.001, 1)).isCloseTo(6.908, within(0.0005));
    assertThat(FluidExchange.pushMl(PLUG, 0.01, 12)).isCloseTo(11.88, within(1e-9));
  }

  @Test
  @DisplayName("to and fro never gets below the mixture, however long; fresh fillings thin it")
  void toAndFro() {
    double floor = FluidExchange.toAndFroFloor(20, 13, 0);
    assertThat(floor).isCloseTo(13.0 / 33, within(1e-12));
    assertThat(FluidExchange.toAndFroFloor(20, 13, 2))
        .isCloseTo(floor * floor * floor, within(1e-12));
  }
}
