package firmlever.cli;

import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Listening;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCards;
import firmlever.jobcard.Verdict;
import firmlever.jobcard.VerdictReport;
import firmlever.records.CaseFolder;
import firmlever.records.OneCase;
import firmlever.rulebase.jobcard.JobCardRules;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Says after the work whether the brake goes back. */
@Command(
    name = "accept",
    description = "After the work: hand back or hold, and why.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:every acceptance check is passed and on record: hand back",
      "1:hold: a check failed or was not made",
      "2:the case could not be read"
    },
    mixinStandardHelpOptions = true)
final class AcceptCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Mixin private Listening listening;

  @Parameters(
      index = "0",
      paramLabel = "CASE",
      description = "case file with the work in its history and what was found after it")
  private String file;

  @Option(names = "--json", description = "print the verdict for programs")
  private boolean json;

  @Override
  public Integer call() throws BadInput {
    Engine engine = listening.start(shop);
    CaseFile caseFile = engine.reader().read(CaseFolder.path(file), file);
    JobCards cards = new JobCards(engine.vocabulary(), JobCardRules.builtIn(engine.vocabulary()));
    Verdict verdict;
    try {
      verdict =
          new Acceptor(engine.vocabulary(), engine.rules(), engine.diagnostician(), cards)
              .judge(caseFile, listening.heed(engine, caseFile));
    } catch (TooManySymptoms e) {
      throw new BadInput(List.of(OneCase.refused(file, e)));
    }
    VerdictReport report = new VerdictReport(engine.vocabulary());
    if (json) {
      spec.commandLine().getOut().println(report.json(verdict));
    } else {
      spec.commandLine().getOut().print(report.text(verdict, Terminal.width(), Terminal.bold()));
    }
    return verdict.handBack() ? Exit.DONE : Exit.FAILED;
  }
}
