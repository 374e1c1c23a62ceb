package firmlever.belief;

import java.util.List;

/**
 * The same network with every elicited number moved by noise on its log odds, to see how much of a
 * conclusion rests on the numbers (method: Pradhan, Henrion and others, Artificial Intelligence 85,
 * 1996).
 *
 * <p>Each number's noise depends on seed, draw and the number's place alone, so draws can be made
 * in any order and in parallel.
 */
public final class Redraw {
  private Redraw() {}

  /** Standard deviation of the noise, in natural log odds. */
  public static final double NOISE = 0.5;

  /**
   * A redrawn network, in which only what bears on the named symptoms is redrawn and kept.
   *
   * @param symptoms positions of the symptoms that matter
   */
  public static Network draw(Network network, List<Integer> symptoms, long seed, int draw) {
    int n = network.causes().size();
    int m = network.symptoms().size();
    long stream = mixed(seed * 0x9E3779B97F4A7C15L + draw);
    double[] prior = network.priorLogOdds().clone();
    double[] background = network.background().clone();
    double[][] strength = new double[n][];
    // Most causes show none of them.
    double[] nothing = new double[m];
    for (int i = 0; i < n; i++) {
      prior[i] += NOISE * normal(stream, i);
      strength[i] = nothing;
      for (int j : symptoms) {
        double number = network.strength()[i][j];
        if (number > 0) {
          strength[i] = strength[i] == nothing ? new double[m] : strength[i];
          strength[i][j] = moved(number, stream, (i + 1L) * 4096 + j);
        }
      }
    }
    for (int j : symptoms) {
      background[j] = moved(background[j], stream, 1_000_000L + j);
    }
    return new Network(network.causes(), prior, network.symptoms(), background, strength);
  }

  private static double moved(double probability, long stream, long place) {
    return Odds.probability(Odds.log(probability) + NOISE * normal(stream, place));
  }

  /** A standard normal number that is a function of its arguments alone (Box and Muller 1958). */
  private static double normal(long stream, long place) {
    long first = mixed(stream + place * 0xD1B54A32D192ED03L);
    long second = mixed(first ^ 0x8CB92BA72F3D8DD7L);
    return StrictMath.sqrt(-2 * StrictMath.log(unit(first)))
        * StrictMath.cos(2 * StrictMath.PI * unit(second));
  }

  /** In (0, 1]. */
  private static double unit(long bits) {
    return ((bits >>> 11) + 1) * 0x1.0p-53;
  }

  /** The finaliser of SplitMix64 (Steele, Lea and Flood 2014). */
  private static long mixed(long z) {
    long a = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    long b = (a ^ (a >>> 27)) * 0x94D049BB133111EBL;
    return b ^ (b >>> 31);
  }
}
