package firmlever.casefile;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Problem;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The schema that is written out, judged by a validator of others, and the reader say the same. */
class SchemaAgreementTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final Schema SCHEMA =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(JsonText.of(CaseFormat.schema(VOCABULARY)), InputFormat.JSON);

  /**
   * What JSON Schema has no words for, and the reader alone knows: the size of a quantity, the
   * calendar, and what two fields say together.
   */
  private static final List<Pattern> READER_ONLY =
      List.of(
          Pattern.compile("\".*\" cannot be: it must lie between .*"),
          Pattern.compile(
              "\"(199\\d|2[01]\\d\\d)-\\d\\d-\\d\\d\" stands here; it must be a day of the"
                  + " calendar such as .*"),
          Pattern.compile("\".*\" lies (after|before) the case was opened .*"),
          Pattern.compile("an expectation stands here without a \"why\".*"));

  private static List<Problem> problems(String text) {
    try {
      READER.read(DocumentReader.readText(text, "case.json"), "case.json");
      return List.of();
    } catch (BadInput e) {
      return e.problems();
    }
  }

  private static boolean onlyTheReaderKnows(Problem problem) {
    return READER_ONLY.stream().anyMatch(rule -> rule.matcher(problem.message()).matches());
  }

  private static void assertAgree(String text, String what) {
    List<Problem> structural =
        problems(text).stream().filter(problem -> !onlyTheReaderKnows(problem)).toList();
    var errors = SCHEMA.validate(text, InputFormat.JSON);
    assertThat(errors.isEmpty())
        .as("%s%nreader: %s%nschema: %s%n%s", what, structural, errors, text)
        .isEqualTo(structural.isEmpty());
  }

  private static List<String> cases() throws IOException {
    List<String> texts = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("cases"))) {
      for (Path file : files.filter(f -> f.toString().endsWith(".json")).sorted().toList()) {
        texts.add(Files.readString(file));
      }
    }
    return texts;
  }

  @Test
  void theSchemaIsItselfValid() {
    Schema metaSchema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                com.networknt.schema.SchemaLocation.of(
                    "https://json-schema.org/draft/2020-12/schema"));
    assertThat(metaSchema.validate(JsonText.of(CaseFormat.schema(VOCABULARY)), InputFormat.JSON))
        .isEmpty();
  }

  @Test
  void everyCaseFileIsAcceptedByBoth() throws IOException {
    assertThat(cases())
        .hasSizeGreaterThan(45)
        .allSatisfy(
            text -> {
              assertThat(problems(text)).isEmpty();
              assertThat(SCHEMA.validate(text, InputFormat.JSON)).isEmpty();
            });
  }

  /**
   * Each rule of {@link #READER_ONLY} is needed: the schema accepts what only the reader refuses.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "'2026-05-12' | '2026-05-32'",
        "'2024-03-01' | '2027-03-01'",
        "'19 mm'      | '1900 mm'",
        "'95 kg'      | '9500 kg'",
        "'why': 'x',  | "
      })
  void whatOnlyTheReaderKnowsTheSchemaLetsPass(String right, String wrong) {
    String good =
        """
        { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',
          'brake': { 'id': 'b-1', 'fitted': '2024-03-01' }, 'use': { 'rider-and-load': '95 kg' },
          'readings': { 'throw-firm': '19 mm' }, 'why': 'x', 'expect': { 'stop-ride': true } }""";
    String bad = good.replace(right, wrong == null ? "" : wrong).replace('\'', '"');
    assertThat(bad).isNotEqualTo(good);
    assertThat(problems(good.replace('\'', '"'))).isEmpty();
    assertThat(problems(bad)).isNotEmpty().allMatch(SchemaAgreementTest::onlyTheReaderKnows);
    assertThat(SCHEMA.validate(bad, InputFormat.JSON)).isEmpty();
  }

  @Test
  void brokenCaseFilesGetTheSameVerdictFromBoth() throws IOException {
    List<String> cases = cases();
    int refused = 0;
    int runs = 1200;
    for (long seed = 1; seed <= runs; seed++) {
      Random random = new Random(seed);
      JsonNode tree = MAPPER.readTree(cases.get(random.nextInt(cases.size())));
      String what = "seed " + seed + ": " + broken(tree, random);
      String text = tree.toString();
      assertAgree(text, what);
      refused += problems(text).isEmpty() ? 0 : 1;
    }
    assertThat(refused).as("most changes break, some do not").isBetween(runs / 2, runs - 10);
  }

  /** Changes one thing at a random place of the tree, and says what. */
  private static String broken(JsonNode tree, Random random) {
    List<JsonNode> containers = new ArrayList<>();
    gather(tree, containers);
    JsonNode at = containers.get(random.nextInt(containers.size()));
    if (at instanceof ArrayNode list) {
      int index = random.nextInt(list.size() + 1);
      switch (random.nextInt(3)) {
        case 0 -> list.removeAll();
        case 1 -> list.insert(index, strange(random));
        default -> list.set(Math.min(index, list.size() - 1), strange(random));
      }
      return "list " + at;
    }
    ObjectNode object = (ObjectNode) at;
    List<String> names = List.copyOf(object.propertyNames());
    String name = names.get(random.nextInt(names.size()));
    JsonNode value = object.get(name);
    switch (random.nextInt(6)) {
      case 0 -> object.remove(name);
      case 1 -> object.set(name + "x", object.remove(name));
      case 2 -> object.set(name, strange(random));
      case 3 -> object.set("extra", strange(random));
      case 4 -> object.set(name, MAPPER.createArrayNode().add(value));
      default -> object.set(name, misspelt(value, random));
    }
    return "field " + name;
  }

  private static void gather(JsonNode node, List<JsonNode> containers) {
    if (node.isContainer() && !node.isEmpty()) {
      containers.add(node);
      node.forEach(child -> gather(child, containers));
    }
  }

  private static JsonNode misspelt(JsonNode value, Random random) {
    if (!value.isString() || value.stringValue().length() < 2) {
      return strange(random);
    }
    String text = value.stringValue();
    int cut = random.nextInt(text.length());
    return MAPPER
        .getNodeFactory()
        .stringNode(
            switch (random.nextInt(3)) {
              case 0 -> text.substring(0, cut) + text.substring(cut + 1);
              case 1 -> text.substring(0, cut) + text.charAt(cut) + text.substring(cut);
              default -> text + " ";
            });
  }

  private static JsonNode strange(Random random) {
    String[] values = {
      "null",
      "true",
      "0",
      "-1",
      "2.0",
      "2.5",
      "1e15",
      "\"\"",
      "\" \"",
      "\"x\"",
      "[]",
      "{}",
      "[[]]",
      "{\"a\":1}",
      "\"12 mm\"",
      "\"4 N·m\"",
      "\"rear\"",
      "\"unknown\"",
      "\"present\"",
      "\"2026-01-02\"",
      "[\"pads\"]",
      "[\"1.5 mm\", \"2 mm\"]",
      "{\"value\":\"9 mm\"}",
      "7"
    };
    return MAPPER.readTree(values[random.nextInt(values.length)]);
  }
}
