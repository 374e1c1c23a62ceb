package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("What the bench prints")
class PaperTest {
  private static final String JOB = "/jobs/B-0417-rear-2026-05-12";
  private static final int DOT = 4;

  @TempDir private java.nio.file.Path folder;

  /** What a camera reads of the code on a page. */
  private static String scanned(String html) throws Exception {
    Matcher svg =
        Pattern.compile("(?s)<svg class=\"code\" viewBox=\"0 0 (\\d+) .*?<path d=\"([^\"]*)\"")
            .matcher(html);
    assertThat(svg.find()).isTrue();
    int size = Integer.parseInt(svg.group(1));
    int[] picture = new int[size * DOT * size * DOT];
    Arrays.fill(picture, 0xFFFFFF);
    Matcher dots = Pattern.compile("M(\\d+) (\\d+)h1v1h-1z").matcher(svg.group(2));
    while (dots.find()) {
      for (int i = 0; i < DOT * DOT; i++) {
        int x = Integer.parseInt(dots.group(1)) * DOT + i % DOT;
        int y = Integer.parseInt(dots.group(2)) * DOT + i / DOT;
        picture[y * size * DOT + x] = 0;
      }
    }
    return new QRCodeReader()
        .decode(
            new BinaryBitmap(
                new HybridBinarizer(new RGBLuminanceSource(size * DOT, size * DOT, picture))),
            Map.of(DecodeHintType.TRY_HARDER, true))
        .getText();
  }

  private static Visitor takenIn(Served served) {
    return new Visitor(served, "T3").takesIn("goes soft, fine again after pumping");
  }

  @Test
  @DisplayName("is a card with the places of its work marked and a code that opens the brake")
  void printsTheCard() throws Exception {
    try (Served served = new Served(folder.resolve("shop.db"))) {
      Visitor mechanic = takenIn(served);
      mechanic.go(JOB + "/places/lever");
      mechanic.send(JOB + "/places/lever", "answer", "spongy-lever=present");
      mechanic.send(JOB + "/work", "do", "start", "work", "lever-end-bleed");
      mechanic.go(JOB + "/card");
      assertThat(mechanic.text())
          .contains("Places: Lever, Reservoir and fluid")
          .contains("On the bench page: tap Work done")
          .contains("maker's instructions")
          .doesNotContain("firmlever ");
      List<String> marked =
          Pattern.compile("/places/([a-z]+)\"[^>]*class=\"spot is-next")
              .matcher(mechanic.html())
              .results()
              .map(each -> each.group(1))
              .toList();
      assertThat(marked).containsExactly("lever", "reservoir");
      String address = scanned(mechanic.html());
      assertThat(address).isEqualTo(served.address() + "/brakes/B-0417-rear");
      mechanic.go(address.substring(served.address().length()));
      assertThat(mechanic.text()).contains("Brake B-0417-rear").contains("1 jobs");
      // Whoever scans it without being signed in gets there by signing in.
      Visitor other = new Visitor(served.address());
      other.go("/brakes/B-0417-rear");
      other.send("/sign-in", "code", "T5", "next", other.hidden("next"));
      assertThat(other.path()).isEqualTo("/brakes/B-0417-rear");
    }
  }

  @Test
  @DisplayName("is no sheet to go with the bike before the brake is handed back")
  void printsNoSheetBefore() {
    try (Served served = new Served(folder.resolve("shop.db"))) {
      Visitor mechanic = takenIn(served);
      assertThat(mechanic.go(JOB + "/hand-back").status()).isEqualTo(404);
    }
  }
}
