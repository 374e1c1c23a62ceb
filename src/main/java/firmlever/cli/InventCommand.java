package firmlever.cli;

import firmlever.cli.shell.Exit;
import firmlever.document.BadInput;
import firmlever.document.Problem;
import firmlever.invent.Depot;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Prints the job records of an invented hire depot, to try the review on. */
@Command(
    name = "invent",
    description =
        "Job records of an invented hire depot, one case a line, with three planted patterns.",
    mixinStandardHelpOptions = true)
final class InventCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--jobs",
      paramLabel = "N",
      defaultValue = "20000",
      description = "how many records (default: ${DEFAULT-VALUE})")
  private long jobs;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "the same seed gives the same records (default: ${DEFAULT-VALUE})")
  private long seed;

  @Override
  public Integer call() throws BadInput {
    if (jobs < 1 || jobs > 1_000_000_000) {
      throw new BadInput(
          List.of(Problem.ofFile("--jobs", "must lie between 1 and 1000000000", "")));
    }
    PrintWriter out = spec.commandLine().getOut();
    Depot depot = new Depot(seed);
    depot.write(jobs, line -> out.print(line + "\n"));
    Depot.Planted planted = depot.planted();
    spec.commandLine()
        .getErr()
        .println(
            "All of this is invented. Planted: lot "
                + planted.lot()
                + ", whose caliper ports do not stay tight; technician "
                + planted.technician()
                + ", who bleeds everything; "
                + planted.season()
                + ", after which more brakes come back with "
                + planted.seasonFault()
                + ".");
    return Exit.DONE;
  }
}
