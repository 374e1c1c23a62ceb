package firmlever.warranty.belief;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.belief.Elimination;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The firmness of a cause")
class FirmnessTest {
  private static final int DRAWS = 60;

  /** A symptom that two causes show: the nearer their strengths, the less firm which it is. */
  private static Network network(double second) {
    return new Network(
        List.of("one", "two"),
        new double[] {-1, -1},
        List.of("symptom"),
        new double[] {0.01},
        new double[][] {{0.75}, {second}});
  }

  private static Firmness firmness(Network network, List<Observation> seen) {
    return new Firmness(network, seen, Elimination.of(network, seen), DRAWS);
  }

  @Test
  @DisplayName("lies on the same side of each limit, whether it is drawn to the end or not")
  void sidesAgree() {
    List<Observation> seen = List.of(Observation.present(0));
    int between = 0;
    for (double second : new double[] {0.02, 0.15, 0.25, 0.5, 0.75, 0.9}) {
      Firmness whole = firmness(network(second), seen);
      for (Set<Integer> causes : List.of(Set.of(0), Set.of(1), Set.of(0, 1))) {
        double share = whole.of(causes);
        between += share > 0 && share < 1 ? 1 : 0;
        for (double limit : new double[] {0.05, 0.3, 0.5, 0.8, 0.95, share}) {
          Firmness sides = firmness(network(second), seen).against(Set.of(limit, 0.9), DRAWS);
          assertThat(sides.of(causes) < limit)
              .as("%s of %s, limit %s", causes, second, limit)
              .isEqualTo(share < limit);
        }
      }
    }
    assertThat(between).as("shares that are neither nothing nor all").isGreaterThan(2);
  }
}
