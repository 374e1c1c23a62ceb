package firmlever.diagnosis;

import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Scenarios.Scenario;
import firmlever.vocabulary.Acceptance;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What a repair is for: what was found is explained and gone, and the acceptance checks pass. A
 * cause that shows nothing of what was found (where nothing was found: that would fail no
 * acceptance check) is no part of it: it is looked for in the round at the end.
 */
final class Goal {
  /** So many stories are kept, the likeliest: the rest weighs less than what the rules know. */
  private static final int MOST_STORIES = 48;

  /** A cause that matters less likely than this changes nothing of what is done. */
  private static final double TOO_UNLIKELY = 0.01;

  private final Set<String> failing;

  Goal(Vocabulary vocabulary) {
    failing =
        Acceptance.builtIn(vocabulary).stream()
            .flatMap(each -> each.failsOn().stream())
            .collect(Collectors.toUnmodifiableSet());
  }

  /**
   * The stories told of what must be mended. By noisy-OR a cause that is there shows each symptom
   * or does not, independently of the others; it must be mended if it shows any that was found.
   * Where nothing was found, it must be if it shows any that fails an acceptance check.
   */
  List<Scenario> toBeMended(Network network, List<Observation> seen, List<Scenario> stories) {
    List<Integer> asked =
        seen.stream().anyMatch(Observation::ratherPresent) ? List.of() : accepted(network, seen);
    double[][] matters = new double[stories.size()][];
    double[] likely = new double[network.causes().size()];
    for (int s = 0; s < matters.length; s++) {
      int[] causes = stories.get(s).causes();
      matters[s] = new double[causes.length];
      for (int k = 0; k < causes.length; k++) {
        matters[s][k] = 1 - showsNothing(network, seen, asked, causes, k);
        likely[causes[k]] += stories.get(s).probability() * matters[s][k];
      }
    }
    Map<List<Integer>, Double> merged = new LinkedHashMap<>();
    for (int s = 0; s < matters.length; s++) {
      tell(merged, stories.get(s), matters[s], likely);
    }
    return merged.entrySet().stream()
        .sorted(Map.Entry.<List<Integer>, Double>comparingByValue(Comparator.reverseOrder()))
        .limit(MOST_STORIES)
        .map(
            each ->
                new Scenario(
                    each.getKey().stream().mapToInt(Integer::intValue).toArray(), each.getValue()))
        .toList();
  }

  /** Adds the story with each set of its causes that may matter. */
  private static void tell(
      Map<List<Integer>, Double> merged, Scenario story, double[] matters, double[] likely) {
    int[] causes = story.causes();
    for (int kept = 0; kept < 1 << causes.length; kept++) {
      double weight = story.probability();
      List<Integer> left = new ArrayList<>();
      for (int k = 0; k < causes.length; k++) {
        boolean stays = (kept >> k & 1) != 0;
        double chance = likely[causes[k]] < TOO_UNLIKELY ? 0 : matters[k];
        weight *= stays ? chance : 1 - chance;
        if (stays) {
          left.add(causes[k]);
        }
      }
      if (weight > 0) {
        merged.merge(left, weight, Double::sum);
      }
    }
  }

  /** The symptoms that fail an acceptance check and of which nothing is known. */
  private List<Integer> accepted(Network network, List<Observation> seen) {
    Map<String, Integer> open = new HashMap<>(network.symptomPositions());
    open.keySet().retainAll(failing);
    seen.forEach(each -> open.remove(network.symptoms().get(each.symptom())));
    return open.values().stream().sorted().toList();
  }

  /** Probability that the cause shows nothing that matters, in a brake with just these causes. */
  private static double showsNothing(
      Network network, List<Observation> seen, List<Integer> asked, int[] causes, int of) {
    double[] own = network.strength()[causes[of]];
    double nothing = 1;
    for (int symptom : asked) {
      nothing *= 1 - own[symptom];
    }
    for (Observation each : seen) {
      int symptom = each.symptom();
      if (own[symptom] == 0) {
        continue;
      }
      double absentWithout = 1 - network.background()[symptom];
      for (int k = 0; k < causes.length; k++) {
        absentWithout *= k == of ? 1 : 1 - network.strength()[causes[k]][symptom];
      }
      double silent = each.ifPresent() * (1 - absentWithout) + each.ifAbsent() * absentWithout;
      double absent = absentWithout * (1 - own[symptom]);
      double all = each.ifPresent() * (1 - absent) + each.ifAbsent() * absent;
      nothing *= all > 0 ? (1 - own[symptom]) * silent / all : 1;
    }
    return nothing;
  }
}
