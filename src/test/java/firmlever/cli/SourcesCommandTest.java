package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.hydraulics.Figures;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("firmlever sources")
class SourcesCommandTest {
  private static final JsonNode JSON = new JsonMapper().readTree(Run.of("sources", "--json").out());
  private static final String TEXT = Run.of("sources").out();

  @Test
  @DisplayName("counts every figure and every rule once")
  void countsAll() {
    int figures = 0;
    int rules = 0;
    for (JsonNode count : JSON.get("counts")) {
      figures += count.get("figures").intValue();
      rules += count.get("rules").intValue();
    }
    assertThat(figures).isEqualTo(Figures.all().size()).isEqualTo(JSON.get("figures").size());
    assertThat(rules)
        .isEqualTo(RuleBase.builtIn(VocabularyReader.builtIn()).rules().size())
        .isEqualTo(JSON.get("rules").size());
  }

  @Test
  @DisplayName("calls nothing published that rests on memory or practice")
  void standings() {
    for (JsonNode rule : JSON.get("rules")) {
      String source = rule.get("source").stringValue();
      String standing = rule.get("standing").stringValue();
      assertThat(standing)
          .as(source)
          .isEqualTo(
              source.contains("memory")
                  ? "from-memory"
                  : source.contains("practice") ? "common-practice" : "published");
    }
    assertThat(JSON.get("rules").valueStream().map(r -> r.get("standing").stringValue()).distinct())
        .containsExactlyInAnyOrder("published", "common-practice", "from-memory");
  }

  @Test
  @DisplayName("prints each figure with its value, source and place of use")
  void prints() {
    String words = TEXT.replaceAll("\\s+", " ");
    // 49 CFR 571.116 S5.1.1, S5.1.2
    assertThat(words)
        .contains(
            "DOT 4 boiling point, dry and wet minimum: 230; 155 °C 49 CFR 571.116 S5.1.1, S5.1.2;"
                + " used in FluidGrade");
    List<String> whats = Figures.all().stream().map(f -> f.what()).toList();
    assertThat(whats).hasSizeGreaterThan(60).allMatch(words::contains);
    assertThat(TEXT.lines()).allMatch(line -> line.length() <= 80 || !line.strip().contains(" "));
  }
}
