package firmlever.belief;

import java.util.Arrays;

/** What one observation would weigh for and against each cause if nothing else were known. */
final class SingleWeight {
  private SingleWeight() {}

  /** By cause: by how much it moves the log odds. */
  static double[] of(Network network, Observation seen) {
    int n = network.causes().size();
    int j = seen.symptom();
    double others = 1 - network.background()[j];
    for (int i = 0; i < n; i++) {
      others *= 1 - network.prior(i) * network.strength()[i][j];
    }
    double[] alone = new double[n];
    for (int i = 0; i < n; i++) {
      double without = others / (1 - network.prior(i) * network.strength()[i][j]);
      double with = without * (1 - network.strength()[i][j]);
      alone[i] =
          Math.log(seen.ifPresent() * (1 - with) + seen.ifAbsent() * with)
              - Math.log(seen.ifPresent() * (1 - without) + seen.ifAbsent() * without);
    }
    return alone;
  }

  /** The most the observation would weigh alone for any cause, for or against. */
  static double most(Network network, Observation seen) {
    return Arrays.stream(of(network, seen)).map(Math::abs).max().orElse(0);
  }
}
