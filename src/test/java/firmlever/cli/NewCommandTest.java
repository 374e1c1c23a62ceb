package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.Fluid;
import firmlever.diagnosis.Bench;
import firmlever.document.BadInput;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("firmlever new")
class NewCommandTest {
  @TempDir private Path folder;

  private static Run typed(boolean keyboard, String lines, String... args) {
    InputStream own = System.in;
    try {
      System.setIn(new ByteArrayInputStream(lines.getBytes(StandardCharsets.UTF_8)));
      System.setProperty("firmlever.keyboard", String.valueOf(keyboard));
      return Run.of(args);
    } finally {
      System.setIn(own);
      System.clearProperty("firmlever.keyboard");
    }
  }

  private Run done(String done) {
    return Run.of(
        "new",
        folder.resolve("x.json").toString(),
        "--opened",
        "14 May 2026",
        "--brake",
        "B-0417-rear",
        "--wheel",
        "",
        "--fluid",
        "",
        "--complaint",
        "",
        "--done",
        done);
  }

  @Test
  @DisplayName("turns five piped answers into a case that can be diagnosed")
  void writesACase() throws BadInput {
    Path file = folder.resolve("soft.json");
    Run run =
        typed(
            false,
            "B-0417-rear\nback\nDOT 4\ngoes soft when pulled\nbled 12.5.2026 with DOT 5.1, no change; new pads yesterday\n",
            "new",
            file.toString(),
            "--opened",
            "14.5.2026");
    assertThat(run.err()).isEmpty();
    assertThat(run.code()).isZero();
    CaseFile kept = Bench.READER.read(file, "kept");
    assertThat(kept.opened()).isEqualTo(LocalDate.of(2026, 5, 14));
    assertThat(kept.brake().id()).isEqualTo("B-0417-rear");
    assertThat(kept.brake().position()).isEqualTo("rear");
    assertThat(kept.brake().fluid()).isEqualTo(Fluid.DOT_4);
    assertThat(kept.complaint()).isEqualTo("goes soft when pulled");
    assertThat(kept.history()).hasSize(2);
    assertThat(kept.history().get(0).work()).isEqualTo("full-bleed");
    assertThat(kept.history().get(0).fluid()).isEqualTo(Fluid.DOT_5_1);
    assertThat(kept.history().get(0).outcome()).isEqualTo("unchanged");
    assertThat(kept.history().get(0).daysAgo()).isEqualTo(OptionalInt.of(2));
    assertThat(kept.history().get(1).work()).isEqualTo("replace-pads");
    assertThat(kept.history().get(1).daysAgo()).isEqualTo(OptionalInt.of(1));
    assertThat(run.out()).contains("firmlever triage " + file, "firmlever ask " + file);
    assertThat(Run.of("triage", file.toString(), "--draws", "0").code()).isZero();
  }

