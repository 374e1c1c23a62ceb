package firmlever.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("What one fault brings")
class BringsTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final Brings BRINGS = Brings.builtIn();

  @Test
  @DisplayName("names causes of the vocabulary only, and says how for each")
  void namesKnownCauses() {
    int links = 0;
    for (String cause : VOCABULARY.causes().keySet()) {
      for (String by : BRINGS.bringersOf(cause)) {
        assertThat(VOCABULARY.causes()).containsKey(by);
        assertThat(BRINGS.why(by, cause)).isNotEmpty();
        links++;
      }
    }
    int written =
        VocabularyReader.document("brings.json").objects("brings").stream()
            .mapToInt(link -> link.texts("causes").size() * link.texts("bring").size())
            .sum();
    assertThat(links).as("every link of the file leads to a known cause").isEqualTo(written);
    assertThat(BRINGS.bringersOf("contaminated-pads")).contains("caliper-seal-weep");
    assertThat(BRINGS.bringersOf("over-extended-piston")).contains("worn-pads");
    assertThat(BRINGS.why("bent-rotor", "wet-fluid")).isEmpty();
  }

  @Test
  @DisplayName("never leads back to the fault it began with")
  void neverLeadsBack() {
    for (String cause : VOCABULARY.causes().keySet()) {
      Set<String> before = new HashSet<>();
      Deque<String> open = new ArrayDeque<>(BRINGS.bringersOf(cause));
      while (!open.isEmpty()) {
        String by = open.pop();
        if (before.add(by)) {
          open.addAll(BRINGS.bringersOf(by));
        }
      }
      assertThat(before).as("what brings %s", cause).doesNotContain(cause);
    }
  }
}
