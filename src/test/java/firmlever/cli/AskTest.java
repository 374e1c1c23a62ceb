package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.report.FirstScreen;
import firmlever.document.BadInput;
import firmlever.interview.Asking;
import firmlever.interview.Interview;
import firmlever.interview.NewCase;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("ask")
class AskTest {
  private static final Interview INTERVIEW = Asking.fresh();

  @TempDir private Path folder;

  private static String hold(Optional<Path> file, String... answers) throws BadInput {
    StringWriter out = new StringWriter();
    BufferedReader in = new BufferedReader(new StringReader(String.join("\n", answers) + "\n"));
    conversation(INTERVIEW, in, new PrintWriter(out)).hold(file);
    return out.toString();
  }

  /** A conversation on the first of June. */
  static Conversation conversation(Interview interview, BufferedReader in, PrintWriter out) {
    return new Conversation(
        interview,
        new NewCase(Bench.VOCABULARY),
        new FirstScreen(Bench.VOCABULARY, 80, false),
        in,
        out,
        80,
        Optional.of(LocalDate.of(2026, 6, 1)));
  }

  @Test
  @DisplayName("begins a case that is not there, asks what it needs, and fits 80 columns")
  void beginsACase() throws BadInput, IOException {
    Path file = folder.resolve("new.json");
    String out =
        hold(
            Optional.of(file),
            "no good code",
            "B-0417-rear",
            "3/5",
            "12 May",
            "left",
            "",
            "DOT 4",
            "it goes to the bar, fine after pumping",
            "y",
            "y",
            "bled 10 May by T3");
    assertThat(out)
        .contains("must be a code", "is no day that can be told", "is not a wheel known here");
    assertThat(out.lines()).allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(80));
    CaseFile kept = Bench.READER.read(file, "kept");
    assertThat(kept.id()).isEqualTo("B-0417-rear-2026-05-12");
    assertThat(kept.complaint()).isEqualTo("it goes to the bar, fine after pumping");
    assertThat(kept.symptoms())
        .containsExactly(
            Map.entry("lever-to-bar", Presence.PRESENT), Map.entry("pumps-up", Presence.PRESENT));
    assertThat(kept.brake().position()).isEqualTo("rear");
    assertThat(kept.history()).extracting(Entry::work).containsExactly("full-bleed");
    assertThat(kept.history()).extracting(Entry::by).containsExactly("T3");
    assertThat(kept.history().get(0).daysAgo()).hasValue(2);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).containsExactly(file);
    }
  }

  @Test
  @DisplayName("keeps each answer at once: cut off anywhere and resumed it ends the same")
  void losesNothing() throws BadInput, IOException {
    Path whole = folder.resolve("whole.json");
    Path cut = folder.resolve("cut.json");
    String start =
        Bench.text(
            "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'complaint':'spongy and it pumps up'");
    Files.writeString(whole, start);
    Files.writeString(cut, start);
    String[] answers = {"y", "y", "new pads 2 days ago", "n", "n", "n", "n", "n", "n", "n", "n"};
    hold(Optional.of(whole), answers);
    for (String answer : answers) {
      hold(Optional.of(cut), answer); // The other side hangs up after one answer.
    }
    assertThat(Files.readString(cut)).isEqualTo(Files.readString(whole)).isNotEqualTo(start);
  }

  @Test
  @DisplayName("leaves order and layout of all other fields as they were")
  void keepsTheLayout() throws BadInput, IOException {
    Path file = folder.resolve("odd.json");
    String start =
        """
        { "source" :   "invented", "id":"B-1",
            "brake":{"fluid":"dot-4",
                     "id":"B-0417-front"},
          "format":"firmlever-case/1", "symptoms":{"squeal":"present"}, "opened" : "2026-05-12" }
        """;
    Files.writeString(file, start);
    hold(Optional.of(file), "?", "1", "stop");
    String kept = Files.readString(file);
    assertThat(kept).isNotEqualTo(start);
    assertThat(kept.replaceFirst("(, \"[a-z-]+\": \"(present|absent)\")+", "")).isEqualTo(start);
  }

  @Test
  @DisplayName("does not write over what another hand changed meanwhile")
  void respectsOtherHands() throws IOException {
    Path file = folder.resolve("shared.json");
    Files.writeString(
        file,
        Bench.text("'brake':{'id':'B-0417-rear','fluid':'dot-4'},'symptoms':{'squeal':'present'}"));
    BufferedReader meddling =
        new BufferedReader(new StringReader("n\n")) {
          @Override
          public String readLine() throws IOException {
            Files.writeString(file, "{}");
            return super.readLine();
          }
        };
    Conversation conversation =
        conversation(INTERVIEW, meddling, new PrintWriter(new StringWriter()));
    assertThatThrownBy(() -> conversation.hold(Optional.of(file)))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("changed by another hand");
    assertThat(Files.readString(file)).isEqualTo("{}");
  }

  @Test
  @DisplayName("says what is wrong with a case that cannot be read, is closed or cannot be written")
  void refusesBadCases() throws IOException {
    Path closed = folder.resolve("closed.json");
    Files.writeString(
        closed,
        Bench.text("'brake':{'id':'B-0417-rear'},'complaint':'soft','outcome':{'causes':[]}"));
    Run run = Run.of("ask", closed.toString());
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).startsWith(closed + ": is closed").contains("Maybe open a new case");
    Path broken = folder.resolve("broken.json");
    Files.writeString(broken, "{\"format\": ");
    assertThat(Run.of("ask", broken.toString()).code()).isEqualTo(2);
    assertThatThrownBy(
            () -> hold(Optional.of(folder.resolve("no/such/folder.json")), "B-1", "", "front", ""))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("cannot be written");
  }
}
