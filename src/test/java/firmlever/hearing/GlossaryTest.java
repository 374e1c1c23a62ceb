package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.hearing.Glossary.Entry;
import firmlever.hearing.Glossary.Found;
import firmlever.hearing.Glossary.Way;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The glossary")
class GlossaryTest {
  private static final Glossary GLOSSARY = new Glossary(VocabularyReader.builtIn());

  @ParameterizedTest
  @CsvSource({
    "handle sinks, lever-sinks, HEARD",
    "Bremse quietscht, squeal, HEARD",
    "bled yesterday, full-bleed, HEARD",
    "bladder, diaphragm, TRADE_WORD",
    "olive, hose-end-parts, TRADE_WORD",
    "harmlessly, air-at-lever, DEFINED",
    "lever-snks, lever-sinks, SPELT_NEARLY",
    "kinked, hose-damage, HEARD",
    "helped while, helped-for-a-while, NAMED"
  })
  void findsWhatIsCalledOtherwise(String text, String id, Way way) {
    assertThat(GLOSSARY.find(text))
        .anySatisfy(
            found -> {
              assertThat(found.entry().id()).isEqualTo(id);
              assertThat(found.way()).isEqualTo(way);
            });
  }

  @Test
  @DisplayName("finds each name by its id and by its name")
  void findsEachByItself() {
    for (Entry each : GLOSSARY.all()) {
      assertThat(GLOSSARY.find(each.id())).extracting(Found::entry).contains(each);
      assertThat(GLOSSARY.find(each.name())).extracting(Found::entry).contains(each);
    }
  }

  @Test
  @DisplayName("tells the surest first, and nothing of what nobody knows")
  void tellsTheSurestFirst() {
    List<Way> ways = GLOSSARY.find("bled").stream().map(Found::way).toList();
    assertThat(ways).isSorted().contains(Way.HEARD);
    assertThat(GLOSSARY.find("xyzzy")).isEmpty();
    assertThat(GLOSSARY.find("?!")).isEmpty();
    assertThat(GLOSSARY.find("x".repeat(100_000))).isEmpty();
  }
}
