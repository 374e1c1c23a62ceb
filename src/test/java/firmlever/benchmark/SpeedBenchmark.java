package firmlever.benchmark;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.DocumentReader;
import firmlever.rulebase.CompiledAtStart;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * How fast triage is: cold from the shell, against the same rules compiled at start, and warm. Run
 * it with {@code src/test/benchmarks speed}; prints figures and asserts nothing.
 */
public final class SpeedBenchmark {
  private static final int COLD_RUNS = 15;
  private static final int COMPILED_RUNS = 3;
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";

  private SpeedBenchmark() {}

  /** Runs all measurements; {@code compiled CASE} is the child that compiles the rules at start. */
  public static void main(String[] args) throws Exception {
    if (args.length == 2 && args[0].equals("compiled")) {
      Vocabulary vocabulary = VocabularyReader.builtIn();
      RuleBase rules = CompiledAtStart.ruleBase(vocabulary, Path.of("rules"));
      CaseFile file = new CaseReader(vocabulary).read(Path.of(args[1]), args[1]);
      System.out.println(new Diagnostician(rules).diagnose(file, Options.USUAL).first());
      return;
    }
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    cold(out);
    warm(out);
  }

  private static void cold(PrintStream out) throws Exception {
    run(List.of("./firmlever", "triage", DEMO));
    double[] built = new double[COLD_RUNS];
    for (int i = 0; i < COLD_RUNS; i++) {
      built[i] = run(List.of("./firmlever", "triage", DEMO));
    }
    List<String> compiling =
        List.of(
            "java",
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-cp",
            System.getProperty("java.class.path"),
            SpeedBenchmark.class.getName(),
            "compiled",
            DEMO);
    double[] compiled = new double[COMPILED_RUNS];
    for (int i = 0; i < COMPILED_RUNS; i++) {
      compiled[i] = run(compiling);
    }
    out.printf(
        Locale.ROOT,
        "cold, shell to output, with firmness: median %.3f s of %d runs (best %.3f, worst %.3f)%n",
        median(built),
        COLD_RUNS,
        Arrays.stream(built).min().orElseThrow(),
        Arrays.stream(built).max().orElseThrow());
    out.printf(
        Locale.ROOT,
        "cold, same rules compiled at start:   median %.3f s of %d runs; %.1f times as long%n",
        median(compiled),
        COMPILED_RUNS,
        median(compiled) / median(built));
  }

  private static double run(List<String> command) throws IOException, InterruptedException {
    long start = System.nanoTime();
    Process process =
        new ProcessBuilder(command)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    if (process.waitFor() != 0) {
      throw new IllegalStateException("failed: " + command);
    }
    return (System.nanoTime() - start) / 1e9;
  }

  private static void warm(PrintStream out) throws Exception {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    CaseReader reader = new CaseReader(vocabulary);
    Diagnostician diagnostician = new Diagnostician(RuleBase.builtIn(vocabulary));
    List<byte[]> texts = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("cases/regression"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        texts.add(Files.readAllBytes(file));
      }
    }
    int cases = 100_000;
    double[] millis = new double[cases];
    long before = 0;
    for (int i = 0; i < cases; i++) {
      long start = System.nanoTime();
      CaseFile file = reader.read(DocumentReader.read(texts.get(i % texts.size()), "case"), "case");
      diagnostician.diagnose(file, Options.WITHOUT_DRAWS);
      millis[i] = (System.nanoTime() - start) / 1e6;
      if (i == cases / 10) {
        before = usedMegabytes();
      }
    }
    double[] settled = Arrays.copyOfRange(millis, cases / 10, cases);
    Arrays.sort(settled);
    out.printf(
        Locale.ROOT,
        "warm, text to diagnosis, one thread, no draws: median %.2f ms, 95 %% %.2f ms, worst %.1f ms"
            + " over %d runs of %d cases%n",
        settled[settled.length / 2],
        settled[(int) (settled.length * 0.95)],
        settled[settled.length - 1],
        cases,
        texts.size());
    out.printf(
        Locale.ROOT,
        "memory after %d runs %d MB, after %d runs %d MB%n",
        cases / 10,
        before,
        cases,
        usedMegabytes());
  }

  private static long usedMegabytes() throws InterruptedException {
    for (int i = 0; i < 3; i++) {
      System.gc();
      Thread.sleep(50);
    }
    Runtime runtime = Runtime.getRuntime();
    return (runtime.totalMemory() - runtime.freeMemory()) >> 20;
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
