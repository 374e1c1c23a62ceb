package firmlever.cli.shell;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.cli.Run;
import java.io.IOException;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("What is printed")
class ScreenTest {
  private static final String STEERING = "\\u001b]0;owned\\u0007\\u009b2J\\u202egnorw";

  @TempDir Path folder;

  @Test
  @DisplayName("never steers the terminal, whatever a case file holds")
  void neverSteers() throws IOException {
    String hostile =
        Files.readString(Path.of("cases/claims/weep-and-worn-pads.json"))
            .replaceFirst("\"complaint\"\\s*:\\s*\"", "$0" + STEERING.replace("\\", "\\\\"))
            .replaceFirst("\"why\"\\s*:\\s*\"", "$0" + STEERING.replace("\\", "\\\\"))
            .replaceFirst("}\\s*$", ", \"expect\": { \"first\": \"bent-rotor\" } }");
    Path file = Files.writeString(folder.resolve("steer\u001b[2J.json"), hostile);
    Path known =
        Files.writeString(
            folder.resolve("known.json"),
            hostile.replaceFirst(
                "\"expect\"",
                "\"known-miss\": \"" + STEERING.replace("\\", "\\\\") + "\", \"expect\""));
    String policy = "rules/policies/lakeside-depot.json";
    for (List<String> words :
        List.of(
            List.of("justify", file.toString(), "--policy", policy),
            List.of("justify", file.toString(), "--policy", policy, "--json"),
            List.of("triage", file.toString(), "--draws", "0"),
            List.of("check", file.toString(), known.toString()),
            List.of("triage", folder.resolve("\u001b[31mred.json").toString()),
            List.of("triage", file.toString(), "\u001b[31m"),
            List.of("\u001b[31m"))) {
      Run run = Run.of(words.toArray(String[]::new));
      assertThat((run.out() + run.err()).chars())
          .as(String.join(" ", words))
          .isNotEmpty()
          .noneMatch(c -> Character.isISOControl(c) && c != '\n' || c == 0x202e);
    }
    Run check = Run.of("check", file.toString(), known.toString());
    assertThat(check.out()).contains("why: \\u001b]0;owned", "known ", "\\u202egnorw");
  }

  @Test
  @DisplayName("keeps its bold headings, and only where bold is wanted")
  void keepsBold() throws IOException {
    String heading = "\u001b[1mMind\u001b[0m\u001b[2J\n";
    StringWriter bold = new StringWriter();
    try (Writer screen = new Screen(bold, "\n", true)) {
      screen.write(heading);
    }
    assertThat(bold).hasToString("\u001b[1mMind\u001b[0m\\u001b[2J\n");
    StringWriter plain = new StringWriter();
    try (Writer screen = new Screen(plain, "\n", false)) {
      screen.write(heading.toCharArray());
    }
    assertThat(plain).hasToString("\\u001b[1mMind\\u001b[0m\\u001b[2J\n");
  }
}
