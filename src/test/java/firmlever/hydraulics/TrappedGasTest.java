package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class TrappedGasTest {
  private static final double NORMAL_MPA = 0.1;

  @Test
  @DisplayName("1 mL to 5.0 MPa: 0.0199 mL left (Fluid Power Engineering eq. 2.86, recomputed)")
  void oneMillilitre() {
    assertThat(1 - TrappedGas.takenUpMl(1, 5.0, Air.SEA_LEVEL_MPA))
        .isCloseTo(0.0199, within(0.00005));
  }

  @Test
  @DisplayName("higher pressure squeezes more, thin air is squeezed more")
  void monotone() {
    RandomBrakes random = new RandomBrakes(17, false);
    for (int n = 0; n < 1000; n++) {
      double ml = random.between(0.01, 2);
      double lowMpa = random.between(0.01, 5);
      double highMpa = lowMpa + random.between(0.01, 5);
      double slow = TrappedGas.takenUpMl(ml, lowMpa, NORMAL_MPA);
      assertThat(slow).isBetween(0.0, ml);
      assertThat(TrappedGas.takenUpMl(ml, highMpa, NORMAL_MPA)).isGreaterThan(slow);
      assertThat(TrappedGas.takenUpMl(ml, lowMpa, 0.08)).isGreaterThan(slow);
    }
  }
}