  @Test
  @DisplayName("takes empty lines, and a pipe that ends, for the usual answers")
  void hasUsualAnswers() throws BadInput {
    Path file = folder.resolve("B-0417-front.json");
    Run run = typed(false, "\n", "new", file.toString(), "--opened", "2026-05-14");
    assertThat(run.code()).isZero();
    CaseFile kept = Bench.READER.read(file, "kept");
    assertThat(kept.brake().id()).isEqualTo("B-0417-front");
    assertThat(kept.brake().position()).isEqualTo("front");
    assertThat(kept.brake().fluid()).isEqualTo(Fluid.UNKNOWN);
    assertThat(kept.history()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "bled | - full-bleed unknown",
        "bled 3 May and new pads 10 May | 2026-05-03 full-bleed unknown; 2026-05-10 replace-pads unknown",
        "Bled 1 May. Pads changed 2 May. | 2026-05-01 full-bleed unknown; 2026-05-02 replace-pads unknown",
        "bled with mineral oil May 12, 2026 | 2026-05-12 full-bleed mineral-oil",
        "full-bleed 2026-05-02 | 2026-05-02 full-bleed unknown",
        "stood upside down 3 days ago | 2026-05-11 turned-over unknown",
        "Beläge neu gestern | 2026-05-13 replace-pads unknown",
        "hose cut | - shorten-hose unknown",
        "nothing | ''"
      })
  @DisplayName("hears what was done, when and with what")
  void hearsWhatWasDone(String said, String heard) throws BadInput {
    assertThat(done(said).code()).isZero();
    CaseFile kept = Bench.READER.read(folder.resolve("x.json"), "kept");
    assertThat(
            String.join(
                "; ",
                kept.history().stream()
                    .map(
                        e ->
                            (e.daysAgo().isEmpty()
                                    ? "-"
                                    : kept.opened().minusDays(e.daysAgo().getAsInt()).toString())
                                + " "
                                + e.work()
                                + e.event()
                                + " "
                                + e.fluid().id())
                    .toList()))
        .isEqualTo(heard);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "repainted | tells no work or event known here",
        "bled 3/5/2026 | \"3/5/2026\": can be two days",
        "bled 12.5.2027 | lies after the day the brake came in (2026-05-14)",
        "no change | That is an outcome, not a work."
      })
  @DisplayName("writes nothing where what was done cannot be understood")
  void refusesWhatItCannotUnderstand(String said, String why) {
    Run run = done(said);
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains(why);
    assertThat(folder).isEmptyDirectory();
  }

  @Test
  @DisplayName("asks again at a keyboard, and ends at the first slip of a pipe")
  void asksAgain() throws BadInput, IOException {
    Path file = folder.resolve("again.json");
    String[] args = {
      "new", file.toString(), "--opened", "2026-05-14", "--done", "", "--complaint", ""
    };
    String lines = "B 0417\nB-0417\nmiddle\nfront\nbrake juice\nmineral oil\n";
    Run piped = typed(false, lines, args);
    assertThat(piped.code()).isEqualTo(2);
    assertThat(piped.err()).contains("\"B 0417\"", "Maybe \"B-0417\" was meant.");
    assertThat(folder).isEmptyDirectory();
    Run stopped = typed(true, "B-0417\n", args);
    assertThat(stopped.code()).isEqualTo(2);
    assertThat(folder).isEmptyDirectory();
    Run typed = typed(true, lines, args);
    assertThat(typed.code()).isZero();
    assertThat(typed.out())
        .contains("Maybe one of: front, rear, unknown.", "not a fluid known here");
    assertThat(Bench.READER.read(file, "kept").brake().fluid()).isEqualTo(Fluid.MINERAL_OIL);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).containsExactly(file);
    }
  }

  @Test
  @DisplayName("never writes over a file, and asks nothing where it could not write")
  void writesOverNothing() throws IOException {
    Path file = Files.writeString(folder.resolve("x.json"), "mine");
    Run run = done("");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains("is there already", "firmlever ask");
    assertThat(Files.readString(file)).isEqualTo("mine");
    Run nowhere = Run.of("new", folder.resolve("no/x.json").toString(), "--opened", "2026-05-14");
    assertThat(nowhere.code()).isEqualTo(2);
    assertThat(nowhere.out()).isEmpty();
    assertThat(nowhere.err()).contains("there is no such folder");
  }

  @Test
  @DisplayName("takes today from the launcher, and says so where nobody tells it")
  void knowsToday() throws BadInput {
    Path file = folder.resolve("x.json");
    Run unknown = typed(false, "", "new", file.toString());
    assertThat(unknown.code()).isEqualTo(2);
    assertThat(unknown.err()).contains("--opened");
    Run vague = typed(false, "", "new", file.toString(), "--opened", "yesterday");
    assertThat(vague.code()).isEqualTo(2);
    System.setProperty("firmlever.today", "2026-05-14");
    try {
      assertThat(typed(false, "", "new", file.toString(), "--opened", "yesterday").code()).isZero();
    } finally {
      System.clearProperty("firmlever.today");
    }
    assertThat(Bench.READER.read(file, "kept").opened()).isEqualTo(LocalDate.of(2026, 5, 13));
  }
}
