package firmlever.cli;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Listening;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Ahead;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Difference;
import firmlever.diagnosis.report.DifferenceJson;
import firmlever.diagnosis.report.DifferenceReport;
import firmlever.diagnosis.report.FirstScreen;
import firmlever.diagnosis.report.JsonReport;
import firmlever.diagnosis.report.TextReport;
import firmlever.document.BadInput;
import firmlever.document.Limit;
import firmlever.document.Problem;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Ranks what is probably wrong, says whether the brake may be ridden, and what to do next. */
@Command(
    name = "triage",
    description = "What is wrong, whether it may be ridden, and what to do next.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "2:a case could not be read; the others are still told",
      "3:a brake must not be ridden (with --gate)"
    },
    mixinStandardHelpOptions = true)
final class TriageCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Parameters(arity = "1..*", paramLabel = "CASE", description = "case files")
  private List<String> files;

  @Option(names = "--json", description = "print the diagnosis for programs")
  private boolean json;

  @Option(names = "--gate", description = "exit with 3 where a brake must not be ridden")
  private boolean gate;

  @Option(
      names = "--why",
      description = "print all reasons, the other causes and the whole plan, not one screen")
  private boolean why;

  @Option(
      names = "--against",
      paramLabel = "OTHER",
      description = "tell only what is otherwise than in another case of the same brake")
  private @Nullable String other;

  @Mixin private Listening listening;

  @Option(
      names = "--draws",
      paramLabel = "N",
      defaultValue = "100",
      description =
          "redrawn models to try the firmness with; 0 for none (default: ${DEFAULT-VALUE})")
  private int draws;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the redrawn models (default: ${DEFAULT-VALUE})")
  private long seed;

  @Override
  public Integer call() throws BadInput {
    PrintWriter out = spec.commandLine().getOut();
    if (draws < 0 || draws > Limit.DRAWS.most()) {
      throw new BadInput(
          List.of(Problem.ofFile("--draws", "must lie between 0 and " + Limit.DRAWS.most(), "")));
    }
    if (other != null && (files.size() != 1 || why)) {
      throw new ParameterException(
          spec.commandLine(),
          "--against OTHER goes with one case, and tells only the difference: without --why");
    }
    Engine engine = listening.start(shop);
    List<Diagnosis> diagnoses = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    List<CaseFile> read = new ArrayList<>();
    for (String file : other == null ? files : List.of(other, files.get(0))) {
      problems.addAll(
          OneCase.problems(
              file,
              () -> {
                CaseFile caseFile = engine.reader().read(CaseFolder.path(file), file);
                Options options =
                    other == null ? new Options(draws, seed, Ahead.ANSWERS) : Options.WITHOUT_DRAWS;
                read.add(caseFile);
                diagnoses.add(
                    engine.diagnostician().diagnose(listening.heed(engine, caseFile), options));
              }));
    }
    if (other != null) {
      if (problems.isEmpty()) {
        out.print(told(engine, read, diagnoses));
      }
    } else if (json && !diagnoses.isEmpty()) {
      out.println(files.size() == 1 ? JsonReport.of(diagnoses.get(0)) : JsonReport.of(diagnoses));
    } else {
      TextReport all = new TextReport(engine.vocabulary(), Terminal.width(), Terminal.bold());
      FirstScreen first = new FirstScreen(engine.vocabulary(), Terminal.width(), Terminal.bold());
      for (int i = 0; i < diagnoses.size(); i++) {
        Diagnosis each = diagnoses.get(i);
        out.print((i == 0 ? "" : "\n") + (why ? all.of(each) : first.of(each)));
      }
    }
    problems.forEach(problem -> spec.commandLine().getErr().println(problem.spoken()));
    if (!problems.isEmpty()) {
      return Exit.BAD_INPUT;
    }
    return gate && diagnoses.stream().skip(other == null ? 0 : 1).anyMatch(Diagnosis::stopRide)
        ? Exit.STOP_RIDE
        : Exit.DONE;
  }

  private String told(Engine engine, List<CaseFile> read, List<Diagnosis> diagnoses)
      throws BadInput {
    String before = read.get(0).brake().id();
    String now = read.get(1).brake().id();
    if (!before.equals(now)) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  requireNonNull(other),
                  "is of brake " + before + ", and not of " + now,
                  "Maybe name a case of the same brake.")));
    }
    Diagnosis was = diagnoses.get(0);
    Diagnosis is = diagnoses.get(1);
    return json
        ? DifferenceJson.of(was, is) + "\n"
        : new DifferenceReport(engine.vocabulary())
            .text(
                is.caseId() + ": " + is.brake() + "; against " + other,
                Difference.of(was, is),
                Terminal.width(),
                Terminal.bold());
  }
}
