package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Listening;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.hearing.Heeding.Heeded;
import firmlever.jobcard.JobCard;
import firmlever.jobcard.JobCardHtml;
import firmlever.jobcard.JobCardJson;
import firmlever.jobcard.JobCardText;
import firmlever.jobcard.JobCards;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes the work out step by step for this brake. */
@Command(
    name = "jobcard",
    description = "The work, step by step for this brake, to be ticked.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the card was written",
      "1:the work may not be done now; it is said why, and what to do first",
      "2:the case could not be read, or an action is not known"
    },
    mixinStandardHelpOptions = true)
final class JobCardCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Mixin private Listening listening;

  @Parameters(index = "0", paramLabel = "CASE", description = "case file")
  private String file;

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "ACTION",
      description = "works in their order (default: the first work the plan allows)")
  private List<String> actions = List.of();

  @Option(names = "--json", description = "print the card for programs")
  private boolean json;

  @Option(
      names = "--html",
      paramLabel = "FILE",
      description = "write the card as a page to be printed on one sheet")
  private @Nullable String html;

  @Override
  public Integer call() throws BadInput {
    new Outputs().reading(List.of(CaseFolder.path(file))).reading(shop).file(html).check();
    Engine engine = listening.start(shop);
    Vocabulary vocabulary = engine.vocabulary();
    mustBeKnown(vocabulary);
    Heeded heeded = listening.heed(engine, engine.reader().read(CaseFolder.path(file), file));
    CaseFile caseFile = heeded.file();
    BrakeModel model = engine.rules().consult(caseFile);
    try {
      Diagnosis diagnosis = engine.diagnostician().diagnose(heeded, model, Options.BARE);
      JobCard card =
          new JobCards(vocabulary, JobCardRules.builtIn(vocabulary))
              .write(caseFile, model, diagnosis, actions);
      if (html != null) {
        WholeFile.write(CaseFolder.path(html), new JobCardHtml(vocabulary).of(card));
      }
      if (json) {
        spec.commandLine().getOut().println(JobCardJson.of(card));
      } else if (html == null) {
        spec.commandLine()
            .getOut()
            .print(new JobCardText(vocabulary, Terminal.width(), Terminal.bold()).of(card));
      }
      return Exit.DONE;
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(OneCase.refused(file, e)));
    } catch (JobCards.NotNow e) {
      spec.commandLine().getErr().println(file + ": " + e.getMessage());
      return Exit.FAILED;
    }
  }

  private void mustBeKnown(Vocabulary vocabulary) throws BadInput {
    List<Problem> problems = new ArrayList<>();
    for (String action : actions) {
      if (!vocabulary.actions().containsKey(action)) {
        problems.add(
            Problem.ofFile(
                action,
                "is no action known here",
                Nearest.maybe(action, vocabulary.actions().keySet())));
      }
    }
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
  }
}
