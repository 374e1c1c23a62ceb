package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("firmlever curve")
class CurveCommandTest {
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final String SOFT = "cases/demo/soft-with-readings.json";

  /** A case of the demo without any throw in it. */
  private static final String UNMEASURED = "cases/regression/caliper-port-weep/plain.json";

  @TempDir Path folder;

  @Test
  @DisplayName("prints what was measured beside what is modelled, and what it says")
  void text() {
    Run run = Run.of("curve", SOFT);
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .containsPattern("(?m)^ +100 N +19\\.0 +1[89]\\.\\d +3\\d\\.\\d ")
        .contains("of air in the line", "a bleed can help", "The maker's instructions come first.");
    assertThat(run.out().lines()).allMatch(line -> line.length() <= 80);
  }

  @Test
  @DisplayName("fits a narrow terminal")
  void narrow() {
    String own = System.getProperty("firmlever.columns");
    try {
      System.setProperty("firmlever.columns", "40");
      assertThat(Run.of("curve", SOFT).out().lines()).allMatch(line -> line.length() <= 40);
    } finally {
      if (own == null) {
        System.clearProperty("firmlever.columns");
      } else {
        System.setProperty("firmlever.columns", own);
      }
    }
  }

  @Test
  @DisplayName("draws a sound brake of the kind where nothing was measured, and says so")
  void unmeasured() {
    Run run = Run.of("curve", UNMEASURED);
    assertThat(run.code()).isZero();
    assertThat(run.out())
        .contains("a sound brake of this kind")
        .doesNotContain("\n  read ", "bleed");
    JsonNode json = MAPPER.readTree(Run.of("curve", UNMEASURED, "--json").out());
    assertThat(json.get("measured").isEmpty()).isTrue();
    assertThat(json.has("gas")).isFalse();
  }

  @Test
  @DisplayName("prints the same for programs: readings as they stand, lines that rise")
  void json() {
    JsonNode json = MAPPER.readTree(Run.of("curve", SOFT, "--json").out());
    assertThat(json.get("format").stringValue()).isEqualTo("firmlever-curve/2");
    assertThat(json.get("measured").valueStream().map(m -> m.get("throw").doubleValue()))
        .containsExactly(6.0, 19.0, 16.0);
    assertThat(json.get("lines").valueStream().map(line -> line.get("id").stringValue()))
        .containsExactly("modelled", "some-air", "new-pads", "soft-hose");
    for (JsonNode line : json.get("lines")) {
      assertThat(line.get("throw").size()).isEqualTo(line.get("force").size());
      assertThat(line.get("throw").valueStream().map(JsonNode::doubleValue)).isSorted();
    }
    assertThat(json.get("gas").get("meaning").stringValue()).isEqualTo("gas");
  }

  @Test
  @DisplayName("draws an SVG that names itself, with whole dashed lines, the same bytes each time")
  void svg() throws Exception {
    Path one = folder.resolve("one.svg");
    Path two = folder.resolve("two.svg");
    assertThat(Run.of("curve", SOFT, "--svg", one.toString()).code()).isZero();
    assertThat(Run.of("curve", SOFT, "--svg", two.toString()).code()).isZero();
    assertThat(two).hasSameBinaryContentAs(one);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).as("nothing half-written beside").containsExactlyInAnyOrder(one, two);
    }
    Element root = parsed(Files.readString(one));
    assertThat(root.getElementsByTagName("title").item(0).getTextContent())
        .isEqualTo("Lever throw of B-0422-rear");
    assertThat(root.getAttribute("role")).isEqualTo("img");
    NodeList paths = root.getElementsByTagName("path");
    int wholeDashed = 0;
    for (int i = 0; i < paths.getLength(); i++) {
      Element path = (Element) paths.item(i);
      boolean dashed = path.getAttribute("stroke-dasharray").matches("[0-9].*");
      boolean line = path.getAttribute("fill").equals("none");
      wholeDashed += dashed && line && path.getAttribute("d").split("L").length > 75 ? 1 : 0;
    }
    assertThat(wholeDashed).as("new pads and soft hose, each one path").isEqualTo(2);
  }

  private static Element parsed(String svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    return factory
        .newDocumentBuilder()
        .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)))
        .getDocumentElement();
  }

  @Test
  @DisplayName("says what is wrong with its input or its place to write")
  void badInput() throws IOException {
    Run nowhere = Run.of("curve", SOFT, "--svg", folder.resolve("none/c.svg").toString());
    assertThat(nowhere.code()).isEqualTo(2);
    assertThat(nowhere.out()).isEmpty();
    assertThat(nowhere.err()).contains("cannot be written");
    Path bad =
        Files.writeString(
            folder.resolve("bad.json"),
            Files.readString(Path.of(SOFT)).replace("\"16 mm\", \"force\"", "\"16\", \"force\""));
    Run unread = Run.of("curve", bad.toString());
    assertThat(unread.code()).isEqualTo(2);
    assertThat(unread.err()).contains("/readings/throw-firm/1/value");
    assertThat(Run.of("curve").code()).isEqualTo(2);
  }

  @Test
  @DisplayName("triage tells the same estimate, and none without throws")
  void triageTellsTheSame() {
    JsonNode gas =
        MAPPER.readTree(Run.of("triage", SOFT, "--json", "--draws", "0").out()).get("gas");
    assertThat(gas).isEqualTo(MAPPER.readTree(Run.of("curve", SOFT, "--json").out()).get("gas"));
    List<Double> ml =
        Stream.of("low", "volume", "high")
            .map(name -> gas.get(name).stringValue())
            .peek(text -> assertThat(text).matches("\\d+\\.\\d+ mL"))
            .map(text -> Double.parseDouble(text.replace(" mL", "")))
            .toList();
    assertThat(ml).isSorted().doesNotHaveDuplicates();
    assertThat(Run.of("triage", SOFT, "--why", "--draws", "0").out())
        .contains("What the lever throw says");
    assertThat(Run.of("triage", UNMEASURED, "--why", "--draws", "0").out())
        .doesNotContain("lever throw says");
    assertThat(Run.of("triage", UNMEASURED, "--json", "--draws", "0").out())
        .doesNotContain("\"gas\"");
  }
}
