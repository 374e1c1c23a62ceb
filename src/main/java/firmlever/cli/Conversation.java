package firmlever.cli;

import firmlever.cli.shell.Outputs;
import firmlever.cli.shell.Terminal;
import firmlever.diagnosis.report.FirstScreen;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Problem;
import firmlever.document.WholeFile;
import firmlever.interview.Interview;
import firmlever.interview.Interview.Line;
import firmlever.interview.Interview.Phase;
import firmlever.interview.Interview.State;
import firmlever.interview.Interview.Turn;
import firmlever.interview.NewCase;
import firmlever.records.CaseFolder;
import firmlever.sheet.Page;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Holds an interview over any pair of streams, and keeps the case file abreast of it. */
final class Conversation {
  private final Interview interview;
  private final NewCase answers;
  private final FirstScreen verdict;
  private final BufferedReader in;
  private final PrintWriter out;
  private final int width;
  private final Optional<LocalDate> today;

  Conversation(
      Interview interview,
      NewCase answers,
      FirstScreen verdict,
      BufferedReader in,
      PrintWriter out,
      int width,
      Optional<LocalDate> today) {
    this.interview = interview;
    this.answers = answers;
    this.verdict = verdict;
    this.in = in;
    this.out = out;
    this.width = width;
    this.today = today;
  }

  /** Where the case is kept, and its text as it stands there. */
  private record Kept(Path path, String text) {}

  /**
   * Asks until nothing is worth asking any more, or the other side stops.
   *
   * @param named the case file; empty for a new one, named after brake and day. A file that is not
   *     there yet is begun
   */
  void hold(Optional<Path> named) throws BadInput {
    if (named.isPresent()) {
      // Said before the first question: nothing that is answered shall be lost.
      new Outputs().file(named.get().toString()).check();
    }
    Optional<Kept> begun =
        named.isPresent() && WholeFile.mayExist(named.get())
            ? Optional.of(new Kept(named.get(), text(named.get())))
            : begin(named);
    if (begun.isEmpty()) {
      say(List.of(new Line("", "Stopped; nothing is written yet.")));
      return;
    }
    Path path = begun.get().path();
    String kept = begun.get().text();
    Turn turn;
    try {
      turn = interview.begin(kept);
    } catch (BadInput e) {
      throw renamed(e, path);
    }
    say(turn.said());
    State asked = null;
    while (!turn.state().over()) {
      State state = turn.state();
      // After a "why" or a slip the same question is still on the screen.
      if (state != asked) {
        out.println();
        say(interview.question(state));
        asked = state;
      }
      Optional<String> line = heard();
      turn =
          line.isPresent() ? interview.answer(state, line.get()) : interview.answer(state, "stop");
      String text = turn.state().text();
      if (!text.equals(kept)) {
        mustBeUntouched(path, kept);
        WholeFile.write(path, text);
        kept = text;
      }
      say(turn.said());
    }
    if (turn.state().phase() == Phase.OVER) {
      out.println();
      out.print(verdict.of(turn.state().diagnosis()));
    }
    out.println("Case file: " + path);
    out.flush();
  }

  /** Asks for what a new case cannot be without; empty where the other side stops. */
  private Optional<Kept> begin(Optional<Path> named) throws BadInput {
    say(List.of(new Line("", "A new case; an empty line for what stands in brackets.")));
    Optional<String> brake = ask("Code of the brake, such as B-0417-rear:", "", answers::brake);
    Optional<LocalDate> day =
        brake.flatMap(
            code ->
                ask(
                    "Day it came in, such as 12 May 2026",
                    today.map(LocalDate::toString).orElse(""),
                    answer -> NewCase.day(answer, today)));
    Optional<String> wheel =
        day.flatMap(
            date ->
                ask(
                    "Which wheel: front, rear or unknown",
                    NewCase.wheelOf(brake.get()),
                    answers::wheel));
    Optional<String> fluid =
        wheel.flatMap(
            which ->
                ask(
                    "Fluid it is built for, as it stands on the lever: mineral oil, DOT 4 ...",
                    "unknown",
                    answers::fluid));
    if (fluid.isEmpty()) {
      return Optional.empty();
    }
    Map<String, Object> file =
        NewCase.with(day.get(), brake.get(), wheel.get(), fluid.get(), "", List.of());
    Path path = named.isPresent() ? named.get() : CaseFolder.path(file.get("id") + ".json");
    if (named.isEmpty() && WholeFile.mayExist(path)) {
      say(List.of(new Line("", path + " is there already; it goes on from there.")));
      return Optional.of(new Kept(path, text(path)));
    }
    String text = JsonText.of(file) + "\n";
    WholeFile.write(path, text);
    return Optional.of(new Kept(path, text));
  }

  /** Understands an answer, or tells why not. */
  private interface Understood<T> {
    T of(String answer) throws BadInput;
  }

  /** Asks until the answer is understood; empty where the other side stops. */
  private <T> Optional<T> ask(String question, String usual, Understood<T> understood) {
    while (true) {
      say(List.of(new Line("", question + (usual.isEmpty() ? "" : " [" + usual + "]:"))));
      Optional<String> line = heard().map(String::strip);
      if (line.isEmpty() || line.get().equals("stop") || line.get().equals("s")) {
        return Optional.empty();
      }
      try {
        return Optional.of(understood.of(line.get().isEmpty() ? usual : line.get()));
      } catch (BadInput e) {
        e.problems()
            .forEach(each -> say(List.of(new Line("", each.spoken().replace("\n    ", ". ")))));
      }
    }
  }

  private static void mustBeUntouched(Path path, String kept) throws BadInput {
    if (!Files.exists(path) || !text(path).equals(kept)) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  path.toString(),
                  "was changed by another hand during the interview; the last answer is not in it",
                  "Maybe run ask again: it goes on from the file as it is now.")));
    }
  }

  private static String text(Path path) throws BadInput {
    // Read through the document reader first: it tells what is wrong with size, bytes or rights.
    DocumentReader.read(path, path.toString());
    try {
      String text = Files.readString(path, StandardCharsets.UTF_8);
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (IOException e) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  path.toString(),
                  "cannot be read as UTF-8 text: " + e.getMessage(),
                  "Maybe save the file again as UTF-8.")));
    }
  }

  private static BadInput renamed(BadInput e, Path path) {
    return new BadInput(
        e.problems().stream()
            .map(
                p ->
                    new Problem(
                        path.toString(), p.line(), p.column(), p.pointer(), p.message(), p.maybe()))
            .toList());
  }

  private Optional<String> heard() {
    out.print("> ");
    out.flush();
    try {
      Optional<String> line = Optional.ofNullable(in.readLine());
      if (!Terminal.keyboard()) {
        // What comes through a pipe does not show by itself.
        out.println(line.orElse(""));
      }
      return line;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void say(List<Line> lines) {
    Page page = new Page(width, false);
    lines.forEach(line -> page.hanging(line.lead(), line.words()));
    out.print(page);
    out.flush();
  }
}
