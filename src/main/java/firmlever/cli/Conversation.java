package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.interview.Interview;
import firmlever.interview.Interview.Line;
import firmlever.interview.Interview.State;
import firmlever.interview.Interview.Turn;
import firmlever.report.Page;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Holds an interview over any pair of streams, and keeps the case file abreast of it. */
final class Conversation {
  private static final String EXAMPLE_DAY = "2026-01-01";
  private static final String EXAMPLE_CODE = "B-0";

  private final Interview interview;
  private final CaseReader reader;
  private final BufferedReader in;
  private final PrintWriter out;
  private final int width;

  Conversation(
      Interview interview, CaseReader reader, BufferedReader in, PrintWriter out, int width) {
    this.interview = interview;
    this.reader = reader;
    this.in = in;
    this.out = out;
    this.width = width;
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
        named.isPresent() && Files.exists(named.get())
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
    out.println("Case file: " + path);
    out.flush();
  }

  /** Asks for what a new case cannot be without; empty where the other side stops. */
  private Optional<Kept> begin(Optional<Path> named) throws BadInput {
    say(List.of(new Line("", "A new case.")));
    Optional<String> brake =
        ask(
            "Code of the brake, such as B-0417-rear: ",
            code -> Interview.newCase(EXAMPLE_CODE, EXAMPLE_DAY, code, "unknown", "unknown"));
    Optional<String> day =
        brake.flatMap(
            code ->
                ask(
                    "Day it came in, such as 2026-05-12: ",
                    date -> Interview.newCase(EXAMPLE_CODE, date, code, "unknown", "unknown")));
    Optional<String> position =
        day.flatMap(
            date ->
                ask(
                    "Which wheel: front, rear or unknown: ",
                    wheel ->
                        Interview.newCase(EXAMPLE_CODE, date, EXAMPLE_CODE, wheel, "unknown")));
    Optional<String> fluid =
        position.flatMap(
            wheel ->
                ask(
                    "Fluid it is built for (it stands on the lever or in the maker's instructions): "
                        + "mineral-oil, dot-4, dot-5.1 ... or unknown: ",
                    kind ->
                        Interview.newCase(EXAMPLE_CODE, EXAMPLE_DAY, EXAMPLE_CODE, wheel, kind)));
    if (fluid.isEmpty()) {
      return Optional.empty();
    }
    String id = brake.get() + "-" + day.get();
    Path path = named.isPresent() ? named.get() : CaseFolder.path(id + ".json");
    if (named.isEmpty() && Files.exists(path)) {
      say(List.of(new Line("", path + " is there already; it goes on from there.")));
      return Optional.of(new Kept(path, text(path)));
    }
    String text = Interview.newCase(id, day.get(), brake.get(), position.get(), fluid.get());
    WholeFile.write(path, text);
    return Optional.of(new Kept(path, text));
  }

  /** Asks until the answer makes a case that can be read. */
  private Optional<String> ask(
      String question, java.util.function.UnaryOperator<String> caseWithIt) {
    while (true) {
      say(List.of(new Line("", question)));
      Optional<String> line = heard().map(String::strip);
      if (line.isEmpty() || line.get().equals("stop") || line.get().equals("s")) {
        return Optional.empty();
      }
      String given = line.get();
      try {
        String quoted = given.replace("\\", "\\\\").replace("\"", "\\\"");
        reader.read(DocumentReader.readText(caseWithIt.apply(quoted), "answer"), "answer");
        return Optional.of(given);
      } catch (BadInput e) {
        for (Problem problem : e.problems()) {
          say(
              List.of(
                  new Line("", problem.message() + problem.maybe().map(m -> ". " + m).orElse(""))));
        }
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
      return Optional.ofNullable(in.readLine());
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
