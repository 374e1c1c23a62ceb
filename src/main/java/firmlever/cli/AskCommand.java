package firmlever.cli;

import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.report.FirstScreen;
import firmlever.document.BadInput;
import firmlever.interview.Interview;
import firmlever.interview.NewCase;
import firmlever.records.CaseFolder;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The interview: complaint, record, then always the look worth most; kept in the case file. */
@Command(
    name = "ask",
    description =
        "The interview: what is complained of, what was done, then always the look worth most."
            + " Writes the case file as it goes, and ends with what triage would say.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the interview ended or was stopped; every answer is in the case file",
      "2:the case could not be read or written, or is closed"
    },
    mixinStandardHelpOptions = true)
final class AskCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Parameters(
      arity = "0..1",
      paramLabel = "CASE",
      description =
          "case file to go on with or to begin (default: a new one, named after the brake)")
  private @Nullable String file;

  @Override
  public Integer call() throws BadInput {
    Optional<Path> named = file == null ? Optional.empty() : Optional.of(CaseFolder.path(file));
    Engine engine = Engine.start(shop);
    Interview interview =
        new Interview(
            engine.vocabulary(), engine.reader(), engine.diagnostician(), engine.heeding());
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    new Conversation(
            interview,
            new NewCase(engine.vocabulary()),
            new FirstScreen(engine.vocabulary(), Terminal.width(), Terminal.bold()),
            in,
            spec.commandLine().getOut(),
            Terminal.width(),
            Terminal.today())
        .hold(named);
    return Exit.DONE;
  }
}
