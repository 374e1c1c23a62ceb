package firmlever.benchmark;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Definition;
import firmlever.comeback.Findings;
import firmlever.comeback.Tally;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.DocumentReader;
import firmlever.invent.Depot;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.BufferedReader;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The review of comebacks against the known truth of the invented depot, and its speed. {@code
 * src/test/benchmarks review [SEEDS JOBS MANY]}: so many seeds with so many jobs each, then one run
 * of many jobs in a heap of 1 GiB. Usual: 40 20000 1000000. Prints figures and asserts nothing.
 */
public final class ReviewBenchmark {
  private ReviewBenchmark() {}

  /** Runs both measurements. */
  public static void main(String[] args) throws Exception {
    int seeds = args.length > 0 ? Integer.parseInt(args[0]) : 40;
    int jobs = args.length > 1 ? Integer.parseInt(args[1]) : 20_000;
    long many = args.length > 2 ? Long.parseLong(args[2]) : 1_000_000;
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    if (seeds > 0) {
      patterns(out, seeds, jobs);
    }
    if (many > 0) {
      speed(out, Files.createTempDirectory("firmlever-review-benchmark"), many);
    }
  }

  private static void patterns(PrintStream out, int seeds, int jobs) throws Exception {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    CaseReader reader = new CaseReader(vocabulary);
    Diagnostician diagnostician = new Diagnostician(RuleBase.builtIn(vocabulary));
    int found = 0;
    int named = 0;
    int wrong = 0;
    double shares = 0;
    for (int seed = 1; seed <= seeds; seed++) {
      Depot depot = new Depot(seed);
      Map<String, List<CaseFile>> brakes = new TreeMap<>();
      LocalDate[] end = {LocalDate.MIN};
      List<String> lines = new ArrayList<>();
      depot.write(jobs, lines::add);
      for (String line : lines) {
        CaseFile file = reader.read(DocumentReader.readText(line, "invented"), "invented");
        brakes.computeIfAbsent(file.brake().id(), id -> new ArrayList<>()).add(file);
        end[0] = file.opened().isAfter(end[0]) ? file.opened() : end[0];
      }
      Definition definition = new Definition(30, 90, end[0]);
      BrakeReview review = new BrakeReview(diagnostician, vocabulary, definition, 120);
      Tally tally =
          brakes.values().parallelStream()
              .collect(Tally::new, (t, visits) -> review.review(visits, t), Tally::merge);
      Set<String> told = new TreeSet<>();
      Findings.of(tally, definition, vocabulary, Optional.empty())
          .clusters()
          .forEach(cluster -> told.add(cluster.value()));
      Depot.Planted truth = depot.planted();
      Set<String> planted = Set.of(truth.lot(), truth.technician(), truth.season());
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
    run(folder, records, List.of(), "invent", "--jobs", String.valueOf(jobs), "--seed", "7");
    Path json = folder.resolve("many.json");
    Path gc = folder.resolve("gc.log");
    long start = System.nanoTime();
    List<String> told =
        run(
            folder,
            json,
            List.of("-Xmx1g", "-XX:+UseParallelGC", "-Xlog:gc:file=" + gc),
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

  /** Runs the command, standard output into a file; returns what it said on standard error. */
  private static List<String> run(Path folder, Path into, List<String> flags, String... args)
      throws Exception {
    List<String> command = new ArrayList<>(List.of("java"));
    command.addAll(flags);
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), "firmlever.cli.Main"));
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
