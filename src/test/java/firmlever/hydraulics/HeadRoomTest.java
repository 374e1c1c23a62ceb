package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.hydraulics.HeadRoom.Outcome;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class HeadRoomTest {
  @Test
  @DisplayName(
      "shut fluid, 50 °F warmer: 6900 psi, and 2.3 in³ of 100 to let off (hydraulic data table)")
  void trappedHeating() {
    assertThat(HeadRoom.shutPressure(3.0e5, 0.00046, 50)).isCloseTo(6900, within(1e-6));
    assertThat(Units.mpaFromPsi(6900)).isCloseTo(47.57, within(0.005));
    assertThat(HeadRoom.expansionMl(100, 0.00046, 50)).isCloseTo(2.3, within(1e-9));
  }

  @Test
  @DisplayName("2 mm wear of both pads on two 21 mm pistons takes 1.39 mL out of the reservoir")
  void padWear() {
    double areaMm2 = SoundBrakes.rear().pistonAreaMm2();
    assertThat(areaMm2).isCloseTo(2 * 346.36, within(0.01));
    assertThat(HeadRoom.padWearMl(areaMm2, 2)).isCloseTo(1.385, within(0.001));
  }

  @Test
  @DisplayName("room, smaller gap, drag, lock: one after the other as the room shrinks")
  void outcomes() {
    Brake brake = SoundBrakes.rear();
    assertThat(HeadRoom.of(brake, 20, 1.0, 0.12, 15, 65).outcome()).isEqualTo(Outcome.ROOM);
    assertThat(HeadRoom.of(brake, 20, 0.8, 0.12, 15, 65).outcome()).isEqualTo(Outcome.SMALLER_GAP);
    assertThat(HeadRoom.of(brake, 20, 0.73, 0.12, 15, 65).outcome()).isEqualTo(Outcome.DRAGS);
    HeadRoom full = HeadRoom.of(brake, 20, 0.0, 0.12, 15, 65);
    assertThat(full.outcome()).isEqualTo(Outcome.LOCKS);
    assertThat(full.clampN()).isGreaterThan(1000);
    assertThat(HeadRoom.of(brake, 20, 0.0, 0.12, 65, 15).outcome())
        .as("cooling never drags")
        .isEqualTo(Outcome.ROOM);
  }

  @Test
  @DisplayName("hotter never presses less, more room never presses more")
  void monotone() {
    RandomBrakes random = new RandomBrakes(37, false);
    for (int n = 0; n < 1000; n++) {
      Brake brake = random.next().brake();
      double freeMl = random.between(0, 1);
      double toC = random.between(20, 120);
      double mpa = HeadRoom.of(brake, 18, freeMl, 0.1, 15, toC).pressureMpa();
      assertThat(HeadRoom.of(brake, 18, freeMl, 0.1, 15, toC + 5).pressureMpa())
          .isGreaterThanOrEqualTo(mpa);
      assertThat(HeadRoom.of(brake, 18, freeMl + 0.1, 0.1, 15, toC).pressureMpa())
          .isLessThanOrEqualTo(mpa);
    }
  }
}
