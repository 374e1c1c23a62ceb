package firmlever.cli.review;

import firmlever.document.BadInput;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Reviews a batch of closed cases: how often brakes come back, why, and what to change. */
@Command(
    name = "review",
    description = "Comebacks in a batch of closed cases: how often, why, avoidable, patterns.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:done, and some records were rejected; they are counted and listed",
      "2:no record could be used, or wrong usage"
    },
    mixinStandardHelpOptions = true)
public final class ReviewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Mixin private ReviewOptions asked;

  private final Optional<Elsewhere.Machines> machines;

  public ReviewCommand() {
    machines = Optional.empty();
  }

  /** Reads and reviews the records on other machines. */
  public ReviewCommand(Elsewhere.Machines machines) {
    this.machines = Optional.of(machines);
  }

  @Override
  public Integer call() throws BadInput, IOException {
    // All that needs the charts and statistics is loaded only here.
    return new ReviewShell(asked, spec.commandLine(), machines).run();
  }
}
