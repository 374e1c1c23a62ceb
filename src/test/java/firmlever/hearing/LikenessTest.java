package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import firmlever.document.BadInput;
import firmlever.document.Fields;
import firmlever.document.Problems;
import firmlever.hearing.Likeness.Like;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("What a text is most like")
class LikenessTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();

  private static Set<String> ids() {
    Set<String> ids = new HashSet<>(VOCABULARY.symptomWords());
    ids.addAll(VOCABULARY.recordedWorks());
    ids.addAll(VOCABULARY.events().keySet());
    return ids;
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("comes from files of the right shape, with ids of the vocabulary")
  void holdsItsShape(String code) throws BadInput {
    Problems problems = new Problems(code);
    Fields file = VocabularyReader.document(Likeness.file(code));
    Likeness.shape(ids()).check(file.object(), problems);
    assertThatCode(problems::throwIfAny).doesNotThrowAnyException();
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("is the saying itself, letter by letter, whatever its case and accents")
  void findsItself(String code) {
    Likeness likeness = Likeness.of(code);
    Fields file = VocabularyReader.document(Likeness.file(code));
    for (Fields each : file.objects("sayings")) {
      String said = each.texts("says").get(0).toUpperCase(java.util.Locale.ROOT);
      List<Like> near = likeness.nearest(said, id -> true, 0.5, 3);
      assertThat(near).as(said).extracting(Like::id).contains(each.text("id"));
      assertThat(near.get(0).likeness()).as(said).isBetween(0.99, 1.0 + 1e-9);
    }
  }

  @ParameterizedTest(name = "\"{0}\"")
  @ValueSource(strings = {"", " ?! ", "1234567", "zzqx qqj", "Дождь и снег"})
  @DisplayName("is nothing for what nobody says of brakes")
  void findsNothing(String text) {
    assertThat(Likeness.of("en").nearest(text, id -> true, 0.3, 3)).isEmpty();
  }

  @Test
  @DisplayName("names only what is wanted, each once, the nearest first")
  void namesEachOnce() {
    List<Like> near =
        Likeness.of("en").nearest("the lever creeps towards the bar", id -> true, 0, 10);
    assertThat(near).extracting(Like::id).doesNotHaveDuplicates().hasSize(10);
    assertThat(near).isSortedAccordingTo((a, b) -> Double.compare(b.likeness(), a.likeness()));
    String first = near.get(0).id();
    assertThat(
            Likeness.of("en")
                .nearest("the lever creeps towards the bar", id -> !id.equals(first), 0, 10))
        .extracting(Like::id)
        .doesNotContain(first);
  }
}
