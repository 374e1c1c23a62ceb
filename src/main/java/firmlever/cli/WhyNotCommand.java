package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Listening;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.WhyNot;
import firmlever.diagnosis.WhyNotFinder;
import firmlever.diagnosis.report.WhyNotReport;
import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.rulebase.RulesInForce;
import firmlever.vocabulary.Vocabulary;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Says why a cause is not believed in: what speaks against it, and what its rules lacked. */
@Command(
    name = "whynot",
    description = "What speaks against a cause, and which of its rules lacked what.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:done", "2:the case could not be read, or there is no such cause"},
    mixinStandardHelpOptions = true)
final class WhyNotCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "CASE", description = "a case file")
  private String file;

  @Parameters(index = "1", paramLabel = "CAUSE", description = "a cause, by its id or name")
  private String cause;

  @Option(names = "--all", description = "every weight, every rule and every check")
  private boolean all;

  @Option(names = "--json", description = "print it for programs")
  private boolean json;

  @Mixin private ShopRules shop;

  @Mixin private Listening listening;

  @Override
  public Integer call() throws BadInput {
    Engine engine = listening.start(shop);
    Map<String, Vocabulary.Cause> causes = engine.vocabulary().causes();
    String asked =
        causes.values().stream()
            .filter(each -> each.id().equals(cause) || each.name().equalsIgnoreCase(cause.strip()))
            .map(Vocabulary.Cause::id)
            .findFirst()
            .orElseThrow(
                () ->
                    new BadInput(
                        List.of(
                            Problem.ofFile(
                                cause,
                                "there is no such cause",
                                Nearest.maybe(cause, causes.keySet())))));
    CaseFile caseFile =
        listening.heed(engine, engine.reader().read(CaseFolder.path(file), file)).file();
    WhyNot whyNot;
    try {
      whyNot =
          new WhyNotFinder(engine.rules())
              .of(caseFile, asked, RulesInForce.about(asked, engine.rules()));
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(OneCase.refused(file, e)));
    }
    WhyNotReport report = new WhyNotReport(engine.vocabulary(), Terminal.width(), Terminal.bold());
    if (json) {
      spec.commandLine().getOut().println(report.json(whyNot));
    } else {
      spec.commandLine().getOut().print(report.of(whyNot, all));
    }
    return Exit.DONE;
  }
}
