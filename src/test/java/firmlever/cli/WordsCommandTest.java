package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("firmlever words")
class WordsCommandTest {
  @Test
  @DisplayName("tells what is meant by a customer's words, quoted or not")
  void tellsTheName() {
    Run run = Run.of("words", "handle", "sinks");
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .contains("lever-sinks: lever sinks under a steady pull (symptom)")
        .contains(VocabularyReader.builtIn().symptoms().get("lever-sinks").definition())
        .isEqualTo(Run.of("words", "handle sinks").out());
    assertThat(Run.of("words", "lever", "does", "not", "sink").out()).contains("(symptom, denied)");
    assertThat(Run.of("words", "air").out()).contains("air-left-in-line", "(cause)");
  }

  @Test
  @DisplayName("lists every name, by kind and place")
  void listsAll() {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    Run text = Run.of("words");
    assertThat(text.out().lines())
        .contains("Symptoms: lever feel", "Works: caliper", "Works: on record only", "Parts")
        .allMatch(line -> line.length() <= 80);
    JsonNode json = new JsonMapper().readTree(Run.of("words", "--json").out());
    assertThat(json.get("format").stringValue()).isEqualTo("firmlever-words/1");
    List<String> ids = new ArrayList<>();
    json.get("words")
        .forEach(
            each -> ids.add(each.get("kind").stringValue() + " " + each.get("id").stringValue()));
    assertThat(ids)
        .doesNotHaveDuplicates()
        .hasSize(
            vocabulary.symptomWords().size()
                + vocabulary.recordedWorks().size()
                + vocabulary.events().size()
                + vocabulary.parts().size()
                + vocabulary.outcomes().size()
                + vocabulary.causes().size());
    for (String id : ids) {
      assertThat(text.out()).contains("  " + id.substring(id.indexOf(' ') + 1) + ": ");
    }
  }

  @Test
  @DisplayName("tells programs how each was found")
  void tellsPrograms() {
    JsonNode first =
        new JsonMapper()
            .readTree(Run.of("words", "--json", "handle sinks").out())
            .get("words")
            .get(0);
    assertThat(first.get("id").stringValue()).isEqualTo("lever-sinks");
    assertThat(first.get("found-by").stringValue()).isEqualTo("heard");
    assertThat(first.get("said").stringValue()).isEqualTo("present");
  }

  @Test
  @DisplayName("says so where nothing is known")
  void refuses() {
    Run run = Run.of("words", "xyzzy");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).isEmpty();
    assertThat(run.err()).contains("xyzzy: nothing is known of this", "Maybe");
    assertThat(Run.of("words", "--help").out()).startsWith("Usage: firmlever words");
  }
}
