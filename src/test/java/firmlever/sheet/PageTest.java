package firmlever.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;

class PageTest {
  @Test
  void furtherLinesHangUnderTheFirst() {
    assertThat(
            new Page(40, false)
                .heading("What to do next")
                .hanging("  1  ", "check: weep at the caliper port, wheel out (4 min)")
                .blank()
                .heading("Mind")
                .hanging("  - ", "Eyes and hands.")
                .toString())
        .isEqualTo(
            """
            What to do next
              1  check: weep at the caliper port,
                 wheel out (4 min)


            Mind
              - Eyes and hands.
            """);
  }

  @Test
  void onlyAWordThatFitsNowhereSticksOut() {
    String word = "x".repeat(60);
    assertThat(new Page(40, false).hanging("  ", "a " + word + " b").toString())
        .isEqualTo("  a\n  " + word + "\n  b\n");
  }

  @Test
  void wrappingKeepsEveryWordAndFillsEveryLine() {
    for (long seed = 1; seed <= 300; seed++) {
      Random random = new Random(seed);
      StringBuilder words = new StringBuilder();
      for (int i = random.nextInt(1, 80); i > 0; i--) {
        words.append("w".repeat(random.nextInt(1, 15))).append(' ');
      }
      int width = random.nextInt(40, 111);
      String text = new Page(width, false).hanging("    ", words.toString()).toString();
      assertThat(text.replaceAll("\\s+", " ").strip())
          .as("seed %d", seed)
          .isEqualTo(words.toString().strip());
      String[] lines = text.split("\n");
      for (int i = 0; i < lines.length; i++) {
        assertThat(lines[i].length()).as("seed %d", seed).isLessThanOrEqualTo(width);
        if (i > 0) {
          int next = lines[i].strip().split(" ")[0].length();
          assertThat(lines[i - 1].length() + 1 + next).as("seed %d", seed).isGreaterThan(width);
        }
      }
    }
  }
}
