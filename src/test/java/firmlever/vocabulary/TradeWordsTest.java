package firmlever.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.Fluid;
import firmlever.vocabulary.TradeWords.Kind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("Words of the trade")
class TradeWordsTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final TradeWords WORDS = TradeWords.of(VOCABULARY);
  private static final List<String> FLUIDS = Arrays.stream(Fluid.values()).map(Fluid::id).toList();

  private static String maybe(String given, Kind kind) {
    return WORDS.maybe(
        given,
        kind,
        switch (kind) {
          case SYMPTOM -> VOCABULARY.symptomWords();
          case WORK -> VOCABULARY.recordedWorks();
          case EVENT -> VOCABULARY.events().keySet();
          case PART -> VOCABULARY.parts().keySet();
          case OUTCOME -> VOCABULARY.outcomes().keySet();
          case CAUSE -> VOCABULARY.causes().keySet();
          case FLUID -> FLUIDS;
        });
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "bleed | WORK | Maybe \"full-bleed\" was meant.",
        "Full Bleed | WORK | Maybe \"full-bleed\" was meant.",
        "new pads | WORK | Maybe \"replace-pads\" was meant.",
        "hose shortened | WORK | Maybe \"shorten-hose\" was meant.",
        "full-bled | WORK | Maybe \"full-bleed\" was meant.",
        "leak | SYMPTOM | Maybe \"leak-found\" was meant.",
        "rubbing | SYMPTOM | Maybe \"drag\" or \"rub-in-rhythm\" was meant.",
        "air | SYMPTOM | That is a cause, not a symptom. Maybe \"spongy-lever\" or \"pumps-up\" was meant.",
        "worn-pads | SYMPTOM | That is a cause, not a symptom. Maybe \"thin-pads\" was meant.",
        "damaged-hose | SYMPTOM | That is a cause, not a symptom.",
        "crashed | WORK | That is an event, not a work.",
        "DOT 4 | FLUID | Maybe \"dot-4\" was meant.",
        "DOT 5.1 | FLUID | Maybe \"dot-5.1\" was meant.",
        "dot5 | FLUID | Maybe \"dot-5\" was meant.",
        "Mineral Oil | FLUID | Maybe \"mineral-oil\" was meant.",
        "mineral | FLUID | Maybe \"mineral-oil\" was meant.",
        "gearbox | SYMPTOM | Maybe look it up: firmlever words lists them."
      })
  void areGuessedAt(String given, Kind kind, String maybe) {
    assertThat(maybe(given, kind)).isEqualTo(maybe);
  }

  @Test
  @DisplayName("are written once each, and none is an id of what it means")
  void areWrittenOnce() throws java.io.IOException {
    JsonNode file =
        new JsonMapper()
            .readTree(java.nio.file.Path.of("rules/vocabulary/trade-words.json").toFile());
    List<String> said = new ArrayList<>();
    Set<String> fluids = new HashSet<>();
    for (JsonNode entry : file.get("trade-words")) {
      entry.get("said").forEach(each -> said.add(each.stringValue()));
      if (entry.has("fluids")) {
        entry.get("fluids").forEach(each -> fluids.add(each.stringValue()));
      }
    }
    assertThat(said).doesNotHaveDuplicates().hasSizeGreaterThan(100);
    assertThat(FLUIDS).containsAll(fluids);
  }

  @ParameterizedTest
  @CsvSource({
    "Plaquettes contaminées, contaminated-pads",
    "plaquettes contaminees, contaminated-pads",
    "piston grippé, seized-piston",
    "Membran gerissen, torn-diaphragm",
    "Leitungsanschluss am Hebel undicht, lever-fitting-weep",
    "durite bouchée, blocked-hose"
  })
  @DisplayName("tell causes in German and French, with accents or without")
  void tellCausesInGermanAndFrench(String said, String cause) {
    assertThat(WORDS.one(said, Kind.CAUSE, VOCABULARY.causes().keySet())).contains(cause);
  }

  @Test
  @DisplayName("name every cause in several ways")
  void nameEveryCause() {
    Map<String, Integer> ways = new HashMap<>();
    for (JsonNode entry :
        new JsonMapper()
            .readTree(java.nio.file.Path.of("rules/vocabulary/trade-words.json").toFile())
            .get("trade-words")) {
      if (entry.has("causes")) {
        entry
            .get("causes")
            .forEach(
                each -> ways.merge(each.stringValue(), entry.get("said").size(), Integer::sum));
      }
    }
    assertThat(VOCABULARY.causes().keySet())
        .allSatisfy(id -> assertThat(ways.get(id)).isGreaterThan(3));
  }

  @Test
  @DisplayName("leave no name of the vocabulary without itself")
  void everyNameFindsItself() {
    VOCABULARY
        .actions()
        .values()
        .forEach(
            each ->
                assertThat(WORDS.one(each.name(), Kind.WORK, VOCABULARY.recordedWorks()))
                    .contains(each.id()));
    VOCABULARY
        .symptoms()
        .values()
        .forEach(
            each ->
                assertThat(WORDS.one(each.name(), Kind.SYMPTOM, VOCABULARY.symptomWords()))
                    .contains(each.id()));
    FLUIDS.forEach(
        id ->
            assertThat(
                    WORDS.one(
                        id.replace('-', ' ').toUpperCase(java.util.Locale.ROOT),
                        Kind.FLUID,
                        FLUIDS))
                .contains(id));
  }
}
