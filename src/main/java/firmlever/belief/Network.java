package firmlever.belief;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A two-layer noisy-OR network: causes that are independent of each other before anything is seen,
 * and symptoms each of which shows through any of its present causes or through its background.
 *
 * <p>Arrays are held for speed and must not be changed by anyone.
 *
 * @param causes ids of the causes
 * @param priorLogOdds natural log of the odds of each cause, history included
 * @param symptoms ids of the symptoms
 * @param background leak probability of each symptom: that it shows without any cause, in (0, 1)
 * @param strength link probability, by cause and symptom: that the cause alone makes the symptom
 *     show, in [0, 1); 0 where it does not
 */
public record Network(
    List<String> causes,
    double[] priorLogOdds,
    List<String> symptoms,
    double[] background,
    double[][] strength) {

  /** Probability of cause {@code i} before any symptom is seen. */
  public double prior(int i) {
    return Odds.probability(priorLogOdds[i]);
  }

  /** Positions of the symptoms by id. */
  public Map<String, Integer> symptomPositions() {
    Map<String, Integer> positions = new HashMap<>();
    for (int j = 0; j < symptoms.size(); j++) {
      positions.put(symptoms.get(j), j);
    }
    return positions;
  }
}
