package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import firmlever.hearing.Ear.Likely;
import firmlever.hearing.Ear.Meaning;
import firmlever.hearing.Ear.Sign;
import firmlever.hearing.language.Language;
import firmlever.hearing.language.LanguageReader;
import firmlever.hearing.language.SignNumber;
import firmlever.hearing.language.Signs;
import firmlever.hearing.language.Word;
import firmlever.hearing.language.Words;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("An ear")
class EarTest {
  private static final Language ENGLISH = LanguageReader.read("en");
  private static final Meaning SQUEAL =
      new Meaning(Sign.THERE, "squeal", Optional.empty(), List.of("noise"));
  private static final Meaning CRASHED =
      new Meaning(Sign.DONE_EVENT, "crashed", Optional.empty(), List.of());

  private static List<Word> words(String text) {
    return Words.of(text, ENGLISH);
  }

  @Test
  @DisplayName("adds up the weights of the signs it meets, for a run of sixteen")
  void addsUp() {
    List<Word> words = words("it shrieks");
    int[] signs = Signs.of(words, ENGLISH.lexicon());
    TreeMap<Integer, float[]> weights = new TreeMap<>();
    weights.put(SignNumber.of('w', "shrieks"), new float[] {1.27f, 0});
    weights.put(SignNumber.of('w', "it"), new float[] {-0.5f, 0.4f});
    weights.put(SignNumber.of('w', "elsewhere"), new float[] {9 / 127f, 1});
    Ear ear = Ear.read(Ear.bytes("d", List.of(SQUEAL, CRASHED), new float[] {-2, -3}, weights));
    List<Likely> heard = ear.hear(words, ENGLISH.lexicon(), 0, window -> false);
    double share = Math.sqrt(16.0 / signs.length);
    assertThat(heard).extracting(Likely::meaning).containsExactly(SQUEAL, CRASHED);
    assertThat(heard.get(0).logit()).isCloseTo(-2 + share * 0.77, within(0.02));
    assertThat(heard.get(1).logit()).isCloseTo(-3 + share * 0.4, within(0.02));
    assertThat(ear.digest()).isEqualTo("d");
  }

  @Test
  @DisplayName("hears a meaning where it is said, not in the whole text")
  void hearsWhere() {
    Ear ear =
        Ear.read(
            Ear.bytes(
                "d",
                List.of(SQUEAL),
                new float[] {-2},
                new TreeMap<>(Map.of(SignNumber.of('w', "shrieks"), new float[] {1}))));
    List<Word> words = words("I came by bus, the thing shrieks, and what do tyres cost?");
    Likely heard = ear.hear(words, ENGLISH.lexicon(), 0, window -> false).get(0);
    assertThat(words.subList(heard.window().first(), heard.window().end()))
        .extracting(Word::plain)
        .contains("shrieks")
        .doesNotContain("bus", "tyres");
  }

  @Test
  @DisplayName("of another form is refused")
  void refusesAnotherForm() {
    assertThatThrownBy(() -> Ear.read(new byte[] {0, 0, 0, 9}))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("form 9");
  }

  @ParameterizedTest
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("was learned from what lies in cases/hearing today; if not, run src/test/learn")
  void isOfToday(String code) throws IOException {
    assertThat(Ear.of(code).digest()).isEqualTo(Learning.digest(code));
  }

  @ParameterizedTest
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("names nothing but what the vocabulary names")
  void namesTheVocabulary(String code) {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    for (Likely each : Ear.of(code).hear(words("soft"), ENGLISH.lexicon(), 0, window -> false)) {
      Meaning meaning = each.meaning();
      switch (meaning.sign()) {
        case THERE, NOT_THERE -> {
          assertThat(vocabulary.symptoms()).containsKey(meaning.id());
          assertThat(vocabulary.symptoms().keySet()).containsAll(meaning.coarser());
        }
        case DONE_WORK -> assertThat(vocabulary.recordedWorks()).contains(meaning.id());
        case DONE_EVENT -> assertThat(vocabulary.events()).containsKey(meaning.id());
      }
    }
  }
}
