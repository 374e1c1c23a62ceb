package firmlever.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.rulebase.BuiltInRules;
import firmlever.rulebase.text.RuleText;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

@DisplayName("The rule book")
class RuleBookTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final List<RuleText> RULES = BuiltInRules.read();
  private static RuleBook book;
  private static Document html;

  @BeforeAll
  static void write() throws Exception {
    book = new RuleBook(VOCABULARY, "sha256:0417", RULES, cases());
    DocumentBuilder builder = DocumentBuilderFactory.newInstance().newDocumentBuilder();
    // The parser refuses whatever is not well-formed.
    html = builder.parse(new InputSource(new StringReader(book.html())));
  }

  private static List<NamedCase> cases() throws IOException, BadInput {
    CaseReader reader = new CaseReader(VOCABULARY);
    List<NamedCase> cases = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("cases"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        cases.add(new NamedCase(file.toString(), "../" + file, reader.read(file, file.toString())));
      }
    }
    return cases;
  }

  private static List<Element> all(String tag) {
    NodeList found = html.getElementsByTagName(tag);
    return IntStream.range(0, found.getLength()).mapToObj(i -> (Element) found.item(i)).toList();
  }

  private static List<String> attributes(String name) {
    return all("*").stream()
        .map(each -> each.getAttribute(name))
        .filter(value -> !value.isEmpty())
        .toList();
  }

  private static Element section(String id) {
    return all("section").stream()
        .filter(each -> each.getAttribute("id").equals(id))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no section " + id));
  }

  @Test
  @DisplayName("tells every rule exactly once, and none as mere text")
  void tellsEveryRuleOnce() {
    assertThat(attributes("data-rule"))
        .containsExactlyInAnyOrderElementsOf(RULES.stream().map(RuleText::name).toList());
    assertThat(attributes("id")).doesNotContain("other-rules").doesNotHaveDuplicates();
  }

  @Test
  @DisplayName("tells of each cause in which cases the rules are known to miss it, and why")
  void tellsWhatIsMissed() throws Exception {
    List<String> missed =
        cases().stream()
            .filter(each -> each.file().knownMiss().isPresent())
            .filter(each -> each.file().expectation().orElseThrow().first().contains("worn-pads"))
            .map(each -> each.file().knownMiss().orElseThrow())
            .toList();
    assertThat(missed).isNotEmpty();
    assertThat(section("cause-worn-pads").getTextContent())
        .contains("Known limitations")
        .contains(missed.toArray(String[]::new));
  }

  @Test
  @DisplayName("tells every cause, symptom, work and warning with its definition")
  void tellsTheVocabulary() {
    VOCABULARY
        .causes()
        .values()
        .forEach(
            each ->
                assertThat(section("cause-" + each.id()).getTextContent())
                    .contains(each.name(), each.definition(), "of 100 brakes", "What it shows"));
    VOCABULARY
        .symptoms()
        .values()
        .forEach(
            each ->
                assertThat(section("symptom-" + each.id()).getTextContent())
                    .contains(each.definition(), each.check()));
    VOCABULARY
        .actions()
        .values()
        .forEach(
            each ->
                assertThat(section("work-" + each.id()).getTextContent())
                    .contains(each.definition(), each.minutes() + " min"));
    VOCABULARY
        .cautions()
        .values()
        .forEach(
            each ->
                assertThat(section("caution-" + each.id()).getTextContent()).contains(each.text()));
  }

  @Test
  @DisplayName("leads nowhere that is not there, and asks nothing of the network")
  void linksLeadSomewhere() {
    List<String> ids = attributes("id");
    List<String> targets = all("a").stream().map(each -> each.getAttribute("href")).toList();
    assertThat(targets).hasSizeGreaterThan(3000);
    assertThat(targets)
        .allSatisfy(
            target -> {
              if (target.startsWith("#")) {
                assertThat(ids).contains(target.substring(1));
              } else {
                assertThat(Path.of(target.substring("../".length()))).exists();
              }
            });
    assertThat(attributes("src")).isEmpty();
    assertThat(all("script")).isEmpty();
    assertThat(all("th")).allSatisfy(th -> assertThat(th.getAttribute("scope")).isEqualTo("col"));
    assertThat(html.getDocumentElement().getAttribute("lang")).isEqualTo("en");
  }

  @Test
  @DisplayName("leaves nothing in it that only a machine reads")
  void isSpoken() {
    assertThat(section("cause-air-at-lever").getTextContent())
        .contains("×6", "turned over, hung up, flown or stored, in the last 30 days")
        .doesNotContain("$", "daysAgo");
    assertThat(section("readings").getTextContent())
        .contains("boiling point is under 155 °C", "the maker's figure for pad limit")
        .doesNotContain("$", "Finding(");
    String body = html.getElementsByTagName("main").item(0).getTextContent();
    assertThat(body).doesNotContain("$", "daysAgo", "[[", "]]", "NaN", "null");
  }

  @Test
  @DisplayName("counts its sources to as many as there are rules")
  void countsItsSources() {
    Element kinds = (Element) section("sources").getElementsByTagName("table").item(1);
    NodeList rows = kinds.getElementsByTagName("tr");
    int sum =
        IntStream.range(1, rows.getLength())
            .mapToObj(i -> ((Element) rows.item(i)).getElementsByTagName("td").item(1))
            .mapToInt(cell -> Integer.parseInt(cell.getTextContent()))
            .sum();
    assertThat(sum).isEqualTo(RULES.size());
    assertThat(kinds.getTextContent()).contains("published", "common practice", "from memory");
  }

  @Test
  @DisplayName("has a page for each id, that fits its width, and none for another")
  void hasPages() {
    assertThat(book.ids())
        .hasSize(
            VOCABULARY.causes().size()
                + VOCABULARY.symptoms().size()
                + VOCABULARY.actions().size());
    for (String id : book.ids()) {
      assertThat(book.page(id, 90, false).orElseThrow().lines())
          .as(id)
          .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(110));
    }
    assertThat(book.page("worn-lever-seel", 90, false)).isEmpty();
    assertThat(book.page("worn-lever-seal", 90, false).orElseThrow())
        .contains("×3", "probable (0.85)", "renew the lever seals", "first", "from memory");
  }

  @Test
  @DisplayName("lists every cause in its overview")
  void overviewListsEveryCause() {
    String overview = book.overview(100, false);
    assertThat(VOCABULARY.causes().keySet()).allSatisfy(id -> assertThat(overview).contains(id));
    assertThat(overview).contains(RULES.size() + " rules", "sha256:0417");
  }
}
