package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("What differs, in triage and check")
class AgainstTest {
  private static final String DEMO = "cases/demo/long-lever-hard-stop.json";

  @TempDir private Path folder;

  private String edited(String from, String to) throws IOException {
    String text = Files.readString(Path.of(DEMO));
    assertThat(text).contains(from);
    Path file = folder.resolve("edited.json");
    Files.writeString(file, text.replace(from, to));
    return file.toString();
  }

  private String leaking() throws IOException {
    return edited("\"symptoms\": {", "\"symptoms\": {\"weep-at-lever-piston\": \"present\", ");
  }

  @Test
  @DisplayName("triage --against tells what is otherwise than in another case, and its gate holds")
  void tellsTheDifference() throws IOException {
    String now = leaking();
    Run run = Run.of("triage", now, "--against", DEMO);
    assertThat(run.err()).isEmpty();
    assertThat(run.code()).isZero();
    assertThat(run.out())
        .contains("; against\n" + DEMO + "\nRide   NO")
        .contains("weep behind the lever blade")
        .contains("weeping lever piston (from ");
    assertThat(Run.of("triage", now, "--against", DEMO, "--gate").code()).isEqualTo(3);
    Run same = Run.of("triage", DEMO, "--against", DEMO);
    assertThat(same.out()).contains("as before", "cautions are the same too");
  }

  @Test
  @DisplayName("triage --against --json tells it to programs, and both verdicts are triage's own")
  void tellsPrograms() throws IOException {
    String now = leaking();
    JsonMapper mapper = new JsonMapper();
    JsonNode d = mapper.readTree(Run.of("triage", now, "--against", DEMO, "--json").out());
    assertThat(d.path("format").asString()).isEqualTo("firmlever-difference/1");
    JsonNode before = mapper.readTree(Run.of("triage", DEMO, "--json", "--draws", "0").out());
    JsonNode after = mapper.readTree(Run.of("triage", now, "--json", "--draws", "0").out());
    assertThat(d.at("/ride/before")).isEqualTo(before.at("/ride/verdict"));
    assertThat(d.at("/ride/now")).isEqualTo(after.at("/ride/verdict"));
    assertThat(d.at("/first/now")).isEqualTo(after.at("/causes/0/id"));
    assertThat(d.at("/next/now")).isEqualTo(after.at("/next/0/id"));
    assertThat(d.path("findings").toString())
        .contains("{\"symptom\":\"weep-at-lever-piston\",\"before\":");
  }

  @Test
  @DisplayName("triage --against refuses another brake, a case it cannot read, and --why")
  void refusesWhatDoesNotGoTogether() throws IOException {
    String other = edited("\"brake\": {", "\"brake\": {\"sold\": true, ");
    Run unread = Run.of("triage", DEMO, "--against", other);
    assertThat(unread.code()).isEqualTo(2);
    assertThat(unread.out()).isEmpty();
    Run brake = Run.of("triage", DEMO, "--against", "cases/demo/nothing-wrong.json");
    assertThat(brake.code()).isEqualTo(2);
    assertThat(brake.out()).isEmpty();
    assertThat(brake.err()).contains("is of brake ", "Maybe name a case of the same brake.");
    assertThat(Run.of("triage", DEMO, "--against", DEMO, "--why").code()).isEqualTo(2);
    assertThat(Run.of("triage", DEMO, DEMO, "--against", DEMO).code()).isEqualTo(2);
  }

  @Test
  @DisplayName("check --rules names what a shop's own rules change, a caution that goes among it")
  void namesWhatOwnRulesChange() throws IOException {
    Path rules = Files.createDirectory(folder.resolve("rules"));
    Path off = rules.resolve("switched-off.txt");
    Files.writeString(off, "stop-ride: sinking lever\n");
    String cases = "cases/regression/worn-lever-seal";
    Run run = Run.of("check", "--quiet", cases, "--rules", rules.toString());
    assertThat(run.out())
        .contains("The rules of " + rules)
        .doesNotContain("\nchanged ")
        .contains("ride: NO, as before; no longer because of: lever sinks under a steady pull");
    Files.writeString(off, "caution: always\n");
    Run careless = Run.of("check", "--quiet", cases, "--rules", rules.toString());
    assertThat(careless.out().replaceAll("\\s+", " "))
        .contains("the cautions in")
        .contains("mind: no longer: the maker's instructions first");
    Files.writeString(
        rules.resolve("own.drl"),
        """
        package firmlever.rules.safety

        import firmlever.rulebase.Facts.*
        import firmlever.rulebase.Model
        global Model model

        rule "own: nothing is to be looked for"
            @source("common practice")
        when
            Finding( symptom == "hose-end-out" )
        then
            model.raise( "worn-pads", 1.1, "nobody knows" );
        end
        """);
    Files.delete(off);
    Run nothing = Run.of("check", "--quiet", cases, "--rules", rules.toString());
    assertThat(nothing.out()).contains("change nothing in ");
    assertThat(Run.of("check", "--quiet", cases).out()).doesNotContain("The rules of");
  }
}
