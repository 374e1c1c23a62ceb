package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.records.CaseFolder;
import firmlever.rulebase.RulesInForce;
import firmlever.rulebook.NamedCase;
import firmlever.rulebook.RuleBook;
import firmlever.vocabulary.Vocabulary;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells the rule base to people: an overview, the page of one id, or the whole book. */
@Command(
    name = "rules",
    description = "The rule base as a page: every cause, its rules, sources and cases.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:done", "2:there is no such id, or a file could not be read or written"},
    mixinStandardHelpOptions = true)
final class RulesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      arity = "0..1",
      paramLabel = "ID",
      description = "id of a cause, symptom or work; without it, all causes in a list")
  private Optional<String> id = Optional.empty();

  @Option(names = "--html", paramLabel = "FILE", description = "write the whole book to this file")
  private Optional<String> html = Optional.empty();

  @Option(
      names = "--cases",
      paramLabel = "DIR",
      defaultValue = "cases",
      description = "the cases that hold the rules in place (default: ${DEFAULT-VALUE})")
  private String cases;

  @Mixin private ShopRules shop;

  @Override
  public Integer call() throws BadInput {
    PrintWriter out = spec.commandLine().getOut();
    List<Path> tests =
        Files.isDirectory(CaseFolder.path(cases))
            ? CaseFolder.below(CaseFolder.path(cases))
            : List.of();
    new Outputs().reading(tests).reading(shop).file(html.orElse("")).check();
    Engine engine = Engine.start(shop);
    Vocabulary vocabulary = engine.vocabulary();
    Optional<Path> target =
        html.isEmpty() ? Optional.empty() : Optional.of(CaseFolder.path(html.get()));
    RuleBook book =
        new RuleBook(
            vocabulary,
            engine.rules().digest(),
            RulesInForce.of(engine.rules()),
            cases(tests, engine.reader(), target));
    if (id.isPresent() && !book.ids().contains(id.get())) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  id.get(),
                  "there is no cause, symptom or work of this name",
                  Nearest.maybe(id.get(), book.ids()))));
    }
    if (target.isPresent()) {
      WholeFile.write(target.get(), book.html());
    }
    if (id.isPresent()) {
      out.print(book.page(id.get(), Terminal.width(), Terminal.bold()).orElseThrow());
    } else if (target.isEmpty()) {
      out.print(book.overview(Terminal.width(), Terminal.bold()));
    } else {
      out.println("The rule book is in " + target.get() + ".");
    }
    return Exit.DONE;
  }

  /** The cases of the folder; none, with a note, where the folder has none. */
  private List<NamedCase> cases(List<Path> files, CaseReader reader, Optional<Path> book)
      throws BadInput {
    if (files.isEmpty()) {
      spec.commandLine().getErr().println(cases + ": no case files there; told without cases.");
      return List.of();
    }
    Path beside =
        book.map(file -> file.toAbsolutePath().getParent()).orElse(Path.of("").toAbsolutePath());
    List<NamedCase> named = new ArrayList<>();
    for (Path file : files) {
      String target = beside.relativize(file.toAbsolutePath()).toString().replace('\\', '/');
      named.add(new NamedCase(file.toString(), target, reader.read(file, file.toString())));
    }
    return named;
  }
}
