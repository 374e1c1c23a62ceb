package firmlever.cli.shell;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.mock;

import firmlever.cli.Run;
import firmlever.document.BadInput;
import firmlever.document.WholeFile;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("What a run writes")
class OutputsTest {
  private static final String POLICY = "rules/policies/lakeside-depot.json";

  @TempDir Path folder;

  /** The words of a command; CASE, JOBS and IN are files and a folder the run reads. */
  static Stream<List<String>> overInputs() {
    return Stream.of(
        List.of("justify", "CASE", "--policy", POLICY, "--html", "CASE"),
        List.of("justify", "CASE", "--policy", "P", "--pdf", "P"),
        List.of("justify", "IN", "--policy", POLICY, "--out", "IN"),
        List.of("justify", "CASE", "--policy", POLICY, "--out", "IN"),
        List.of("justify", "IN", "--policy", POLICY, "--out", "IN/deeper"),
        List.of("justify", "CASE", "--policy", POLICY, "--html", "LINK"),
        List.of("review", "JOBS", "--html", "JOBS"),
        List.of("review", "JOBS", "--rejects", "JOBS"),
        List.of("review", "IN", "--rejects", "CASE"),
        List.of("review", "JOBS", "--csv", "IN"),
        List.of("review", "JOBS", "--mapping", "P", "--html", "P"),
        List.of("review", "JOBS", "--html", "IN/new.html", "--rejects", "IN/new.html"),
        List.of("curve", "CASE", "--svg", "CASE"),
        List.of("jobcard", "CASE", "--html", "CASE"),
        List.of("jobcard", "CASE", "--rules", "IN", "--html", "JOBS"),
        List.of("rules", "--cases", "IN", "--html", "CASE"));
  }

  @ParameterizedTest
  @MethodSource("overInputs")
  @DisplayName("is never laid over what it reads")
  void isNeverLaidOverInputs(List<String> words) throws IOException {
    Path in = Files.createDirectory(folder.resolve("in"));
    Path one = in.resolve("case.json");
    Files.copy(Path.of("cases/claims/weep-and-worn-pads.json"), one);
    Path jobs = Files.writeString(in.resolve("jobs.ndjson"), "{}\n");
    Path policy = Files.copy(Path.of(POLICY), folder.resolve("policy.json"));
    Path link = Files.createSymbolicLink(folder.resolve("link.json"), one);
    String before = all(folder);
    Run run =
        Run.of(
            words.stream()
                .map(word -> word.equals("CASE") ? one.toString() : word)
                .map(word -> word.equals("JOBS") ? jobs.toString() : word)
                .map(word -> word.equals("P") ? policy.toString() : word)
                .map(word -> word.equals("LINK") ? link.toString() : word)
                .map(word -> word.startsWith("IN") ? in + word.substring(2) : word)
                .toArray(String[]::new));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).isEmpty();
    assertThat(run.err()).containsAnyOf("this run reads", "two outputs");
    assertThat(all(folder)).isEqualTo(before);
  }

  private static String all(Path folder) throws IOException {
    StringBuilder all = new StringBuilder();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted().toList()) {
        all.append(file).append('\n');
        all.append(Files.isRegularFile(file) ? Files.readString(file) : "");
      }
    }
    return all.toString();
  }

  @ParameterizedTest
  @MethodSource("noFiles")
  @DisplayName("goes into files, never onto devices or folders")
  void goesIntoFiles(String place) {
    String given = "cases/claims/weep-and-worn-pads.json";
    for (List<String> words :
        List.of(
            List.of("curve", given, "--svg", place),
            List.of("justify", given, "--policy", POLICY, "--pdf", place),
            List.of("review", given, "--html", place),
            List.of("rules", "--html", place))) {
      Run run = Run.of(words.toArray(String[]::new));
      assertThat(run.code()).isEqualTo(2);
      assertThat(run.out()).isEmpty();
      assertThat(run.err()).contains(place + ": cannot be written: it is a");
    }
  }

  static List<String> noFiles() {
    return List.of("/", "/dev/null", "src");
  }

  @Test
  @DisplayName("never replaces a file nobody may write to")
  void leavesLockedFiles() throws IOException {
    Path locked = Files.writeString(folder.resolve("locked.json"), "{}");
    Files.setPosixFilePermissions(locked, PosixFilePermissions.fromString("r--r--r--"));
    assertThatThrownBy(() -> WholeFile.write(locked, "new"))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("may only be read");
    assertThat(Files.readString(locked)).isEqualTo("{}");
  }

  @Test
  @DisplayName("keeps the rights of the file it replaces")
  void keepsRights() throws Exception {
    Path file = Files.writeString(folder.resolve("mine.json"), "{}");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
    WholeFile.write(file, "new");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo("rw-------");
    assertThat(Files.readString(file)).isEqualTo("new");
  }

  @Test
  @DisplayName("is whole or not there: what fails in the middle leaves what stood there")
  void isWholeOrNotThere() throws Exception {
    Path file = Files.writeString(folder.resolve("kept.json"), "before");
    WholeFile.Content content = mock(WholeFile.Content.class);
    doThrow(new IOException("No space left on device")).when(content).to(any());
    assertThatThrownBy(() -> WholeFile.write(file, content))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("cannot be written: the disk is full");
    doThrow(new OutOfMemoryError()).when(content).to(any());
    assertThatThrownBy(() -> WholeFile.write(file, content)).isInstanceOf(OutOfMemoryError.class);
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).containsExactly(file);
    }
    assertThat(Files.readString(file)).isEqualTo("before");
  }

  @Test
  @DisplayName("on standard output is never lost in silence")
  void standardOutputIsNotLost() throws IOException {
    OutputStream full = mock(OutputStream.class);
    doThrow(new IOException("No space left on device"))
        .when(full)
        .write(any(), any(int.class), any(int.class));
    for (String word : List.of("schema", "--help", "--version")) {
      Run run = Run.onto(full, word);
      assertThat(run.code()).isEqualTo(2);
      assertThat(run.err())
          .contains("standard output cannot be written: the disk is full")
          .hasLineCount(1);
    }
  }

  @Test
  @DisplayName("ends quietly where the reader of a pipe has enough")
  void endsWithItsReader() throws IOException {
    OutputStream gone = mock(OutputStream.class);
    doThrow(new IOException("Broken pipe")).when(gone).write(any(), any(int.class), any(int.class));
    Run run = Run.onto(gone, "invent", "--jobs", "1000000000");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).isEmpty();
  }
}
