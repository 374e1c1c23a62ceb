package firmlever.belief;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The likeliest whole stories: sets of causes that are present while the others in question are
 * not, each with its exact probability after what was observed.
 */
public final class Scenarios {
  private Scenarios() {}

  /**
   * One story.
   *
   * @param causes positions of the causes present, ascending; none for a brake without fault
   * @param probability that of the causes in question just these are present, given the
   *     observations
   */
  public record Scenario(int[] causes, double probability) {}

  /** Causes less likely than this by themselves are left out of stories of two and three. */
  private static final double TOO_RARE = 0.004;

  private static final int MOST_CAUSES = 14;

  /**
   * The causes that what was observed puts in question: those that show a symptom not clearly
   * absent. The others are moved only by history and by what was found absent, and stay independent
   * of these and of each other.
   */
  public static boolean[] inQuestion(Network network, List<Observation> observations) {
    boolean[] inQuestion = new boolean[network.causes().size()];
    for (Observation seen : observations) {
      for (int i = 0; i < inQuestion.length; i++) {
        inQuestion[i] |= !seen.clearlyAbsent() && network.strength()[i][seen.symptom()] > 0;
      }
    }
    return inQuestion;
  }

  /**
   * The stories of at most three of the causes in question, likeliest first, at most {@code most}
   * of them. Their probabilities are exact, whatever the causes out of question may be; what they
   * lack to 1 is the probability of the stories not listed.
   *
   * @param inQuestion by cause; must hold for every cause that shows a symptom rather present
   * @param together the most causes in one story, 2 or 3
   */
  public static List<Scenario> likeliest(
      Network network,
      List<Observation> observations,
      Inference.Posterior posterior,
      boolean[] inQuestion,
      int together,
      int most) {
    int[] candidates = candidates(posterior.posterior(), inQuestion);
    Weights weights = new Weights(network, observations, posterior, inQuestion, candidates);
    List<Scenario> found = new ArrayList<>();
    found.add(new Scenario(new int[0], weights.of()));
    for (int a = 0; a < candidates.length; a++) {
      found.add(new Scenario(new int[] {candidates[a]}, weights.of(a)));
      for (int b = a + 1; b < candidates.length; b++) {
        found.add(new Scenario(new int[] {candidates[a], candidates[b]}, weights.of(a, b)));
        for (int c = b + 1; together > 2 && c < candidates.length; c++) {
          found.add(
              new Scenario(
                  new int[] {candidates[a], candidates[b], candidates[c]}, weights.of(a, b, c)));
        }
      }
    }
    found.sort(Comparator.comparingDouble(Scenario::probability).reversed());
    return List.copyOf(found.subList(0, Math.min(most, found.size())));
  }

  private static int[] candidates(double[] posterior, boolean[] inQuestion) {
    List<Integer> worth = new ArrayList<>();
    for (int i = 0; i < posterior.length; i++) {
      if (inQuestion[i] && posterior[i] > TOO_RARE) {
        worth.add(i);
      }
    }
    worth.sort(Comparator.comparingDouble((Integer i) -> posterior[i]).reversed());
    return worth.stream().limit(MOST_CAUSES).sorted().mapToInt(Integer::intValue).toArray();
  }

  /** Probabilities of stories, built up from what each candidate does to each observation. */
  private static final class Weights {
    private final double none;
    private final double[] odds;
    private final Observation[] seen;
    private final double[] unexplained;
    private final double[][] left;

    Weights(
        Network network,
        List<Observation> observations,
        Inference.Posterior posterior,
        boolean[] inQuestion,
        int[] candidates) {
      seen = observations.toArray(Observation[]::new);
      unexplained = new double[seen.length];
      left = new double[candidates.length][seen.length];
      odds = new double[candidates.length];
      double log = -posterior.logEvidence();
      for (int i = 0; i < network.causes().size(); i++) {
        log += Math.log1p(-network.prior(i));
        if (!inQuestion[i]) {
          log -= Math.log1p(-posterior.posterior()[i]);
        }
      }
      none = Math.exp(log);
      for (int k = 0; k < seen.length; k++) {
        unexplained[k] = 1 - network.background()[seen[k].symptom()];
      }
      for (int c = 0; c < candidates.length; c++) {
        odds[c] = Math.exp(network.priorLogOdds()[candidates[c]]);
        for (int k = 0; k < seen.length; k++) {
          left[c][k] = 1 - network.strength()[candidates[c]][seen[k].symptom()];
        }
      }
    }

    double of(int... story) {
      double weight = none;
      for (int c : story) {
        weight *= odds[c];
      }
      for (int k = 0; k < seen.length; k++) {
        double absent = unexplained[k];
        for (int c : story) {
          absent *= left[c][k];
        }
        weight *= seen[k].ifPresent() * (1 - absent) + seen[k].ifAbsent() * absent;
      }
      return weight;
    }
  }
}
