package firmlever.benchmark;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.BrakeReview;
import firmlever.comeback.Costs;
import firmlever.comeback.Counting;
import firmlever.comeback.Findings;
import firmlever.comeback.Groups;
import firmlever.comeback.Tally;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.visits.Definition;
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
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The review of comebacks against the known truth of the invented depot, and its speed. {@code
 * src/test/benchmarks review [SEEDS JOBS MANY]}: so many seeds with so many jobs each, as they are
 * and with the codes of the technicians shuffled, then one run of many jobs in a heap of 1 GiB.
 * Usual: 40 20000 1000000. Prints figures and asserts nothing.
 */
public final class ReviewBenchmark {
  /** Diagnosing takes long: only one record in so many is diagnosed where chance is measured. */
  private static final int DIAGNOSED = 13;

  private ReviewBenchmark() {}

  /** Runs both measurements. */
  public static void main(String[] args) throws Exception {
    int seeds = args.length > 0 ? Integer.parseInt(args[0]) : 40;
    int jobs = args.length > 1 ? Integer.parseInt(args[1]) : 20_000;
    long many = args.length > 2 ? Long.parseLong(args[2]) : 1_000_000;
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    if (seeds > 0) {
      groups(out, seeds, jobs, false);
      groups(out, seeds, jobs, true);
      avoidable(out, seeds, jobs / DIAGNOSED);
    }
    if (many > 0) {
      speed(out, Files.createTempDirectory("firmlever-review-benchmark"), many);
    }
  }

  private static void groups(PrintStream out, int seeds, int jobs, boolean shuffled)
      throws Exception {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    CaseReader reader = new CaseReader(vocabulary);
    int found = 0;
    int wrong = 0;
    int named = 0;
    int personsAccused = 0;
    int persons = 0;
    int accusing = 0;
    int praising = 0;
    double byChance = 0;
    for (int seed = 1; seed <= seeds; seed++) {
      Depot depot = new Depot(seed);
      List<CaseFile> files = new ArrayList<>();
      List<String> lines = new ArrayList<>();
      depot.write(jobs, lines::add);
      for (String line : shuffled ? shuffled(lines, seed) : lines) {
        files.add(reader.read(DocumentReader.readText(line, "invented"), "invented"));
      }
      Map<String, List<CaseFile>> brakes = new TreeMap<>();
      LocalDate end = LocalDate.MIN;
      for (CaseFile file : files) {
        brakes.computeIfAbsent(file.brake().id(), id -> new ArrayList<>()).add(file);
        end = file.opened().isAfter(end) ? file.opened() : end;
      }
      Findings told = Counting.of(brakes.values(), new Definition(30, 90, end), vocabulary);
      Set<String> patterns = new TreeSet<>();
      told.clusters().forEach(cluster -> patterns.add(cluster.value()));
      Depot.Planted truth = depot.planted();
      Set<String> planted = new TreeSet<>(Set.of(truth.lot(), truth.season()));
      if (!shuffled) {
        planted.add(truth.technician());
      }
      Set<String> others = new TreeSet<>(patterns);
      others.removeAll(planted);
      Set<String> missed = new TreeSet<>(planted);
      missed.removeAll(patterns);
      found += planted.size() - missed.size();
      persons += planted.size();
      named += patterns.size();
      wrong += others.size();
      Set<String> accused = new TreeSet<>();
      Set<String> praised = new TreeSet<>();
      for (Groups.Comparison comparison : told.brakeGroups()) {
        for (Groups.Standing standing : comparison.standings()) {
          boolean innocent = shuffled || !standing.name().startsWith(truth.technician());
          if (comparison.trait().ofPersons() && innocent) {
            switch (standing.like().verdict()) {
              case ABOVE_THE_OTHERS -> accused.add(standing.name());
              case BELOW_THE_OTHERS -> praised.add(standing.name());
              default -> {}
            }
          }
        }
      }
      accusing += accused.isEmpty() ? 0 : 1;
      praising += accused.isEmpty() && praised.isEmpty() ? 0 : 1;
      personsAccused += accused.size() + praised.size();
      byChance += told.persons().byChance();
      out.printf(
          Locale.ROOT,
          "seed %2d: missed %s, beside the planted %s; innocent persons above %s, below %s%n",
          seed,
          missed,
          others,
          accused,
          praised);
    }
    out.printf(
        Locale.ROOT,
        "%s%d seeds of %d jobs: planted patterns found %d of %d (%.1f %%); named beside them %d of"
            + " %d. Verdicts on innocent persons %d, in %d seeds (above the others in %d);"
            + " the built-in shuffle foretells %.2f%n",
        shuffled ? "codes shuffled, " : "",
        seeds,
        jobs,
        found,
        persons,
        100.0 * found / persons,
        wrong,
        named,
        personsAccused,
        praising,
        accusing,
        byChance);
  }

