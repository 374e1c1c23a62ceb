package firmlever.benchmark;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import firmlever.warranty.Desk;
import firmlever.warranty.Dossier;
import firmlever.warranty.Submitted;
import firmlever.warranty.Submitted.Papers;
import firmlever.warranty.Submitted.Unreadable;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import firmlever.warranty.report.DossierReport;
import java.io.IOException;
import java.io.PrintStream;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * How fast the warranty desk is: the demo claims over and over, from text to JSON and HTML without
 * PDF on all cores, then the PDF of the split claim, warm. After a build run it with {@code mvn -q
 * exec:java -Dexec.classpathScope=test -Dexec.mainClass=firmlever.benchmark.DeskBenchmark}; prints
 * figures and asserts nothing. The processor time is printed beside the clock, because a shared
 * machine stretches the clock only.
 */
public final class DeskBenchmark {
  private DeskBenchmark() {}

  private static final Papers PAPERS =
      paper -> {
        try {
          return Files.readAllBytes(Path.of("cases/claims").resolve(paper));
        } catch (IOException e) {
          throw new Unreadable(e.toString());
        }
      };
  private static final int CASES = 2_000;
  private static final int PDFS = 40;

  /** Runs all measurements. */
  public static void main(String[] args) throws Exception {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    Vocabulary vocabulary = VocabularyReader.builtIn();
    RuleBase rules = RuleBase.builtIn(vocabulary);
    Desk desk = new Desk(rules, WarrantyRules.builtIn());
    CaseReader reader = new CaseReader(vocabulary);
    DossierReport report = new DossierReport(vocabulary);
    Policy policy =
        new PolicyReader(vocabulary)
            .read(Files.readAllBytes(Path.of("rules/policies/lakeside-depot.json")), "policy");
    List<byte[]> texts = new ArrayList<>();
    try (Stream<Path> files = Files.list(Path.of("cases/claims"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        texts.add(Files.readAllBytes(file));
      }
    }
    Work whole =
        i -> {
          Submitted submitted = Submitted.read(reader, texts.get(i % texts.size()), "case", PAPERS);
          Dossier dossier = desk.judge(submitted, policy);
          report.json(dossier);
          report.html(dossier);
        };
    Work decisionOnly =
        i ->
            desk.decide(
                Submitted.read(reader, texts.get(i % texts.size()), "case", PAPERS).file(), policy);
    Diagnostician diagnostician = new Diagnostician(rules);
    Work diagnosisOnly =
        i ->
            diagnostician.diagnose(
                Submitted.read(reader, texts.get(i % texts.size()), "case", PAPERS).file(),
                Diagnostician.Options.WITHOUT_DRAWS);
    measure(out, "warming up", CASES, whole);
    measure(out, "text to dossier (JSON and HTML)", CASES, whole);
    measure(out, "of which diagnosis with its plan", CASES, diagnosisOnly);
    measure(out, "of which decision without turns", CASES, decisionOnly);
    Dossier split =
        desk.judge(
            Submitted.read(
                reader,
                Files.readAllBytes(Path.of("cases/claims/weep-and-worn-pads.json")),
                "case",
                PAPERS),
            policy);
    double[] seconds = new double[PDFS];
    var threads = ManagementFactory.getThreadMXBean();
    long busy = 0;
    int bytes = 0;
    for (int i = 0; i < PDFS; i++) {
      long start = System.nanoTime();
      if (i == PDFS / 2) {
        busy = threads.getCurrentThreadCpuTime();
      }
      bytes = report.pdf(split).length;
      seconds[i] = (System.nanoTime() - start) / 1e9;
    }
    double first = seconds[0];
    double[] warm = Arrays.copyOfRange(seconds, PDFS / 2, PDFS);
    Arrays.sort(warm);
    out.printf(
        Locale.ROOT,
        "PDF of the split claim: first %.2f s, warm median %.3f s, worst %.3f s, %.3f s of processor; %d bytes%n",
        first,
        warm[warm.length / 2],
        warm[warm.length - 1],
        (threads.getCurrentThreadCpuTime() - busy) / 1e9 / warm.length,
        bytes);
  }

  private interface Work {
    void run(int number) throws Exception;
  }

  private static void measure(PrintStream out, String what, int cases, Work work) {
    long start = System.nanoTime();
    double busyNanos =
        IntStream.range(0, cases)
            .parallel()
            .mapToDouble(
                i -> {
                  var threads = ManagementFactory.getThreadMXBean();
                  long before = threads.getCurrentThreadCpuTime();
                  try {
                    work.run(i);
                  } catch (Exception e) {
                    throw new IllegalStateException(e);
                  }
                  return threads.getCurrentThreadCpuTime() - before;
                })
            .sum();
    double seconds = (System.nanoTime() - start) / 1e9;
    out.printf(
        Locale.ROOT,
        "%s: %d cases in %.1f s, %.0f cases a minute; %.2f ms of processor a case%n",
        what,
        cases,
        seconds,
        60 * cases / seconds,
        busyNanos / 1e6 / cases);
  }
}
