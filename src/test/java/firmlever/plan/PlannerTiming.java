package firmlever.plan;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Scenarios;
import firmlever.belief.Word;
import firmlever.plan.Problem.Check;
import firmlever.plan.Problem.Hold;
import firmlever.plan.Problem.HoldKind;
import firmlever.plan.Problem.Work;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;

/** Prints how long the planner takes on problems of the size of the whole rule base. */
final class PlannerTiming {
  /** Processor time: the machine is shared. */
  private static final ThreadMXBean CPU = ManagementFactory.getThreadMXBean();

  private static final int CAUSES = 55;
  private static final int SYMPTOMS = 66;
  private static final int WORKS = 35;

  private PlannerTiming() {}

  /** 60 checks, 35 works and 60 stories, six symptoms known, some works held. */
  static Problem large(long seed) {
    Random random = new Random(seed);
    double[][] strength = new double[CAUSES][SYMPTOMS];
    for (double[] row : strength) {
      for (int k = 0; k < 8; k++) {
        row[random.nextInt(SYMPTOMS)] = Word.values()[random.nextInt(6)].probability();
      }
    }
    Network network =
        new Network(
            IntStream.range(0, CAUSES).mapToObj(i -> "cause-" + i).toList(),
            random.doubles(CAUSES, -6, -2).toArray(),
            IntStream.range(0, SYMPTOMS).mapToObj(j -> "symptom-" + j).toList(),
            random.doubles(SYMPTOMS, 0.005, 0.15).toArray(),
            strength);
    List<Observation> seen = new ArrayList<>();
    for (int j = 60; j < SYMPTOMS; j++) {
      seen.add(j < 63 ? Observation.present(j) : Observation.absent(j));
    }
    List<Check> checks = new ArrayList<>();
    for (int j = 0; j < 60; j++) {
      Set<String> needs = j % 3 == 0 ? Set.of("wheel-out", "pads-out") : Set.of();
      checks.add(new Check("symptom-" + j, j, 1 + random.nextInt(6), needs, 0.1, 0.01));
    }
    List<Work> works = new ArrayList<>();
    for (int w = 0; w < WORKS - 1; w++) {
      Map<Integer, Double> mends = new HashMap<>();
      for (int k = 0; k < 1 + random.nextInt(5); k++) {
        mends.put(random.nextInt(CAUSES), Word.values()[random.nextInt(4)].probability());
      }
      mends.put(w, Word.values()[random.nextInt(3)].probability());
      Set<String> needs = w % 2 == 0 ? Set.of("wheel-out", "pads-out") : Set.of("lever-open");
      works.add(new Work("work-" + w, 5 + random.nextInt(56), needs, List.of(), mends));
    }
    works.add(new Work("hand-back", 5, Set.of(), List.of(), Map.of()));
    List<Hold> holds =
        List.of(
            new Hold(HoldKind.MEND_FIRST, "work-1", "symptom-60", "mend it first"),
            new Hold(HoldKind.CHECK_FIRST, "work-2", "symptom-3", "look first"),
            new Hold(HoldKind.DO_FIRST, "work-4", "work-5", "do it first"),
            new Hold(HoldKind.FORBIDDEN, "work-6", "work-6", "not here"));
    return new Problem(
        network,
        Scenarios.likeliest(
            network,
            seen,
            Inference.solve(network, seen),
            Scenarios.inQuestion(network, seen),
            3,
            60),
        checks,
        works,
        holds,
        Shop.standard(),
        Set.of());
  }

  public static void main(String[] arguments) {
    List<Problem> problems = IntStream.range(0, 40).mapToObj(PlannerTiming::large).toList();
    int found = 0;
    for (int round = 0; round < 6; round++) {
      double[] next = new double[problems.size()];
      double[] whole = new double[problems.size()];
      for (int k = 0; k < next.length; k++) {
        long before = CPU.getCurrentThreadCpuTime();
        found += Planner.next(problems.get(k)).isPresent() ? 1 : 0;
        long between = CPU.getCurrentThreadCpuTime();
        found += plan(problems.get(k)).steps().size();
        next[k] = (between - before) / 1e6;
        whole[k] = (CPU.getCurrentThreadCpuTime() - between) / 1e6;
      }
      Arrays.sort(next);
      Arrays.sort(whole);
      System.out.printf(
          "next step: median %.2f ms, slowest %.2f ms; whole plan: median %.1f ms, slowest %.1f ms"
              + " (%d steps so far)%n",
          next[next.length / 2],
          next[next.length - 1],
          whole[whole.length / 2],
          whole[whole.length - 1],
          found);
    }
  }

  private static Plan plan(Problem problem) {
    return Planner.plan(problem, Planner.Extent.WHOLE);
  }
}
