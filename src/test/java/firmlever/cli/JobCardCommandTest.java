package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.Bench;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("jobcard and accept")
class JobCardCommandTest {
  @TempDir private Path folder;
  private String file;

  @BeforeEach
  void writeTheCase() throws IOException {
    Path path = folder.resolve("case.json");
    Files.writeString(
        path,
        Bench.text(
            "'brake':{'id':'B-0417-rear','position':'rear','fluid':'dot-4'},"
                + "'symptoms':{'spongy-lever':'present','weep-at-lever-port':'present'}"));
    file = path.toString();
  }

  @Test
  @DisplayName("print a card whose steps are numbered through, with cautions and acceptance")
  void printsACard() {
    Run run = Run.of("jobcard", file, "reseal-lever-port", "full-bleed");
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .startsWith("Job card B-0417-rear-3: reseal the lever port, then full bleed")
        .contains("[ ]  1  ", "[ ]  2  ", "! DOT fluid strips paint", "Before it goes back")
        .contains("The maker's instructions and torques");
    assertThat(run.out().lines()).allSatisfy(l -> assertThat(l.length()).isLessThanOrEqualTo(80));
  }

  @Test
  @DisplayName("print the same card for programs")
  void printsJson() {
    JsonNode json =
        new JsonMapper().readTree(Run.of("jobcard", "--json", file, "reseal-lever-port").out());
    assertThat(json.get("format").asString()).isEqualTo("firmlever-jobcard/1");
    assertThat(json.get("works").get(0).asString()).isEqualTo("reseal-lever-port");
    assertThat(json.get("sections").get(0).get("lines").get(0).get("source").asString())
        .isEqualTo("common practice");
    assertThat(json.get("acceptance").size()).isGreaterThan(8);
    assertThat(json.get("then").get(0).get("work").asString()).isEqualTo("lever-end-bleed");
  }

  @Test
  @DisplayName("write a page that is well formed, needs nothing from outside and runs nothing")
  void writesAPage() throws Exception {
    Path page = folder.resolve("card.html");
    Run run = Run.of("jobcard", file, "reseal-lever-port", "--html", page.toString());
    assertThat(run.code()).isZero();
    assertThat(run.out()).isEmpty();
    String html = Files.readString(page);
    assertThat(html)
        .contains("<html lang=\"en\">", "<title>Job card B-0417-rear-3", "@page { size: A4")
        .doesNotContain("http:", "https:", "<script", "url(");
    String xml = html.replace("<!DOCTYPE html>", "").replace("<meta charset=\"utf-8\">", "");
    assertThat(
            DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(xml)))
                .getElementsByTagName("h1")
                .getLength())
        .isEqualTo(1);
  }

  @Test
  @DisplayName("end with 1 where the work must wait, with 2 where the action is unknown")
  void refuse() {
    Run waits = Run.of("jobcard", file, "full-bleed");
    assertThat(waits.code()).isEqualTo(1);
    assertThat(waits.out()).isEmpty();
    assertThat(waits.err())
        .startsWith(file + ": full bleed must wait")
        .contains("Maybe put one of");
    Run unknown = Run.of("jobcard", file, "ful-bleed", "nonsense");
    assertThat(unknown.code()).isEqualTo(2);
    assertThat(unknown.err())
        .contains("ful-bleed: is no action known here", "\"full-bleed\" was meant", "nonsense: ");
    assertThat(Run.of("jobcard", file + "x").code()).isEqualTo(2);
  }

  @Test
  @DisplayName("end with 1 for a brake that is held, and say why for people and programs")
  void accept() {
    Run run = Run.of("accept", file);
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.out())
        .contains(
            ": hold", "FAILED    dry under pressure: weep at the lever port", "the brake stays");
    JsonNode json = new JsonMapper().readTree(Run.of("accept", "--json", file).out());
    assertThat(json.get("hand-back").asBoolean()).isFalse();
    assertThat(json.get("holds").get(0).asString()).contains("days-ago");
    assertThat(Run.of("accept", file + "x").code()).isEqualTo(2);
  }
}
