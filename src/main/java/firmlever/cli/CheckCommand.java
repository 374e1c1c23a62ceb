package firmlever.cli;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Expectation;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Expectations;
import firmlever.diagnosis.RuleCoverage;
import firmlever.diagnosis.report.ChangedCases;
import firmlever.diagnosis.report.ChangedCases.Changed;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.document.Visible;
import firmlever.hearing.Heeding;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.rulebase.BrakeModel;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Runs case files with an expectation as tests of the rule base. */
@Command(
    name = "check",
    description =
        "Case files as regression tests of the rule base; with --rules also what these rules change.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every expectation was met",
      "1:an expectation was missed",
      "2:a case could not be read"
    },
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Parameters(
      arity = "0..*",
      paramLabel = "DIR",
      description = "case files or folders of them (default: cases)")
  private List<String> folders = List.of("cases");

  @Option(
      names = "--coverage",
      description = "also take out each rule in turn and print the rules no case pins")
  private boolean coverage;

  @Option(
      names = "--report",
      description = "also print how often the right cause is first and in the first three")
  private boolean report;

  @Option(names = "--quiet", description = "print only cases that miss their expectation")
  private boolean quiet;

  private final List<CaseFile> read = new ArrayList<>();
  private final List<Changed> changed = new ArrayList<>();
  private int tested;
  private final Hits coded = new Hits("findings alone");
  private final Hits words = new Hits("complaint alone");
  private final Hits both = new Hits("both");
  private int met;
  private int failed;
  private int knownMisses;

  @Override
  public Integer call() throws BadInput {
    PrintWriter out = spec.commandLine().getOut();
    Engine engine = Engine.start(shop);
    Optional<Diagnostician> before = shop.folder().map(folder -> Engine.start().diagnostician());
    List<Problem> problems = new ArrayList<>();
    for (Path file : CaseFolder.files(folders)) {
      problems.addAll(OneCase.problems(file.toString(), () -> test(out, engine, before, file)));
    }
    if (coverage) {
      coverage(out, engine, read);
    }
    if (report) {
      Stream.of(coded, words, both).forEach(hits -> hits.print(out));
    }
    if (before.isPresent()) {
      ChangedCases screen =
          new ChangedCases(engine.vocabulary(), Terminal.width(), Terminal.bold());
      out.print(screen.of("The rules of " + shop.folder().orElseThrow(), changed));
    }
    problems.forEach(problem -> spec.commandLine().getErr().println(problem.spoken()));
    out.println(
        tested
            + " cases checked: "
            + met
            + " as expected, "
            + failed
            + " not, "
            + knownMisses
            + " known misses; "
            + (read.size() - tested)
            + " without an expectation were only read.");
    if (!problems.isEmpty()) {
      return Exit.BAD_INPUT;
    }
    return failed == 0 ? Exit.DONE : Exit.FAILED;
  }

  private void test(PrintWriter out, Engine engine, Optional<Diagnostician> before, Path file)
      throws BadInput {
    CaseFile caseFile = engine.reader().read(file, file.toString());
    Diagnosis diagnosis = engine.diagnostician().diagnose(caseFile, Options.WITHOUT_DRAWS);
    read.add(caseFile);
    before.ifPresent(
        old ->
            changed.add(
                new Changed(
                    file.toString(),
                    Difference.of(old.diagnose(caseFile, Options.WITHOUT_DRAWS), diagnosis))));
    if (caseFile.expectation().isEmpty()) {
      return;
    }
    List<String> missed = Expectations.missed(caseFile.expectation().orElseThrow(), diagnosis);
    tested++;
    if (report) {
      arms(engine, caseFile, diagnosis);
    }
    if (missed.isEmpty()) {
      met++;
      if (!quiet) {
        out.println("met     " + file);
      }
    } else if (caseFile.knownMiss().isPresent()) {
      knownMisses++;
      out.println("known   " + file + ": " + Visible.of(caseFile.knownMiss().orElseThrow()));
    } else {
      failed++;
      missed(out, file, caseFile, engine.rules().consult(caseFile), missed);
    }
  }

  /** What was expected, held against what findings, words, and both together lead to. */
  private void arms(Engine engine, CaseFile caseFile, Diagnosis byFindings) {
    Expectation wanted = caseFile.expectation().orElseThrow();
    coded.add(wanted, byFindings);
    if (!caseFile.complaint().isEmpty()) {
      Heeding heeding = engine.heeding();
      words.add(
          wanted,
          engine
              .diagnostician()
              .diagnose(heeding.heed(caseFile.complaintAlone()), Options.WITHOUT_DRAWS));
      both.add(
          wanted, engine.diagnostician().diagnose(heeding.heed(caseFile), Options.WITHOUT_DRAWS));
    }
  }

  /** Says what a case misses, and which rules spoke of the causes and steps it is about. */
  private static void missed(
      PrintWriter out, Path file, CaseFile caseFile, BrakeModel model, List<String> missed) {
    out.println("missed  " + file);
    missed.forEach(sentence -> out.println("          " + sentence));
    out.println("          why: " + Visible.of(caseFile.why()));
    String all = String.join(" ", missed);
    String rules =
        model.fired().stream()
            .filter(rule -> all.contains(rule.substring(0, Math.max(0, rule.indexOf(':')))))
            .filter(rule -> rule.indexOf(':') > 0)
            .collect(Collectors.joining(" | "));
    out.println("          rules that spoke: " + (rules.isEmpty() ? "none" : rules));
  }

  private static void coverage(PrintWriter out, Engine engine, List<CaseFile> cases) {
    List<RuleCoverage.Covered> covered = RuleCoverage.of(engine.rules(), cases);
    print(out, "matched in no case", covered, c -> c.matched() == 0);
    print(out, "matched in one case only", covered, c -> c.matched() == 1);
    print(out, "pinned by no case", covered, c -> c.pinnedBy().isEmpty());
  }

  private static void print(
      PrintWriter out,
      String what,
      List<RuleCoverage.Covered> covered,
      Predicate<RuleCoverage.Covered> which) {
    List<RuleCoverage.Covered> found = covered.stream().filter(which).toList();
    out.println(found.size() + " of " + covered.size() + " rules are " + what + ".");
    found.forEach(c -> out.println("          " + c.rule().name()));
  }
}
