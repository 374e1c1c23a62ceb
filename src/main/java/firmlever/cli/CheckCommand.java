package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Expectations;
import firmlever.diagnosis.RuleCoverage;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Runs case files with an expectation as tests of the rule base. */
@Command(
    name = "check",
    description = "Case files as regression tests of the rule base.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every expectation was met",
      "1:an expectation was missed",
      "2:a case could not be read"
    },
    mixinStandardHelpOptions = true)
final class CheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..*",
      paramLabel = "DIR",
      description = "case files or folders of them (default: cases)")
  private List<String> folders = List.of("cases");

  @Option(
      names = "--coverage",
      description = "also take out each rule in turn and print the rules no case pins")
  private boolean coverage;

  @Option(names = "--quiet", description = "print only cases that miss their expectation")
  private boolean quiet;

  @Override
  public Integer call() throws BadInput {
    PrintWriter out = spec.commandLine().getOut();
    Engine engine = Engine.start();
    List<Problem> problems = new ArrayList<>();
    int met = 0;
    int failed = 0;
    int knownMisses = 0;
    int without = 0;
    List<CaseFile> read = new ArrayList<>();
    for (Path file : CaseFolder.files(folders)) {
      try {
        CaseFile caseFile = engine.reader().read(file, file.toString());
        read.add(caseFile);
        if (caseFile.expectation().isEmpty()) {
          without++;
          continue;
        }
        Diagnosis diagnosis = engine.diagnostician().diagnose(caseFile, Options.WITHOUT_DRAWS);
        List<String> missed = Expectations.missed(caseFile.expectation().orElseThrow(), diagnosis);
        if (missed.isEmpty()) {
          met++;
          if (!quiet) {
            out.println("met     " + file);
          }
        } else if (caseFile.knownMiss().isPresent()) {
          knownMisses++;
          out.println("known   " + file + ": " + caseFile.knownMiss().orElseThrow());
        } else {
          failed++;
          out.println("missed  " + file);
          missed.forEach(sentence -> out.println("          " + sentence));
          out.println("          why: " + caseFile.why());
        }
      } catch (BadInput e) {
        problems.addAll(e.problems());
      } catch (TooManySymptoms e) {
        problems.add(Problem.ofFile(file.toString(), e.getMessage(), ""));
      }
    }
    if (coverage) {
      coverage(out, engine, read);
    }
    problems.forEach(problem -> spec.commandLine().getErr().println(problem.spoken()));
    out.println(
        (met + failed + knownMisses)
            + " cases checked: "
            + met
            + " as expected, "
            + failed
            + " not, "
            + knownMisses
            + " known misses; "
            + without
            + " without an expectation were read and skipped.");
    if (!problems.isEmpty()) {
      return Exit.BAD_INPUT;
    }
    return failed == 0 ? Exit.DONE : Exit.FAILED;
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
