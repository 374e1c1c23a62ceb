package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.cli.shell.Exit;
import firmlever.cli.shell.Terminal;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.interview.NewCase;
import firmlever.records.CaseFolder;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Begins a case file out of five answers, typed, piped or given as options. */
@Command(
    name = "new",
    description =
        "Begins a case file: asks five things, an empty line for the usual answer. An option"
            + " answers its question beforehand.",
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:the case file is written",
      "2:an answer cannot be understood, the file is there already or cannot be written; nothing is"
          + " written"
    },
    mixinStandardHelpOptions = true)
final class NewCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "the case file to write; it must not be there yet")
  private String file;

  @Option(names = "--brake", paramLabel = "CODE", description = "code of the brake")
  private @Nullable String brake;

  @Option(names = "--wheel", paramLabel = "WHEEL", description = "front, rear or unknown")
  private @Nullable String wheel;

  @Option(
      names = "--fluid",
      paramLabel = "FLUID",
      description = "fluid it is built for, such as \"DOT 4\" or \"mineral oil\"")
  private @Nullable String fluid;

  @Option(names = "--complaint", paramLabel = "TEXT", description = "in the customer's words")
  private @Nullable String complaint;

  @Option(
      names = "--done",
      paramLabel = "TEXT",
      description =
          "what was done lately, such as \"bled 12 May 2026 with DOT 4, new pads yesterday\"")
  private @Nullable String done;

  @Option(
      names = "--opened",
      paramLabel = "DAY",
      description = "the day the brake came in, such as 12.5.2026 (default: today)")
  private @Nullable String opened;

  /** Understands an answer, or tells why not. */
  private interface Understood<T> {
    T of(String answer) throws BadInput;
  }

  @Override
  public Integer call() throws BadInput {
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    Path path = CaseFolder.path(file);
    mustBeNew(path);
    Vocabulary vocabulary = VocabularyReader.builtIn();
    LocalDate day = openedOn();
    NewCase answers = new NewCase(vocabulary);
    String usual = path.getFileName().toString().replaceFirst("\\.json$", "");
    String code =
        answer(in, brake, "Code of the brake, such as B-0417-rear", usual, answers::brake);
    String position =
        answer(
            in,
            wheel,
            "Which wheel: front, rear or unknown",
            NewCase.wheelOf(code),
            answers::wheel);
    String filled =
        answer(
            in,
            fluid,
            "Fluid it is built for, as it stands on the lever: mineral oil, DOT 4 ...",
            "unknown",
            answers::fluid);
    String told =
        answer(in, complaint, "The complaint, in the customer's words", "", answers::complaint);
    List<Map<String, Object>> history =
        answer(
            in,
            done,
            "What was done lately, such as: bled 12 May with DOT 4, new pads yesterday",
            "",
            said -> answers.done(said, day));
    String text = JsonText.of(NewCase.with(day, code, position, filled, told, history)) + "\n";
    new CaseReader(vocabulary).read(DocumentReader.readText(text, file), file);
    mustBeNew(path);
    WholeFile.write(path, text);
    tell(path, history);
    return Exit.DONE;
  }

  private void tell(Path path, List<Map<String, Object>> history) {
    PrintWriter out = spec.commandLine().getOut();
    out.println("Case file: " + path);
    for (Map<String, Object> each : history) {
      out.println(
          "  taken down: "
              + String.join(", ", each.values().stream().map(String::valueOf).toList()));
    }
    out.println("Next: firmlever ask " + path + "     the check worth most, one by one");
    out.println("  or: firmlever triage " + path + "  what is probably wrong");
  }

  private void mustBeNew(Path path) throws BadInput {
    if (!Files.notExists(path, LinkOption.NOFOLLOW_LINKS)) {
      throw refused(
          "is there already, and new writes over nothing",
          "Maybe name another file, or go on with this one: firmlever ask " + file + ".");
    }
    Path folder = path.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw refused("cannot be written: there is no such folder", "Maybe make the folder first.");
    }
  }

  private BadInput refused(String why, String maybe) {
    return new BadInput(List.of(Problem.ofFile(file, why, maybe)));
  }

  private LocalDate openedOn() throws BadInput {
    Optional<LocalDate> today = Terminal.today();
    if (opened == null) {
      return today.orElseThrow(
          () -> refused("cannot be opened: today is not known here", "Maybe give --opened DAY."));
    }
    return NewCase.day(opened, today);
  }

  /**
   * The answer given as an option, else asked for. At a keyboard a question is asked again until it
   * is understood; of a pipe, the next line answers the next question, so the run ends instead.
   */
  private <T> T answer(
      BufferedReader in,
      @Nullable String given,
      String question,
      String usual,
      Understood<T> understood)
      throws BadInput {
    if (given != null) {
      return understood.of(given.isBlank() ? usual : given.strip());
    }
    PrintWriter out = spec.commandLine().getOut();
    while (true) {
      out.println(question + (usual.isEmpty() ? "" : " [" + usual + "]") + ":");
      out.print("> ");
      out.flush();
      Optional<String> line = line(in);
      if (line.isEmpty() && Terminal.keyboard()) {
        throw refused("is not written: stopped", "");
      }
      String answer = line.map(String::strip).filter(each -> !each.isEmpty()).orElse(usual);
      try {
        return understood.of(answer);
      } catch (BadInput e) {
        if (!Terminal.keyboard()) {
          throw e;
        }
        out.println(e.getMessage());
      }
    }
  }

  private static Optional<String> line(BufferedReader in) {
    try {
      return Optional.ofNullable(in.readLine());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
