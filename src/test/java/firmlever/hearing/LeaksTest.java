package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A leak heard")
class LeaksTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final Map<String, Set<String>> COARSER = VOCABULARY.coarser();
  private static final Set<String> ANYWHERE = Set.of("leak-found", "fluid-lost");

  private static boolean isA(String fine, String coarse) {
    return fine.equals(coarse) || COARSER.getOrDefault(fine, Set.of()).contains(coarse);
  }

  @Test
  @DisplayName("is what the vocabulary calls a kind of leak, and fluid that is gone")
  void isWhatTheVocabularySays() {
    Set<String> leaks = new TreeSet<>();
    for (String id : VOCABULARY.symptoms().keySet()) {
      assertThat(Leaks.is(id)).as(id).isEqualTo(isA(id, "leak-found") || ANYWHERE.contains(id));
      if (Leaks.is(id)) {
        leaks.add(id);
      }
    }
    assertThat(leaks).hasSizeGreaterThan(10);
  }

  @Test
  @DisplayName("is denied by the denial of what it is a kind of, and of any leak")
  void isDeniedByTheCoarser() {
    int places = 0;
    for (String denied : VOCABULARY.symptoms().keySet()) {
      for (String claimed : VOCABULARY.symptoms().keySet()) {
        if (Leaks.is(denied) && Leaks.is(claimed)) {
          boolean anywhere = ANYWHERE.contains(denied);
          assertThat(Leaks.covers(denied, claimed))
              .as(denied + " denied, " + claimed + " claimed")
              .isEqualTo(anywhere || isA(claimed, denied));
          places += !anywhere && isA(claimed, denied) ? 1 : 0;
        }
      }
    }
    assertThat(places).as("kinds of places").isGreaterThan(15);
  }
}
