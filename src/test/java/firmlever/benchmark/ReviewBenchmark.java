package firmlever.benchmark;

import java.io.BufferedReader;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The review of comebacks against the known truth of the invented depot, and its speed. After a
 * build: {@code java -cp target/test-classes firmlever.benchmark.ReviewBenchmark [SEEDS JOBS
 * MANY]}: so many seeds with so many jobs each, then one run of many jobs in a heap of 1 GiB.
 * Usual: 40 20000 1000000. Prints figures and asserts nothing.
 */
public final class ReviewBenchmark {
  private static final Pattern VALUE =
      Pattern.compile(
          "\"by\" : \"([a-z-]+)\",\\s+\"value\" : \"([^\"]+)\",\\s+\"cause\" : \"([a-z-]*)\"");
  private static final Pattern PLANTED =
      Pattern.compile(
          "Planted: lot (\\S+), .*technician (\\S+), .*everything; ([a-z]+ \\(.*?\\)),");

  private ReviewBenchmark() {}

  /** Runs both measurements. */
  public static void main(String[] args) throws Exception {
    int seeds = args.length > 0 ? Integer.parseInt(args[0]) : 40;
    int jobs = args.length > 1 ? Integer.parseInt(args[1]) : 20_000;
    long many = args.length > 2 ? Long.parseLong(args[2]) : 1_000_000;
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    Path folder = Files.createTempDirectory("firmlever-review-benchmark");
    patterns(out, folder, seeds, jobs);
    if (many > 0) {
      speed(out, folder, many);
    }
  }

  private static void patterns(PrintStream out, Path folder, int seeds, int jobs) throws Exception {
    int found = 0;
    int named = 0;
    int wrong = 0;
    double shares = 0;
    for (int seed = 1; seed <= seeds; seed++) {
      Path records = folder.resolve("fleet.ndjson");
      Set<String> planted = invent(records, jobs, seed);
      Path json = folder.resolve("review.json");
      run(folder, json, List.of("-Xmx1g"), "review", records.toString(), "--json");
      String text = Files.readString(json);
      Matcher matcher = VALUE.matcher(text.substring(text.indexOf("\"patterns\"")));
      Set<String> told = new TreeSet<>();
      while (matcher.find()) {
        told.add(matcher.group(2));
      }
      Set<String> others = new TreeSet<>(told);
      others.removeAll(planted);
      Set<String> missed = new TreeSet<>(planted);
      missed.removeAll(told);
      found += planted.size() - missed.size();
      named += told.size();
      wrong += others.size();
      shares += told.isEmpty() ? 0 : (double) others.size() / told.size();
      out.printf(Locale.ROOT, "seed %2d: missed %s, beside the planted %s%n", seed, missed, others);
    }
    out.printf(
        Locale.ROOT,
        "%d seeds of %d jobs: planted patterns found %d of %d (%.1f %%); named beside them %d of %d;"
            + " mean false share %.1f %%%n",
        seeds,
        jobs,
        found,
        3 * seeds,
        100.0 * found / (3 * seeds),
        wrong,
        named,
        100 * shares / seeds);
  }

  private static void speed(PrintStream out, Path folder, long jobs) throws Exception {
    Path records = folder.resolve("many.ndjson");
    invent(records, jobs, 7);
    Path json = folder.resolve("many.json");
    Path gc = folder.resolve("gc.log");
    long start = System.nanoTime();
    List<String> told =
        run(
            folder,
            json,
            List.of("-Xmx1g", "-Xlog:gc:file=" + gc),
            "review",
            records.toString(),
            "--json");
    double seconds = (System.nanoTime() - start) / 1e9;
    int peak = 0;
    Matcher before = Pattern.compile("(\\d+)M->(\\d+)M").matcher(Files.readString(gc));
    int after = 0;
    while (before.find()) {
      peak = Math.max(peak, Integer.parseInt(before.group(1)));
      after = Math.max(after, Integer.parseInt(before.group(2)));
    }
    out.printf(
        Locale.ROOT,
        "%d jobs (%d MB) on %d processors: %.0f s, %.0f jobs a second; heap at most %d MB, after a"
            + " collection at most %d MB; %s%n",
        jobs,
        Files.size(records) >> 20,
        Runtime.getRuntime().availableProcessors(),
        seconds,
        jobs / seconds,
        peak,
        after,
        told.isEmpty() ? "" : told.get(told.size() - 1));
    Files.delete(records);
  }

  private static Set<String> invent(Path records, long jobs, long seed) throws Exception {
    List<String> told =
        run(
            records.getParent(),
            records,
            List.of(),
            "invent",
            "--jobs",
            String.valueOf(jobs),
            "--seed",
            String.valueOf(seed));
    Matcher planted = PLANTED.matcher(String.join(" ", told));
    if (!planted.find()) {
      throw new IllegalStateException("no planted patterns told: " + told);
    }
    return Set.of(planted.group(1), planted.group(2), planted.group(3));
  }

  /** Runs the command, standard output into a file; returns what it said on standard error. */
  private static List<String> run(Path folder, Path into, List<String> flags, String... args)
      throws Exception {
    List<String> command = new ArrayList<>(List.of("java"));
    command.addAll(flags);
    command.addAll(List.of("-jar", "target/firmlever.jar"));
    command.addAll(List.of(args));
    if (args[0].equals("review")) {
      command.addAll(List.of("--rejects", folder.resolve("rejects.csv").toString()));
    }
    Process process = new ProcessBuilder(command).redirectOutput(into.toFile()).start();
    List<String> told = new ArrayList<>();
    try (InputStream in = process.getErrorStream();
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      reader.lines().forEach(told::add);
    }
    if (process.waitFor() != 0) {
      throw new IllegalStateException(command + " failed: " + told);
    }
    return told;
  }
}
