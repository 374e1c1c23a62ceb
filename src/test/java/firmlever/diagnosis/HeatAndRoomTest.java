package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HeatAndRoomTest {
  private static final Pattern FLUID = Pattern.compile("caliper near (\\d+) °C");

  private static List<String> of(String brake, String use, String readings) throws BadInput {
    String text =
        """
        { "format": "firmlever-case/1", "id": "heat-1", "opened": "2026-06-01",
          "brake": { "id": "B-0417", "position": "front" %s },
          "use": { %s }, "complaint": "soft after the pass", "readings": { %s } }"""
            .formatted(brake, use, readings);
    Vocabulary vocabulary = VocabularyReader.builtIn();
    CaseFile file = new CaseReader(vocabulary).read(DocumentReader.readText(text, "heat"), "heat");
    return HeatAndRoom.of(file, vocabulary);
  }

  private static int hottest(String drop) throws BadInput {
    List<String> said =
        of(
            ", \"fluid\": \"dot-4\", \"rotor\": { \"diameter\": \"160 mm\" }",
            "\"rider-and-load\": \"95 kg\", \"slope\": \"10 %\", \"drop\": \"" + drop + "\"",
            "");
    Matcher range = FLUID.matcher(said.get(0));
    assertThat(range.find()).as(said.get(0)).isTrue();
    return Integer.parseInt(range.group(1));
  }

  @Test
  @DisplayName("a longer descent is hotter, and far down the pass the fluid may boil")
  void longerIsHotter() throws BadInput {
    assertThat(hottest("600 m")).isGreaterThan(hottest("60 m"));
    assertThat(
            of(
                ", \"fluid\": \"dot-4\", \"rotor\": { \"diameter\": \"160 mm\" }",
                "\"rider-and-load\": \"130 kg\", \"slope\": \"12 %\", \"drop\": \"900 m\"",
                "\"moisture\": \"4 %\""))
        .singleElement()
        .asString()
        .contains("boil", "by the water measured in it", "What helps most", "the maker's limits");
  }

  @Test
  @DisplayName("a measured boiling point is told with the error of the tester, as it was measured")
  void measured() throws BadInput {
    assertThat(
            of(
                ", \"fluid\": \"dot-4\", \"rotor\": { \"diameter\": \"180 mm\" }",
                "\"rider-and-load\": \"80 kg\", \"slope\": \"5 %\", \"drop\": \"30 m\","
                    + " \"altitude\": \"2400 m\"",
                "\"boiling-point\": \"160 °C\""))
        .singleElement()
        .asString()
        .contains("this brake taking 0.6 of it", "(measured)", "of room");
  }

  @Test
  @DisplayName("two 22 mm pistons and 1.5 mm of wear push back 1.14 mL, worked by hand")
  void newPads() throws BadInput {
    String brake =
        ", \"caliper\": { \"pistons\": 2, \"bore\": \"22 mm\" }, \"reservoir-free\": \"%s\","
            + " \"maker-figures\": { \"pad-new\": \"2.5 mm\" }";
    String thin = "\"pad-thickness\": [\"1.1 mm\", \"0.9 mm\"]";
    assertThat(of(brake.formatted("0.8 mL"), "", thin))
        .containsExactly(
            "New pads push 1.1 mL back into the reservoir, which has room for 0.8 mL: draw some"
                + " off first, or it wells up or drags.");
    assertThat(of(brake.formatted("2 mL"), "", thin))
        .singleElement()
        .asString()
        .contains("takes them as it is");
  }

  @ParameterizedTest
  @DisplayName("nothing is said where something is missing")
  @ValueSource(
      strings = {
        "",
        "\"rider-and-load\": \"95 kg\", \"slope\": \"10 %\"",
        "\"rider-and-load\": \"95 kg\", \"drop\": \"300 m\"",
        "\"slope\": \"10 %\", \"drop\": \"300 m\""
      })
  void saysNothing(String use) throws BadInput {
    assertThat(of(", \"rotor\": { \"diameter\": \"160 mm\" }", use, "")).isEmpty();
  }
}
