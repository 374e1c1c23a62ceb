package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * A change of a rule is seen in what is believed of the cases. The table asserts nothing about what
 * is right, which the expectations of the cases do: it shows whoever changes a rule all that
 * changes with it.
 */
class BeliefTableTest {
  private static final Path KEPT = Path.of("src/test/resources/firmlever/rulebase/beliefs.txt");
  private static final Path NOW = Path.of("target/beliefs.txt");

  private static Map<String, BrakeModel> models;

  @BeforeAll
  static void consultAll() {
    models = BeliefTable.models();
  }

  @Test
  void beliefsAreThoseThatWereRead() throws IOException {
    List<String> lines = BeliefTable.lines(models);
    Files.createDirectories(NOW.getParent());
    Files.write(NOW, lines);

    assertThat(lines)
        .as("Read diff %s %s; where it says what you meant, copy the second over.", KEPT, NOW)
        .isEqualTo(Files.readAllLines(KEPT));
  }

  @Test
  void nearlyEveryStrengthOfTheRulesIsNoticed() {
    StrengthsNoticed.Figures figures = StrengthsNoticed.in(models);

    assertThat(figures.strengths()).isGreaterThan(500);
    assertThat(figures.removedNoticed()).isGreaterThan((int) (0.98 * figures.strengths()));
    assertThat(figures.movedNoticed()).isGreaterThan((int) (0.95 * figures.moves()));
  }
}
