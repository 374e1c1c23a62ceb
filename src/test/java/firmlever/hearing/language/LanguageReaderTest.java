package firmlever.hearing.language;

import static org.assertj.core.api.Assertions.assertThatCode;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problems;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The language files")
class LanguageReaderTest {
  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"en", "de", "fr"})
  @DisplayName("are of the right shape, with ids of the vocabulary")
  void holdsItsShape(String code) throws IOException {
    String file = "/rules/vocabulary/hearing/" + code + ".json";
    try (var in = LanguageReaderTest.class.getResourceAsStream(file)) {
      Problems problems = new Problems(file);
      LanguageReader.shape(VocabularyReader.builtIn())
          .check(DocumentReader.read(in.readAllBytes(), file), problems);
      assertThatCode(problems::throwIfAny).doesNotThrowAnyException();
    } catch (BadInput e) {
      throw new AssertionError(e.getMessage(), e);
    }
  }
}
