package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("firmlever policy")
class PolicyCommandTest {
  private static final String POLICY = "rules/policies/lakeside-depot.json";

  @TempDir private Path folder;

  @Test
  @DisplayName("shows the clauses, tells gaps and overlaps, and tries all demo claims")
  void showsThePolicy() {
    Run run = Run.of("policy", POLICY);
    assertThat(run.code()).isZero();
    String said = run.out().replaceAll("\\s+", " ");
    assertThat(said)
        .contains("24 months from purchased")
        .contains("overlap: clause 4.1 goes before 2.4 and leaves nothing of it for worn-pads")
        .contains("F1 (foreman): signs, and may decide otherwise than is recommended")
        .contains("wording What fluid of another family has done, where the depot put it in first")
        .contains("Tried on 45 claims")
        .contains("W-26-101 (B-0417-front-5): outcome covered; clauses 2.1");
  }

  @Test
  @DisplayName("tells which claims another policy decides otherwise, and only those")
  void comparesTwoPolicies() throws IOException {
    Path shorter = folder.resolve("shorter.json");
    String text = Files.readString(Path.of(POLICY));
    Files.writeString(
        shorter,
        text.replace("\"months\": 36", "\"months\": 30").replace("36 months", "30 months"));
    Run run = Run.of("policy", shorter.toString(), "--against", POLICY);
    assertThat(run.err()).isEmpty();
    assertThat(run.out().replaceAll("\\s+", " "))
        // The hose chafed in month 31 is the only claim on clause 2.2.
        .contains("(B-0362-front-2): the other covered, 2.2; this one refused, 8.1")
        .contains("1 of 45 claims decided otherwise.");
  }
}
