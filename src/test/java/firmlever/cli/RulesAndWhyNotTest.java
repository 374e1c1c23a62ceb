package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RulesAndWhyNotTest {
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";

  @TempDir Path folder;

  @Test
  void whyNotTellsInSomeTenLinesAndInFull() {
    Run brief = Run.of("whynot", DEMO, "air-left-in-line");
    assertThat(brief.code()).isZero();
    assertThat(brief.err()).isEmpty();
    assertThat(brief.out())
        .startsWith("B-0417-rear-3: why not air left in the line")
        .contains(
            "against", "explains", "for ", "not met", "not checked", "if it is there", "if not")
        .contains("The maker's instructions");
    assertThat(brief.out().lines().count()).isBetween(8L, 20L);
    Run full = Run.of("whynot", DEMO, "air-left-in-line", "--all");
    assertThat(full.out().lines().count()).isGreaterThan(40);
    assertThat(full.out()).contains("needed: ", "seen: ");
  }

  @Test
  void whyNotTakesTheNameThatScreensPrint() {
    assertThat(Run.of("whynot", DEMO, "Air left in the line").out())
        .isEqualTo(Run.of("whynot", DEMO, "air-left-in-line").out());
  }

  @Test
  void whyNotTellsProgramsTheSame() {
    Run run = Run.of("whynot", DEMO, "air-left-in-line", "--json");
    assertThat(run.code()).isZero();
    assertThat(run.out())
        .contains("\"format\" : \"firmlever-whynot/1\"", "\"verdict\" : \"not-checked\"")
        .contains("\"verdict\" : \"false\"", "\"if-present\" : 0.", "\"times\" : 5.0");
  }

  @Test
  void anUnknownCauseOrIdIsTold() {
    for (Run run : new Run[] {Run.of("whynot", DEMO, "worn-padz"), Run.of("rules", "worn-padz")}) {
      assertThat(run.code()).isEqualTo(2);
      assertThat(run.out()).isEmpty();
      assertThat(run.err()).contains("worn-padz", "Maybe \"worn-pads\" was meant.");
    }
    assertThat(Run.of("whynot", DEMO).code()).isEqualTo(2);
    assertThat(Run.of("whynot", "no-such.json", "worn-pads").code()).isEqualTo(2);
  }

  @Test
  void theBookIsWrittenBesideAndMovedIntoPlace() throws IOException {
    Path file = folder.resolve("book.html");
    Run run = Run.of("rules", "--html", file.toString());
    assertThat(run.code()).isZero();
    assertThat(run.out()).contains(file.toString());
    assertThat(run.err()).isEmpty();
    assertThat(Files.readString(file)).startsWith("<!DOCTYPE html>").endsWith("</html>\n");
    try (var files = Files.list(folder)) {
      assertThat(files).containsExactly(file);
    }
    Run refused = Run.of("rules", "--html", folder.resolve("no/such/book.html").toString());
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.err()).contains("cannot be written");
  }

  @Test
  void aShopsRulesAreTold() throws IOException {
    Files.writeString(folder.resolve("switched-off.txt"), "worn-pads: new in 60 days\n");
    Files.writeString(
        folder.resolve("own.drl"),
        """
        package firmlever.rules.causes

        import firmlever.rulebase.Facts.*
        import firmlever.rulebase.Model
        global Model model

        rule "worn-pads: gritty lake road"
            @source("common practice")
        when
            Use( ambientC > 7 )
        then
            model.raise( "worn-pads", 1.25, "the lake road eats pads" );
        end
        """);
    Run run = Run.of("rules", "worn-pads", "--rules", folder.toString());
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .contains("×1.25", "temperature over 7 °C", "the lake road eats pads")
        .doesNotContain("the pads were new");
    assertThat(Run.of("rules", "worn-pads").out())
        .contains("the pads were new")
        .doesNotContain("lake road");
    Run whyNot = Run.of("whynot", DEMO, "worn-pads", "--all", "--rules", folder.toString());
    assertThat(whyNot.out()).contains("worn-pads: gritty lake road");
  }
}
