package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.hearing.language.Certainty;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("Everyday words")
class EverydayWordsTest {
  private static final Map<String, String> OPPOSITES = VocabularyReader.builtIn().opposites();
  private static final Hearing HEARING = new Hearing();

  @ParameterizedTest(name = "hears \"{0}\" as {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          goes to the bar, fine after pumping | +lever-to-bar +pumps-up
          It's really spongy and I have to pump it up every time | +spongy-lever +pumps-up
          not spongy at all, but it squeals like hell | -spongy-lever +squeal
          no leaks anywhere, lever sinks slowly when I hold it | -leak-found -fluid-lost +lever-sinks
          it never drags | -drag
          It doesn't rub constantly | -drag
          the lever doesn’t come back | +slow-return
          the wheel does not spin freely | +drag
          all of a sudden no resistance | +sudden-loss +no-resistance
          brakes fade on long descents, no smell of burning | +soft-when-hot -smell-or-smoke
          Bled it, and after a week it was soft again. | +back-after-bleed
          there's oil on the disc and it hardly brakes | +fluid-on-pads +weak-braking
          DISC BENT, ROTOR WOBBLES | +bent-rotor-seen
          feels great, thanks | ''
          """)
  void hearsSymptoms(String words, String expected) {
    List<String> heard =
        HEARING.hear(words, "rear", LocalDate.EPOCH).findings().stream()
            .map(each -> sign(each) + OPPOSITES.getOrDefault(each.symptom(), each.symptom()))
            .toList();
    assertThat(heard)
        .containsExactlyInAnyOrderElementsOf(
            expected.isBlank() ? List.of() : List.of(expected.strip().split(" ")));
  }

  private static String sign(Heard.Finding heard) {
    boolean said = heard.certainty() != Certainty.ABSENT;
    return said == OPPOSITES.containsKey(heard.symptom()) ? "-" : "+";
  }
}
