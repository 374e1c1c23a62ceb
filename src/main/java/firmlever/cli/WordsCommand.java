package firmlever.cli;

import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.hearing.Glossary;
import firmlever.hearing.Glossary.Found;
import firmlever.hearing.report.WordsReport;
import firmlever.vocabulary.VocabularyReader;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells what symptoms, works, events, parts, outcomes and causes are called in a case file. */
@Command(
    name = "words",
    description =
        "What things are called here: ids, names and meanings; all of them, or those of a text.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:done", "2:nothing is known of this text"},
    mixinStandardHelpOptions = true)
final class WordsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..*",
      paramLabel = "TEXT",
      description = "what you call it, such as \"handle sinks\"; without it, all names in a list")
  private List<String> text = List.of();

  @Option(names = "--json", description = "print them for programs")
  private boolean json;

  @Override
  public Integer call() throws BadInput {
    Glossary glossary = new Glossary(VocabularyReader.builtIn());
    String asked = String.join(" ", text);
    String told;
    if (asked.isBlank()) {
      told =
          json
              ? WordsReport.listJson(glossary.all())
              : WordsReport.list(glossary.all(), Terminal.width(), Terminal.bold());
    } else {
      List<Found> found = glossary.find(asked);
      if (found.isEmpty()) {
        throw new BadInput(
            List.of(
                Problem.ofFile(
                    asked,
                    "nothing is known of this",
                    "Maybe use fewer or other words, or list all: firmlever words.")));
      }
      told =
          json
              ? WordsReport.foundJson(found)
              : WordsReport.found(found, Terminal.width(), Terminal.bold());
    }
    PrintWriter out = spec.commandLine().getOut();
    out.print(json ? told + "\n" : told);
    return Exit.DONE;
  }
}
