package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearestTest {
  private static final List<String> KNOWN =
      List.of(
          "spongy-lever", "pumps-up", "lever-sinks", "lever-to-bar", "thin-pads", "uneven-pads");

  @ParameterizedTest
  @CsvSource({
    "spongy-lever, spongy-lever, 0",
    "spongylever, spongy-lever, 1",
    "sponyg-lever, spongy-lever, 1",
    "thick-pads, thin-pads, 2",
    "'', mm, 2",
    "kitten, sitting, 3",
    "ca, abc, 3"
  })
  void editsAreCounted(String a, String b, int edits) {
    assertThat(Nearest.edits(a, b)).isEqualTo(edits);
  }

  @ParameterizedTest
  @CsvSource({
    "spongy-levr, spongy-lever",
    "pump-up, pumps-up",
    "lever-sink, lever-sinks",
    "leverto-bar, lever-to-bar",
    "unevenpads, uneven-pads",
    "Thin Pads, thin-pads",
    " LEVER_TO_BAR , lever-to-bar"
  })
  void aSlipOfThePenFindsItsName(String given, String meant) {
    assertThat(Nearest.to(given, KNOWN)).contains(meant);
  }

  @Test
  void whatIsFarFromAllFindsNothing() {
    assertThat(Nearest.to("gearbox", KNOWN)).isEmpty();
    assertThat(Nearest.to("x".repeat(1_000_000), KNOWN)).isEmpty();
    assertThat(Nearest.to("pumps-up", List.of())).isEmpty();
  }

  /** To take DOT 5 for DOT would be to pour glycol into a silicone brake. */
  @Test
  void ofEquallyNearNamesTheLongestIsTakenThenTheFirst() {
    assertThat(Nearest.to("dot5", List.of("dot", "dot-3", "dot-4", "dot-5"))).contains("dot-5");
    assertThat(Nearest.to("dot4", List.of("dot-4", "dot"))).contains("dot-4");
    assertThat(Nearest.to("cat", List.of("dog", "bat", "rat"))).contains("bat");
    assertThat(Nearest.to("cat", List.of("dog", "rat", "bat"))).contains("rat");
  }

  @Test
  void shortListsAreNamedWhereNothingIsNear() {
    assertThat(Nearest.maybe("middle", List.of("front", "rear")))
        .isEqualTo("Maybe one of: front, rear.");
    assertThat(Nearest.maybe("frnt", List.of("front", "rear")))
        .isEqualTo("Maybe \"front\" was meant.");
    List<String> long13 = IntStream.range(0, 13).mapToObj(i -> "name-" + i).toList();
    assertThat(Nearest.maybe("quite-other", long13)).isEmpty();
  }

  @Test
  void editsAreADistanceAndTheNearestIsNearest() {
    for (long seed = 1; seed <= 500; seed++) {
      Random random = new Random(seed);
      String a = word(random);
      String b = word(random);
      int edits = Nearest.edits(a, b);
      assertThat(edits)
          .as("seed %d: %s, %s", seed, a, b)
          .isEqualTo(Nearest.edits(b, a))
          .isBetween(Math.abs(a.length() - b.length()), Math.max(a.length(), b.length()));
      assertThat(edits == 0).isEqualTo(a.equals(b));

      List<String> known = new ArrayList<>();
      for (int i = 0; i < 6; i++) {
        known.add(word(random));
      }
      int allowed = Math.max(1, a.length() / 3);
      int least = known.stream().mapToInt(name -> Nearest.edits(a, name)).min().orElseThrow();
      var found = Nearest.to(a, known);
      assertThat(found.isPresent()).as("seed %d", seed).isEqualTo(least <= allowed);
      found.ifPresent(name -> assertThat(Nearest.edits(a, name)).isEqualTo(least));
    }
  }

  private static String word(Random random) {
    StringBuilder word = new StringBuilder();
    for (int i = random.nextInt(1, 9); i > 0; i--) {
      word.append("abc-".charAt(random.nextInt(4)));
    }
    return word.toString();
  }
}