  /** What is called avoidable beyond chance, as it is and where chance is all there is. */
  private static void avoidable(PrintStream out, int seeds, int jobs) throws Exception {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    CaseReader reader = new CaseReader(vocabulary);
    Diagnostician diagnostician = new Diagnostician(RuleBase.builtIn(vocabulary));
    int covered = 0;
    double sum = 0;
    double shuffledSum = 0;
    for (int seed = 1; seed <= seeds; seed++) {
      Map<String, List<CaseFile>> brakes = new TreeMap<>();
      List<String> lines = new ArrayList<>();
      new Depot(seed).write(jobs, lines::add);
      LocalDate end = LocalDate.MIN;
      for (String line : lines) {
        CaseFile file = reader.read(DocumentReader.readText(line, "invented"), "invented");
        brakes.computeIfAbsent(file.brake().id(), id -> new ArrayList<>()).add(file);
        end = file.opened().isAfter(end) ? file.opened() : end;
      }
      BrakeReview review =
          new BrakeReview(
              diagnostician,
              vocabulary,
              new Definition(30, 90, end),
              new Costs(120, Double.NaN, 0));
      PairedShare asIs = level(review, brakes.values());
      PairedShare shuffled =
          level(review, Counting.shuffledSecondVisits(brakes.values(), 90, vocabulary, seed));
      Interval limits = shuffled.interval(0.95);
      covered += limits.contains(0) ? 1 : 0;
      sum += asIs.difference();
      shuffledSum += shuffled.difference();
      out.printf(
          Locale.ROOT,
          "seed %2d: of %d comebacks beyond chance %.3f; second visits shuffled %.3f (%.3f to %.3f)%n",
          seed,
          asIs.units(),
          asIs.difference(),
          shuffled.difference(),
          limits.low(),
          limits.high());
    }
    out.printf(
        Locale.ROOT,
        "avoidable beyond chance, %d seeds of %d jobs: %.3f on average; with second visits shuffled"
            + " %.3f, the 95 %% interval covers zero in %d%n",
        seeds,
        jobs,
        sum / seeds,
        shuffledSum / seeds,
        covered);
  }

  private static PairedShare level(BrakeReview review, Collection<List<CaseFile>> brakes) {
    Tally tally =
        brakes.parallelStream()
            .collect(Tally::new, (t, visits) -> review.review(visits, t), Tally::merge);
    return review.conclude(tally, Findings.Asked.NOTHING).chanceLevel().avoidable();
  }

  /** The same records with the codes of the technicians dealt out anew over all of them. */
  private static List<String> shuffled(List<String> lines, long seed) {
    Pattern by = Pattern.compile("(\"works\":\\[[^\\]]*\\],\"by\":\")(T\\d+)\"");
    List<String> codes = new ArrayList<>();
    for (String line : lines) {
      Matcher code = by.matcher(line);
      if (code.find()) {
        codes.add(code.group(2));
      }
    }
    Collections.shuffle(codes, new Random(seed));
    List<String> dealt = new ArrayList<>();
    int next = 0;
    for (String line : lines) {
      Matcher code = by.matcher(line);
      dealt.add(code.find() ? code.replaceFirst("$1" + codes.get(next++) + "\"") : line);
    }
    return dealt;
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
