package firmlever.cli;

import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Terminal;
import firmlever.rulebase.RuleBase;
import firmlever.rulebook.SourcesReport;
import firmlever.vocabulary.VocabularyReader;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Prints where every figure and every rule has its knowledge from. */
@Command(
    name = "sources",
    description = "Every figure and rule in use with its source: published, practice or memory.",
    mixinStandardHelpOptions = true)
final class SourcesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(names = "--json", description = "print them for programs")
  private boolean json;

  @Override
  public Integer call() {
    SourcesReport report = new SourcesReport(RuleBase.builtIn(VocabularyReader.builtIn()).rules());
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(report.json());
    } else {
      out.print(report.text(Terminal.width(), Terminal.bold()));
    }
    return Exit.DONE;
  }
}
