package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.bench.job.Place;
import firmlever.diagnosis.Bench;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The places and words of the bench")
class PlaceTest {
  @Test
  @DisplayName("offer everything that can be looked for, each at one place")
  void offerEverything() {
    List<String> offered =
        Place.all().stream().flatMap(place -> place.symptoms().stream()).toList();
    List<String> known =
        Bench.VOCABULARY.symptoms().values().stream()
            .filter(Symptom::canBeChecked)
            .map(Symptom::id)
            .toList();
    assertThat(offered).containsExactlyInAnyOrderElementsOf(known);
  }

  @Test
  @DisplayName("offer every reading a case may hold, each at one place")
  void offerEveryReading() {
    assertThat(Place.all().stream().flatMap(place -> place.readings().stream()))
        .containsExactlyInAnyOrderElementsOf(Place.KINDS.keySet());
    Object readings = firmlever.casefile.CaseFormat.schema(Bench.VOCABULARY).get("properties");
    assertThat(readings.toString()).contains(Place.KINDS.keySet());
  }

  @Test
  @DisplayName("know where every work is done")
  void knowTheWorks() {
    Set<String> known = new LinkedHashSet<>(Bench.VOCABULARY.actions().keySet());
    known.remove("hand-back");
    assertThat(
            Place.all().stream()
                .flatMap(place -> place.works().stream())
                .collect(Collectors.toSet()))
        .isEqualTo(known);
  }

  @ParameterizedTest(name = "say the same in {0} as in English, with the same values in it")
  @ValueSource(strings = {"de", "fr"})
  void sayTheSame(String language) {
    Words english = Words.in("en");
    Words other = Words.in(language);
    assertThat(other.keys()).isEqualTo(english.keys());
    for (String key : english.keys()) {
      assertThat(places(other.say(key))).as(key).isEqualTo(places(english.say(key)));
      assertThat(other.say(key)).as(key).isNotBlank();
    }
  }

  private static Set<String> places(String words) {
    return Pattern.compile("\\{\\d\\}")
        .matcher(words)
        .results()
        .map(each -> each.group())
        .collect(Collectors.toSet());
  }

  @Test
  @DisplayName("say everything the pages ask for, and nothing no page asks for")
  void sayWhatIsAskedFor() throws IOException {
    Words words = Words.in("en");
    Pattern asked = Pattern.compile("say\\(\\s*(?:request,\\s*)?\"([a-z][a-z.-]*)\"(\\s*\\+)?");
    Set<String> used = new LinkedHashSet<>();
    StringBuilder all = new StringBuilder();
    for (Path folder : List.of(Path.of("src/main/jte"), Path.of("src/main/java/firmlever/bench"))) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.filter(Files::isRegularFile).toList()) {
          all.append(Files.readString(file, StandardCharsets.UTF_8));
        }
      }
    }
    asked
        .matcher(all)
        .results()
        .forEach(
            each -> {
              if (each.group(2) == null) {
                used.add(each.group(1));
              } else {
                words.keys().stream()
                    .filter(key -> key.startsWith(each.group(1)))
                    .forEach(used::add);
              }
            });
    // Groups of the day are named by their keys.
    words.keys().stream()
        .filter(key -> all.indexOf("group(\"" + key + "\"") >= 0)
        .forEach(used::add);
    assertThat(words.keys()).containsExactlyInAnyOrderElementsOf(used);
  }
}
