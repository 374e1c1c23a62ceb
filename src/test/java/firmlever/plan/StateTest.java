package firmlever.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Scenarios.Scenario;
import firmlever.plan.Problem.Check;
import firmlever.plan.Problem.Work;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The belief after a failed work and a check, against summing over everything that may happen. */
class StateTest {
  @Test
  void beliefAfterFailedWorkAndCheck() {
    for (long seed = 0; seed < 50; seed++) {
      Problem problem = SmallModels.multiple(seed, 5);
      if (problem.checks().isEmpty()) {
        continue;
      }
      Tables tables = new Tables(problem);

      State after = State.start(tables).afterFailed(tables, 0).after(tables, 0, 0);

      Map<Long, Double> expected = enumerated(problem);
      double sum = expected.values().stream().mapToDouble(Double::doubleValue).sum();
      assertThat(after.masks).hasSize(expected.size());
      for (int s = 0; s < after.masks.length; s++) {
        long causes = 0;
        for (int bit = 0; bit < tables.causes.length; bit++) {
          causes |= (after.masks[s] >> bit & 1) << tables.causes[bit];
        }
        assertThat(after.weights[s]).isCloseTo(expected.get(causes) / sum, within(1e-12));
      }
    }
  }

  /** By set of causes left: probability of it, of the first work failing and the check finding. */
  private static Map<Long, Double> enumerated(Problem problem) {
    Work work = problem.works().get(0);
    Check check = problem.checks().get(0);
    Map<Long, Double> left = new HashMap<>();
    for (Scenario story : problem.scenarios()) {
      int n = story.causes().length;
      for (int mended = 0; mended < 1 << n; mended++) {
        double probability = story.probability();
        double absent = 1 - problem.network().background()[check.shows().get(0)];
        long causes = 0;
        for (int k = 0; k < n; k++) {
          int cause = story.causes()[k];
          double mends = work.mends().getOrDefault(cause, 0.0);
          if ((mended >> k & 1) != 0) {
            probability *= mends;
          } else {
            probability *= 1 - mends;
            causes |= 1L << cause;
            absent *= 1 - problem.network().strength()[cause][check.shows().get(0)];
          }
        }
        double found = (1 - absent) * (1 - check.misses()) + absent * check.falseAlarms();
        if (causes != 0 && probability > 0) {
          left.merge(causes, probability * found, Double::sum);
        }
      }
    }
    return left;
  }
}
