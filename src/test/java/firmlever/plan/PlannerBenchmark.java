package firmlever.plan;

import firmlever.diagnosis.RepairBenchmark;
import firmlever.document.BadInput;
import java.io.IOException;
import java.util.Arrays;
import java.util.Comparator;
import java.util.function.LongFunction;
import java.util.stream.IntStream;

/**
 * How good the planner is: its exact expected cost against the exact optimum, and against mending
 * the likeliest cause first, on seeded random models; then what it saves on brakes thrown from the
 * whole rule base. Prints figures; arguments: models a kind, brakes thrown.
 */
final class PlannerBenchmark {
  private PlannerBenchmark() {}

  public static void main(String[] arguments) throws BadInput, IOException {
    int models = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 300;
    int brakes = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 500;
    print("one fault, noisy checks", seed -> SmallModels.single(seed, 8), models);
    print("several faults, noisy checks", seed -> SmallModels.multiple(seed, 5), models);
    print("independent faults, no checks", SmallModels::independentWithoutChecks, models);
    RepairBenchmark.print(System.out, brakes, 1);
  }

  private static void print(String kind, LongFunction<Problem> model, int models) {
    double[] optimum = new double[models];
    double[] planner = new double[models];
    double[] likeliest = new double[models];
    for (int seed = 0; seed < models; seed++) {
      Problem problem = model.apply(seed);
      optimum[seed] = Policies.optimum(problem);
      planner[seed] = Policies.ofPlanner(problem);
      likeliest[seed] = Policies.ofProbabilityFirst(problem);
    }
    int[] byRatio =
        IntStream.range(0, models)
            .boxed()
            .sorted(Comparator.comparingDouble(k -> planner[k] / optimum[k]))
            .mapToInt(Integer::intValue)
            .toArray();
    double[] ratio = Arrays.stream(byRatio).mapToDouble(k -> planner[k] / optimum[k]).toArray();
    System.out.printf(
        "%-32s %d models: mean %.4f  95%% %.4f  worst %.4f (seed %d)  against the likeliest first"
            + " %.1f %%%n",
        kind,
        models,
        Arrays.stream(ratio).average().orElseThrow(),
        ratio[(int) Math.ceil(0.95 * models) - 1],
        ratio[models - 1],
        byRatio[models - 1],
        100 * (1 - Arrays.stream(planner).sum() / Arrays.stream(likeliest).sum()));
  }
}
