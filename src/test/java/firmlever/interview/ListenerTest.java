package firmlever.interview;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The listener")
class ListenerTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final Listener LISTENER = new Listener(VOCABULARY);

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
    List<String> heard = new ArrayList<>();
    LISTENER
        .listen(words, "rear")
        .heard()
        .forEach(each -> heard.add((each.present() ? "+" : "-") + each.symptom()));
    assertThat(heard)
        .containsExactlyInAnyOrderElementsOf(
            expected.isBlank() ? List.of() : List.of(expected.strip().split(" ")));
  }

  @Test
  @DisplayName("leaves aside what is said of the other wheel")
  void knowsFrontFromRear() {
    String words = "The front squeals. The rear is spongy, and it drags. Front brake judders too.";
    assertThat(LISTENER.listen(words, "rear").heard())
        .extracting(Listener.Heard::symptom)
        .containsExactly("spongy-lever", "drag");
    assertThat(LISTENER.listen(words, "rear").elsewhere())
        .extracting(Listener.Heard::symptom)
        .containsExactly("squeal", "judder");
    assertThat(LISTENER.listen(words, "front").heard())
        .extracting(Listener.Heard::symptom)
        .containsExactly("squeal", "judder");
    assertThat(LISTENER.listen("back brake is mushy", "front").elsewhere()).hasSize(1);
    assertThat(LISTENER.listen("back brake is mushy", "unknown").wheel()).isEqualTo("rear");
    assertThat(LISTENER.listen("lever comes back slowly", "front").heard())
        .extracting(Listener.Heard::symptom)
        .containsExactly("slow-return");
  }

  @Test
  @DisplayName("bears any text: empty, endless, of other scripts, of signs alone")
  void bearsAnyText() {
    for (String text :
        List.of(
            "",
            " ",
            "!?.,",
            "\u0000\u0007",
            "刹车很软",
            "no no no not never",
            "a".repeat(100_000),
            "soft ".repeat(2000),
            "\ud83d\udeb2 squeals")) {
      assertThat(LISTENER.listen(text, "rear").heard()).hasSizeLessThan(3);
    }
  }
}
