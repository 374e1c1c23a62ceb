package firmlever.cli.claims;

import firmlever.casefile.CaseFile;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.PaperFolder;
import firmlever.cli.shell.ShopRules;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.records.CaseFolder;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.warranty.Desk;
import firmlever.warranty.Dossier;
import firmlever.warranty.Judged;
import firmlever.warranty.Submitted;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyReader;
import firmlever.warranty.report.PolicySheet;
import firmlever.warranty.report.PolicySheet.Tried;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows a policy, what is odd about it, and what it makes of claims. */
@Command(
    name = "policy",
    description = "Shows a warranty policy as a table, its gaps, and what it makes of claims.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {"0:the policy was read", "2:a policy or a claim could not be read"},
    mixinStandardHelpOptions = true)
public final class PolicyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ShopRules shop;

  @Parameters(paramLabel = "FILE", description = "the policy file")
  private String file;

  @Option(
      names = "--against",
      paramLabel = "OTHER",
      description = "tell only the claims that another policy decides otherwise")
  private @Nullable String other;

  @Option(
      names = "--claims",
      paramLabel = "DIR",
      defaultValue = "cases/claims",
      description = "the claims to try it on (default: ${DEFAULT-VALUE}, where that is there)")
  private String claims;

  @Override
  public Integer call() throws BadInput {
    Engine engine = Engine.start(shop);
    PolicyReader reader = new PolicyReader(engine.vocabulary());
    Policy policy = read(reader, file);
    Optional<Policy> before = other == null ? Optional.empty() : Optional.of(read(reader, other));
    Desk desk = new Desk(engine.rules(), WarrantyRules.builtIn());
    List<Tried> tried = new ArrayList<>();
    if (Files.isDirectory(CaseFolder.path(claims))) {
      for (Path claim : CaseFolder.files(List.of(claims))) {
        Submitted submitted =
            Submitted.read(
                engine.reader(),
                DocumentReader.bytes(claim, claim.toString()),
                claim.toString(),
                PaperFolder.of(claim));
        if (submitted.file().claim().isPresent()) {
          tried.add(tried(desk, submitted, policy, before));
        }
      }
    }
    spec.commandLine()
        .getOut()
        .print(
            new PolicySheet(engine.vocabulary())
                .text(policy, tried, Terminal.width(), Terminal.bold()));
    return Exit.DONE;
  }

  private static Policy read(PolicyReader reader, String name) throws BadInput {
    return reader.read(DocumentReader.bytes(CaseFolder.path(name), name), name);
  }

  private static Tried tried(
      Desk desk, Submitted submitted, Policy policy, Optional<Policy> before) {
    Judged now = desk.decide(submitted.file(), policy);
    String then = before.map(each -> of(desk.decide(submitted.file(), each))).orElse("");
    return new Tried(named(submitted.file()), Dossier.spoken(now.results()), clauses(now), then);
  }

  /** The number of the claim, as its dossier calls it, and the case. */
  private static String named(CaseFile file) {
    String number = file.claim().orElseThrow().number();
    return number.isEmpty() ? file.id() : number + " (" + file.id() + ")";
  }

  private static String of(Judged judged) {
    return Dossier.spoken(judged.results()) + ", " + clauses(judged);
  }

  private static String clauses(Judged judged) {
    return judged.matters().stream()
        .map(matter -> matter.clause().id())
        .collect(Collectors.joining(" "));
  }
}
