package firmlever.plan;

import firmlever.belief.Network;
import firmlever.belief.Odds;
import firmlever.belief.Scenarios.Scenario;
import firmlever.belief.Word;
import firmlever.plan.Problem.Check;
import firmlever.plan.Problem.Hold;
import firmlever.plan.Problem.HoldKind;
import firmlever.plan.Problem.Work;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;

/** Random repairs small enough to be solved exactly; each is a function of its seed alone. */
final class SmallModels {
  private static final List<String> SET_UPS = List.of("wheel-out", "lever-open", "bleed-kit");

  private SmallModels() {}

  /** A shop that goes by cost alone, whatever is as good as found. */
  static Shop byCostAlone(
      Map<String, Double> setUpMinutes,
      Map<String, Double> partMinutes,
      double otherPartMinutes,
      double acceptanceMinutes,
      double acceptanceMisses,
      double comebackMinutes,
      double giveUpMinutes) {
    return new Shop(
        setUpMinutes,
        partMinutes,
        otherPartMinutes,
        acceptanceMinutes,
        acceptanceMisses,
        comebackMinutes,
        giveUpMinutes,
        2,
        0);
  }

  /**
   * Just one fault, at most 5 noisy checks, works that may fail or mend several causes.
   *
   * @param most causes at most, 3 to 8
   */
  static Problem single(long seed, int most) {
    Random random = new Random(seed);
    int n = 3 + random.nextInt(most - 2);
    double[] weights = random.doubles(n, 0.02, 1).map(x -> x * x).toArray();
    List<Scenario> scenarios =
        IntStream.range(0, n).mapToObj(i -> new Scenario(new int[] {i}, weights[i])).toList();
    return problem(random, n, random.nextInt(6), n < 8 ? random.nextInt(3) : 0, scenarios);
  }

  /**
   * Independent faults, any number of them at once and none as well; at most 3 noisy checks.
   *
   * @param most causes at most, 3 to 5
   */
  static Problem multiple(long seed, int most) {
    Random random = new Random(seed);
    int n = 3 + random.nextInt(most - 2);
    int checks = random.nextInt(n == 5 ? 3 : 4);
    return problem(random, n, checks, random.nextInt(2), independent(randomPriors(random, n)));
  }

  /**
   * A brake known to be faulty, by independent faults, at most 8, with a sure work for each; no
   * checks, no set-ups, nothing missed.
   */
  static Problem independentWithoutChecks(long seed) {
    Random random = new Random(seed);
    int n = 2 + random.nextInt(7);
    List<Work> works = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double minutes = 1 + random.nextInt(60);
      works.add(new Work("work-" + i, minutes, Set.of(), List.of(), Map.of(i, 1.0)));
    }
    Shop shop = byCostAlone(Map.of(), Map.of(), 0, 0, 0, 0, 10_000);
    return new Problem(
        network(random, n, 0),
        faulty(independent(randomPriors(random, n))),
        List.of(),
        works,
        List.of(),
        shop,
        Set.of());
  }

  static double[] randomPriors(Random random, int n) {
    return random.doubles(n, 0.02, 0.5).toArray();
  }

  /** All sets of independent causes. */
  static List<Scenario> independent(double[] priors) {
    List<Scenario> scenarios = new ArrayList<>();
    for (int mask = 0; mask < 1 << priors.length; mask++) {
      int set = mask;
      double probability = 1;
      for (int i = 0; i < priors.length; i++) {
        probability *= (set >> i & 1) != 0 ? priors[i] : 1 - priors[i];
      }
      int[] causes = IntStream.range(0, priors.length).filter(i -> (set >> i & 1) != 0).toArray();
      scenarios.add(new Scenario(causes, probability));
    }
    return scenarios;
  }

  /** The stories with a fault in them. */
  static List<Scenario> faulty(List<Scenario> stories) {
    return stories.stream().filter(story -> story.causes().length > 0).toList();
  }

  static Network network(Random random, int causes, int symptoms) {
    double[] logOdds = random.doubles(causes, 0.02, 0.5).map(Odds::log).toArray();
    double[] background = random.doubles(symptoms, 0.005, 0.15).toArray();
    double[][] strength = new double[causes][symptoms];
    for (double[] row : strength) {
      for (int j = 0; j < symptoms; j++) {
        row[j] = random.nextInt(3) == 0 ? Word.values()[random.nextInt(6)].probability() : 0;
      }
    }
    return new Network(
        IntStream.range(0, causes).mapToObj(i -> "cause-" + i).toList(),
        logOdds,
        IntStream.range(0, symptoms).mapToObj(j -> "symptom-" + j).toList(),
        background,
        strength);
  }

  private static Problem problem(
      Random random, int causes, int symptoms, int bundles, List<Scenario> scenarios) {
    List<Check> checks = new ArrayList<>();
    for (int j = 0; j < symptoms; j++) {
      checks.add(
          new Check(
              "symptom-" + j,
              j,
              1 + random.nextInt(10),
              needs(random),
              0.2 * random.nextDouble(),
              0.05 * random.nextDouble()));
    }
    List<Work> works = new ArrayList<>();
    for (int i = 0; i < causes + bundles; i++) {
      Map<Integer, Double> mends = new HashMap<>();
      mends.put(i < causes ? i : random.nextInt(causes), mended(random));
      if (i >= causes) {
        mends.put(random.nextInt(causes), mended(random));
      }
      works.add(
          new Work("work-" + i, 5 + random.nextInt(56), needs(random), List.of("part"), mends));
    }
    works.add(new Work("hand-back", 5, Set.of(), List.of(), Map.of()));
    List<Hold> holds = new ArrayList<>();
    if (symptoms > 0 && random.nextInt(4) == 0) {
      holds.add(new Hold(HoldKind.CHECK_FIRST, "work-0", "symptom-0", "looked for first"));
    }
    if (random.nextInt(4) == 0) {
      holds.add(new Hold(HoldKind.DO_FIRST, "work-1", "work-2", "done first"));
    }
    Shop shop =
        byCostAlone(
            Shop.standard().setUpMinutes(),
            Map.of("part", 15.0 * random.nextInt(2)),
            0,
            5,
            0.05,
            60 + random.nextInt(240),
            200 + random.nextInt(400));
    return new Problem(
        network(random, causes, symptoms), scenarios, checks, works, holds, shop, Set.of());
  }

  private static double mended(Random random) {
    return Word.values()[random.nextInt(3)].probability();
  }

  private static Set<String> needs(Random random) {
    Set<String> needs = new HashSet<>();
    for (String each : SET_UPS) {
      if (random.nextInt(3) == 0) {
        needs.add(each);
      }
    }
    return needs;
  }
}
