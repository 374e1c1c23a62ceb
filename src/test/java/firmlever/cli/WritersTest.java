package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.cli.Writers.Writer;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("A command that writes, whatever of the file system fails")
class WritersTest {
  @TempDir private Path folder;

  /** A few that write in different ways; all take minutes, and are asked for. */
  static List<Writer> writers() {
    return System.getProperty("firmlever.writers", "").equals("all")
        ? List.of(Writer.values())
        : List.of(Writer.NEW, Writer.SIGNATURE, Writer.BACKUP);
  }

  @ParameterizedTest
  @MethodSource("writers")
  @DisplayName("leaves each file old or new, never half, and says what failed where")
  void leavesOldOrNew(Writer writer) throws IOException, InterruptedException {
    Path said = Path.of("target", "writers", writer + ".txt");
    Files.createDirectories(said.getParent());
    Process process =
        new ProcessBuilder(
                List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-XX:TieredStopAtLevel=1",
                    "-XX:+UseSerialGC",
                    "-Djava.nio.file.spi.DefaultFileSystemProvider=" + FailingFiles.class.getName(),
                    "-cp",
                    System.getProperty("java.class.path"),
                    Writers.class.getName(),
                    folder.toString(),
                    writer.name()))
            .redirectErrorStream(true)
            .redirectOutput(said.toFile())
            .start();
    int code;
    try {
      code = process.waitFor();
    } finally {
      process.destroyForcibly();
    }
    String told = Files.readString(said, StandardCharsets.UTF_8);
    assertThat(code).as(told).isZero();
    assertThat(told)
        .as("points tried and finds")
        .containsPattern(": [1-9]\\d* points")
        .contains("; 0 finds");
  }
}
