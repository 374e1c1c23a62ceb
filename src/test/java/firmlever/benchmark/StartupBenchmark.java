package firmlever.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/**
 * What every command costs from the shell, as a multiple of a bare JVM that prints one word under
 * the same flags. All take turns, so that what else the machine does falls on all alike. Prints
 * figures and asserts nothing: {@code src/test/benchmarks startup [ROUNDS [LAUNCHER]]}.
 */
public final class StartupBenchmark {
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";
  private static final String POLICY = "rules/policies/lakeside-depot.json";

  private StartupBenchmark() {}

  /** The bare JVM: one word. */
  public static final class Word {
    private Word() {}

    public static void main(String[] args) {
      System.out.println("word");
    }
  }

  /** One run: what the clock on the wall says, and the processor, in ms. */
  private record Cost(double wall, double processor) {}

  public static void main(String[] args) throws Exception {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    int rounds = args.length > 0 ? Integer.parseInt(args[0]) : 7;
    String launcher = args.length > 1 ? args[1] : "./firmlever";
    Path scratch = Files.createTempDirectory("startup");
    Map<String, List<String>> commands = new LinkedHashMap<>();
    commands.put("bare JVM", bare());
    for (String line :
        List.of(
            "triage " + DEMO,
            "triage " + DEMO + " --json",
            "triage " + DEMO + " --draws 0 --coded-only",
            "whynot " + DEMO + " worn-pads",
            "jobcard " + DEMO,
            "accept " + DEMO,
            "curve cases/demo/soft-with-readings.json",
            "ask " + DEMO,
            "words handle",
            "rules worn-pads",
            "sources",
            "schema",
            "policy " + POLICY + " --claims cases/demo",
            "justify cases/claims/weep-within-period.json --policy " + POLICY,
            "check cases/demo",
            "invent --jobs 1",
            "store import " + DEMO + " --store " + scratch.resolve("jobs.db"),
            "--version",
            "--help")) {
      List<String> command = new ArrayList<>(List.of(launcher));
      command.addAll(List.of(line.split(" ")));
      commands.put(line.replace(DEMO, "CASE").replace(scratch.toString(), "DIR"), command);
    }
    Map<String, List<Cost>> costs = new LinkedHashMap<>();
    commands.keySet().forEach(name -> costs.put(name, new ArrayList<>()));
    for (int round = 0; round <= rounds; round++) {
      for (Map.Entry<String, List<String>> each : commands.entrySet()) {
        Cost cost = run(each.getValue());
        // The first round fills caches, and may build.
        if (round > 0) {
          costs.get(each.getKey()).add(cost);
        }
      }
    }
    Cost bare = median(costs.get("bare JVM"));
    out.printf(
        Locale.ROOT,
        "medians of %d rounds in turns, %s; times the bare JVM in brackets%n",
        rounds,
        launcher);
    costs.forEach(
        (name, all) -> {
          Cost cost = median(all);
          out.printf(
              Locale.ROOT,
              "%-64s wall %5.0f ms (%4.1f)   processor %5.0f ms (%4.1f)%n",
              name,
              cost.wall(),
              cost.wall() / bare.wall(),
              cost.processor(),
              cost.processor() / bare.processor());
        });
  }

  /** With the flags that the launchers use, read where they stand. */
  private static List<String> bare() throws IOException, InterruptedException {
    Process shell =
        new ProcessBuilder("bash", "-c", ". src/bundle/start; printf '%s\\n' \"${flags[@]}\"")
            .start();
    List<String> command =
        new ArrayList<>(List.of(Path.of(System.getProperty("java.home"), "bin/java").toString()));
    command.addAll(
        new String(shell.getInputStream().readAllBytes(), StandardCharsets.UTF_8).lines().toList());
    command.addAll(List.of("-cp", "target/test-classes", Word.class.getName()));
    return command;
  }

  private static Cost run(List<String> command) throws IOException, InterruptedException {
    List<String> timed =
        new ArrayList<>(List.of("bash", "-c", "\"$@\" >/dev/null 2>&1 </dev/null; times", "-"));
    timed.addAll(command);
    long start = System.nanoTime();
    Process process = new ProcessBuilder(timed).start();
    String times = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    double wall = (System.nanoTime() - start) / (double) TimeUnit.MILLISECONDS.toNanos(1);
    // The second line is of the children: user and system, as 0m1.234s.
    String[] children = times.lines().skip(1).findFirst().orElseThrow().split("[ms ]+");
    return new Cost(
        wall,
        1000
            * (60 * number(children[0])
                + number(children[1])
                + 60 * number(children[2])
                + number(children[3])));
  }

  private static double number(String text) {
    return Double.parseDouble(text.replace(',', '.'));
  }

  private static Cost median(List<Cost> costs) {
    double[] walls = costs.stream().mapToDouble(Cost::wall).sorted().toArray();
    double[] processors = costs.stream().mapToDouble(Cost::processor).sorted().toArray();
    return new Cost(walls[walls.length / 2], processors[processors.length / 2]);
  }
}
