package firmlever.belief;

import java.util.ArrayList;
import java.util.List;

/**
 * What was seen of one symptom, as two likelihoods: how well what was seen agrees with the symptom
 * being there, and with it not being there. A clear finding has 1 and 0; a reading near its limit
 * has something in between.
 *
 * @param symptom position in the network
 * @param ifPresent likelihood of what was seen if the symptom is present, in [0, 1]
 * @param ifAbsent likelihood if it is absent, in [0, 1]; not both zero
 */
public record Observation(int symptom, double ifPresent, double ifAbsent) {
  public Observation {
    if (!(ifPresent >= 0 && ifAbsent >= 0 && ifPresent <= 1 && ifAbsent <= 1)
        || ifPresent + ifAbsent == 0) {
      throw new IllegalArgumentException("likelihoods must lie in [0, 1] and not both be zero");
    }
  }

  public static Observation present(int symptom) {
    return new Observation(symptom, 1, 0);
  }

  public static Observation absent(int symptom) {
    return new Observation(symptom, 0, 1);
  }

  /** What was seen, and another observation of some symptom, be it one of these. */
  public static List<Observation> joined(List<Observation> seen, Observation one) {
    List<Observation> all = new ArrayList<>(seen.size() + 1);
    Observation last = one;
    for (Observation each : seen) {
      if (each.symptom == one.symptom) {
        last =
            new Observation(
                one.symptom, each.ifPresent * one.ifPresent, each.ifAbsent * one.ifAbsent);
      } else {
        all.add(each);
      }
    }
    all.add(last);
    return all;
  }

  /** Clearly absent: the cheap kind, because it leaves the causes independent. */
  boolean clearlyAbsent() {
    return ifPresent == 0;
  }

  /** Rather there than not. */
  public boolean ratherPresent() {
    return ifPresent > ifAbsent;
  }
}
