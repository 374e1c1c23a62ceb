package firmlever.cli;

import firmlever.casefile.CaseFormat;
import firmlever.cli.shell.Exit;
import firmlever.document.JsonText;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import firmlever.warranty.policy.PolicyFormat;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints the JSON Schema of a file format. */
@Command(
    name = "schema",
    description = "The JSON Schema (draft 2020-12) of a file format.",
    mixinStandardHelpOptions = true)
final class SchemaCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..1",
      paramLabel = "FORMAT",
      defaultValue = "case",
      description = "case or policy (default: ${DEFAULT-VALUE})")
  private String format;

  @Override
  public Integer call() {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    Map<String, Object> schema =
        switch (format) {
          case "case" -> CaseFormat.schema(vocabulary);
          case "policy" -> PolicyFormat.schema(vocabulary);
          default ->
              throw new ParameterException(
                  spec.commandLine(), "no format \"" + format + "\": name case or policy");
        };
    spec.commandLine().getOut().println(JsonText.of(schema));
    return Exit.DONE;
  }
}
