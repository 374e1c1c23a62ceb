package firmlever.cli;

import firmlever.report.DossierReport;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
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
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true,
    version = "firmlever " + DossierReport.VERSION)
public final class Main {
  /** The commands, in the order of the help page. Each class names itself in its annotation. */
  private static final List<Class<?>> COMMANDS =
      List.of(
          TriageCommand.class,
          NewCommand.class,
          AskCommand.class,
          JobCardCommand.class,
          AcceptCommand.class,
          ServeCommand.class,
          StoreCommand.class,
          WhyNotCommand.class,
          CurveCommand.class,
          WordsCommand.class,
          RulesCommand.class,
          SourcesCommand.class,
          JustifyCommand.class,
          PolicyCommand.class,
          CheckCommand.class,
          SchemaCommand.class,
          ImportCommand.class,
          ReviewCommand.class,
          InventCommand.class);

  /** Runs a command and ends the process with its exit code. */
  public static void main(String[] args) {
    OutputStream results = new Results(new FileOutputStream(FileDescriptor.out));
    PrintWriter out = new PrintWriter(results, false, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    System.exit(run(out, err, args));
  }

  /** Runs a command; returns its exit code. Whatever ends it is told in words. */
  static int run(PrintWriter out, PrintWriter err, String... args) {
    CommandLine line = new CommandLine(new Main());
    commandsFor(args).forEach(line::addSubcommand);
    return run(out, err, line, args);
  }

  /** Runs a command line whose commands were put together already. */
  static int run(PrintWriter out, PrintWriter err, CommandLine line, String... args) {
    PrintWriter shown = new PrintWriter(new Screen(out, "\n\t", Terminal.bold()), false);
    // The progress of a review is told in one line that is written over again and again.
    PrintWriter told = new PrintWriter(new Screen(err, "\n\t\r", false), true);
    try {
      int code = execute(shown, told, line, args);
      shown.flush();
      return code;
    } catch (RuntimeException | Error e) {
      return Failures.told(e, told);
    } finally {
      told.flush();
    }
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

  /** The command named first, alone; all of them where none is: reading them takes time. */
  private static List<Class<?>> commandsFor(String... args) {
    return COMMANDS.stream()
        .filter(each -> args.length > 0 && args[0].equals(nameOf(each)))
        .findFirst()
        .<List<Class<?>>>map(List::of)
        .orElse(COMMANDS);
  }

  private static String nameOf(Class<?> command) {
    return command.getAnnotation(Command.class).name();
  }
}
