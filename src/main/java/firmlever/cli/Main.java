package firmlever.cli;

import firmlever.cli.claims.JustifyCommand;
import firmlever.cli.claims.PolicyCommand;
import firmlever.cli.review.Elsewhere;
import firmlever.cli.review.ImportCommand;
import firmlever.cli.review.ReviewCommand;
import firmlever.cli.shell.Engine;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Failures;
import firmlever.cli.shell.Results;
import firmlever.cli.shell.Screen;
import firmlever.cli.shell.Terminal;
import firmlever.document.Limit;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.ExecutionException;
import picocli.CommandLine.ParseResult;

/** The command line. Results go to standard output, notes and errors to standard error. */
@Command(
    name = "firmlever",
    description = "Finds what is wrong with a hydraulic disc brake, and what to do next.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:a check or expectation failed",
      "2:bad input or usage, or the results cannot be written",
      "3:the brake must not be ridden (triage --gate)",
      "4:the program or the machine failed: no memory, no room, no fonts, a bug"
    },
    footer = "%nfirmlever --help limits: how large, deep and many things may be",
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class)
public final class Main {
  /**
   * A command.
   *
   * @param name as in its annotation, which is not read to find it: that takes time
   * @param reasons whether it always needs the rules, so that they may be read ahead
   */
  record Named(String name, Class<?> type, boolean reasons) {}

  /** The commands, in the order of the help page. */
  static final List<Named> COMMANDS =
      List.of(
          new Named("triage", TriageCommand.class, true),
          new Named("new", NewCommand.class, false),
          new Named("ask", AskCommand.class, true),
          new Named("jobcard", JobCardCommand.class, true),
          new Named("accept", AcceptCommand.class, true),
          new Named("serve", ServeCommand.class, false),
          new Named("store", StoreCommand.class, false),
          new Named("whynot", WhyNotCommand.class, true),
          new Named("curve", CurveCommand.class, false),
          new Named("words", WordsCommand.class, false),
          new Named("rules", RulesCommand.class, true),
          new Named("sources", SourcesCommand.class, false),
          new Named("justify", JustifyCommand.class, true),
          new Named("policy", PolicyCommand.class, true),
          new Named("check", CheckCommand.class, true),
          new Named("schema", SchemaCommand.class, false),
          new Named("import", ImportCommand.class, true),
          new Named("review", ReviewCommand.class, true),
          new Named("invent", InventCommand.class, false));

  private static final List<String> LIMITS = List.of("--help", "limits");
  private static final List<String> VERSION = List.of("-V", "--version");

  /** Runs a command and ends the process with its exit code. */
  public static void main(String[] args) {
    System.exit(run(results(), errors(), args));
  }

  private static PrintWriter results() {
    OutputStream results = new Results(new FileOutputStream(FileDescriptor.out));
    return new PrintWriter(results, false, StandardCharsets.UTF_8);
  }

  private static PrintWriter errors() {
    return new PrintWriter(System.err, true, StandardCharsets.UTF_8);
  }

  /** Runs a command; returns its exit code. Whatever ends it is told in words. */
  static int run(PrintWriter out, PrintWriter err, String... args) {
    return run(out, err, Optional.empty(), args);
  }

  /**
   * Runs the command {@code review} with these arguments on other machines.
   *
   * @return the exit code
   */
  public static int review(Elsewhere.Machines machines, String... args) {
    return review(machines, results(), errors(), args);
  }

  /** The same, with streams for its results and for what is told beside. */
  public static int review(
      Elsewhere.Machines machines, PrintWriter out, PrintWriter err, String... args) {
    return run(out, err, Optional.of(new CommandLine(new ReviewCommand(machines))), args);
  }

  private static int run(
      PrintWriter out, PrintWriter err, Optional<CommandLine> line, String... args) {
    PrintWriter shown = new PrintWriter(new Screen(out, "\n\t", Terminal.bold()), false);
    // The progress of a review is told in one line that is written over again and again.
    PrintWriter told = new PrintWriter(new Screen(err, "\n\t\r", false), true);
    try {
      int code =
          line.isPresent() ? execute(shown, told, line.get(), args) : execute(shown, told, args);
      shown.flush();
      return code;
    } catch (RuntimeException | Error e) {
      return Failures.told(e, told);
    } finally {
      told.flush();
    }
  }

  private static int execute(PrintWriter out, PrintWriter err, String... args) {
    Optional<Named> named =
        COMMANDS.stream().filter(each -> args.length > 0 && each.name().equals(args[0])).findAny();
    if (named.filter(Named::reasons).isPresent()) {
      Engine.readAhead(List.of(args));
    }
    if (args.length == 2 && LIMITS.equals(List.of(args))) {
      out.print(Limit.table());
      return Exit.DONE;
    }
    CommandLine line = new CommandLine(new Main());
    if (!(args.length == 1 && VERSION.contains(args[0]))) {
      // The one that is named, alone: to read them all takes time.
      named.map(List::of).orElse(COMMANDS).forEach(each -> line.addSubcommand(each.type()));
    }
    return execute(out, err, line, args);
  }

  private static int execute(PrintWriter out, PrintWriter err, CommandLine line, String... args) {
    line.setOut(out)
        .setErr(err)
        .setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF))
        .setExecutionExceptionHandler(new Failures())
        .setExecutionStrategy(parsed -> executed(parsed, line));
    if (args.length == 0) {
      line.usage(err);
      return Exit.BAD_INPUT;
    }
    return line.execute(args);
  }

  /** Help and version pages are lost as well as results are; the library would print its stack. */
  private static int executed(ParseResult parsed, CommandLine line) {
    try {
      return new CommandLine.RunLast().execute(parsed);
    } catch (Results.Lost e) {
      throw new ExecutionException(line, e.getMessage(), e);
    }
  }
}
