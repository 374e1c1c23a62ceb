package firmlever.cli;

import firmlever.casefile.CaseFormat;
import firmlever.document.JsonText;
import firmlever.vocabulary.VocabularyReader;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Prints the JSON Schema of the case file. */
@Command(
    name = "schema",
    description = "The JSON Schema (draft 2020-12) of the case file.",
    mixinStandardHelpOptions = true)
final class SchemaCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    spec.commandLine().getOut().println(JsonText.of(CaseFormat.schema(VocabularyReader.builtIn())));
    return Exit.DONE;
  }
}
