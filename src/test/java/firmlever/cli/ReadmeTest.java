package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class ReadmeTest {
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";

  @Test
  void showsTheCaseAndTheExactOutput() throws IOException {
    assertThat(block("json")).isEqualTo(Files.readString(Path.of(DEMO)).strip());
    assertThat(block("text")).isEqualTo(Run.of("triage", DEMO).out().strip());
  }

  private static String block(String language) throws IOException {
    String readme = Files.readString(Path.of("README.md"));
    String start = "```" + language + "\n";
    int from = readme.indexOf(start) + start.length();
    return readme.substring(from, readme.indexOf("\n```", from)).strip();
  }
}
