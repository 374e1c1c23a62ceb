package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class HeadRoomTest {
  @Test
  @DisplayName("2 mm wear of both pads on two 21 mm pistons takes 1.39 mL out of the reservoir")
  void padWear() {
    double areaMm2 = SoundBrakes.rear().pistonAreaMm2();
    assertThat(areaMm2).isCloseTo(2 * 346.36, within(0.01));
    assertThat(HeadRoom.padWearMl(areaMm2, 2)).isCloseTo(1.385, within(0.001));
  }
}
