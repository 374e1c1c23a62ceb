package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What {@code triage --json} prints, read back by a JSON parser that is not ours. */
class TriageJsonTest {
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";
  private static final Set<String> WORDS =
      Set.of(
          "certain",
          "probable",
          "expected",
          "fifty-fifty",
          "uncertain",
          "improbable",
          "impossible");

  /** A part of the cases, over all their folders, is enough to see every field. */
  private static final int EVERY = 7;

  private static JsonNode all;

  @BeforeAll
  static void triageTheCases() throws IOException {
    List<String> args = new ArrayList<>(List.of("triage", "--json", "--draws", "0"));
    try (Stream<Path> files = Files.walk(Path.of("cases"))) {
      List<String> cases =
          files.map(Path::toString).filter(f -> f.endsWith(".json")).sorted().toList();
      for (int i = 0; i < cases.size(); i += EVERY) {
        args.add(cases.get(i));
      }
    }
    Run run = Run.of(args.toArray(String[]::new));
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    all = MAPPER.readTree(run.out());
    assertThat(all.isArray()).isTrue();
    assertThat(all.size()).isEqualTo(args.size() - 4);
  }

  private static List<JsonNode> items(JsonNode list) {
    assertThat(list.isArray()).isTrue();
    return list.valueStream().toList();
  }

  private static void assertText(JsonNode object, String... names) {
    for (String name : names) {
      assertThat(object.path(name).asString("")).as("%s of %s", name, object).isNotBlank();
    }
  }

  private static double probability(JsonNode object, String name) {
    JsonNode value = object.path(name);
    assertThat(value.isNumber()).as("%s of %s", name, object).isTrue();
    assertThat(value.doubleValue()).isBetween(0.0, 1.0);
    return value.doubleValue();
  }

  @Test
  void everyDiagnosisHasTheHeadOfTheContract() {
    for (JsonNode d : all) {
      assertText(d, "case");
      assertThat(d.get("format").stringValue()).isEqualTo("firmlever-diagnosis/2");
      assertThat(d.get("rulebase").stringValue()).matches("sha256:[0-9a-f]{64}");
      assertThat(d.get("stop-ride").isBoolean()).isTrue();
      JsonNode ride = d.get("ride");
      String verdict = ride.get("verdict").stringValue();
      assertThat(verdict).isIn("stop", "not-cleared", "fine");
      assertThat(d.get("stop-ride").booleanValue()).isEqualTo(verdict.equals("stop"));
      if (!d.get("hazards").isEmpty()) {
        assertThat(verdict).isEqualTo("stop");
      }
      assertThat(ride.get("because").isEmpty() && ride.get("not-looked").isEmpty())
          .isEqualTo(verdict.equals("fine"));
      for (JsonNode because : items(ride.get("because"))) {
        assertText(because, "why", because.has("cause") ? "cause" : "symptom");
        if (because.has("cause")) {
          assertThat(VOCABULARY.causes()).containsKey(because.get("cause").stringValue());
          probability(because, "probability");
        }
      }
      for (JsonNode look : items(ride.get("not-looked"))) {
        assertThat(VOCABULARY.symptoms()).containsKey(look.stringValue());
      }
      for (JsonNode hazard : items(d.get("hazards"))) {
        assertText(hazard, "symptom", "why");
        assertThat(VOCABULARY.symptoms()).containsKey(hazard.get("symptom").stringValue());
      }
      probability(d, "no-fault-found");
      for (JsonNode caution : items(d.get("cautions"))) {
        assertThat(VOCABULARY.cautions()).containsKey(caution.stringValue());
      }
    }
  }

  @Test
  void causesStandInOrderAboveAThousandthEachWithItsWord() {
    for (JsonNode d : all) {
      List<JsonNode> causes = items(d.get("causes"));
      assertThat(causes)
          .isSortedAccordingTo(
              Comparator.comparingDouble((JsonNode c) -> -probability(c, "probability")));
      assertThat(causes).extracting(c -> c.get("id").stringValue()).doesNotHaveDuplicates();
      for (JsonNode cause : causes) {
        assertThat(probability(cause, "probability")).isGreaterThanOrEqualTo(0.001);
        assertThat(VOCABULARY.causes()).containsKey(cause.get("id").stringValue());
        assertThat(WORDS).contains(cause.get("word").stringValue());
      }
    }
  }

  /**
   * prior + history + symptoms = log odds. Six decimals are printed of each of at most some hundred
   * numbers, and weights below half of the last one are left out.
   */
  @Test
  void theBalanceOfEveryCauseAddsUpToItsProbability() {
    for (JsonNode d : all) {
      for (JsonNode cause : d.get("causes")) {
        JsonNode balance = cause.get("balance");
        double sum = balance.get("prior").doubleValue();
        for (String part : List.of("history", "symptoms")) {
          for (JsonNode weight : items(balance.get(part))) {
            assertText(weight, "why");
            sum += weight.get("weight").doubleValue();
          }
        }
        for (JsonNode weight : balance.get("history")) {
          assertText(weight, "rule", "source");
        }
        for (JsonNode weight : balance.get("symptoms")) {
          assertText(weight, "symptom");
          assertThat(weight.get("alone").isNumber()).isTrue();
          assertThat(weight.has("rule")).isEqualTo(weight.has("source"));
        }
        assertThat(cause.get("log-odds").doubleValue())
            .as("%s in %s", cause.get("id"), d.get("case"))
            .isCloseTo(sum, within(1e-4));
        double p = cause.get("probability").doubleValue();
        assertThat(1 / (1 + Math.exp(-sum))).isCloseTo(p, within(1e-4));
      }
    }
  }

  @Test
  void storiesNameTwoOrMoreCausesWithTheirProbability() {
    for (JsonNode d : all) {
      double sum = d.get("no-fault-found").doubleValue();
      for (JsonNode story : items(d.get("together"))) {
        assertThat(items(story.get("causes")).stream().map(JsonNode::stringValue))
            .hasSizeGreaterThanOrEqualTo(2)
            .doesNotHaveDuplicates()
            .allMatch(VOCABULARY.causes()::containsKey);
        sum += probability(story, "probability");
      }
      assertThat(sum).as("stories exclude each other").isLessThanOrEqualTo(1 + 1e-5);
    }
  }

  @Test
  void stepsAreChecksOrWorksWithMinutesAndReasons() {
    Set<String> kinds = new java.util.TreeSet<>();
    for (JsonNode d : all) {
      for (JsonNode step : items(d.get("next"))) {
        String id = step.get("id").stringValue();
        kinds.add(step.get("kind").stringValue());
        assertText(step, "why");
        assertThat(step.get("minutes").doubleValue()).isPositive();
        assertThat(step.get("saves").isNumber()).isTrue();
        if (step.get("kind").stringValue().equals("check")) {
          assertThat(VOCABULARY.symptoms()).containsKey(id);
        } else {
          assertThat(VOCABULARY.actions()).containsKey(id);
          for (JsonNode first : items(step.get("blocked-by"))) {
            assertThat(
                    VOCABULARY.actions().containsKey(first.stringValue())
                        || VOCABULARY.symptoms().containsKey(first.stringValue()))
                .as(first.stringValue())
                .isTrue();
          }
          for (JsonNode caution : items(step.get("cautions"))) {
            assertThat(VOCABULARY.cautions()).containsKey(caution.stringValue());
          }
        }
      }
    }
    assertThat(kinds).containsExactly("check", "work");
  }

  @Test
  void stabilityIsToldWithItsDrawsAndSeed() {
    JsonNode one =
        MAPPER.readTree(Run.of("triage", DEMO, "--json", "--draws", "30", "--seed", "9").out());
    assertThat(one.isObject()).as("one case, one object").isTrue();
    JsonNode stability = one.get("stability");
    assertThat(stability.get("draws").intValue()).isEqualTo(30);
    assertThat(stability.get("seed").intValue()).isEqualTo(9);
    probability(stability, "first-cause");
    probability(stability, "first-action");
    assertThat(all.get(0).has("stability")).as("none was asked for").isFalse();
  }

  @Test
  void drawsChangeNothingButTheStability() {
    JsonNode with = MAPPER.readTree(Run.of("triage", DEMO, "--json", "--draws", "30").out());
    JsonNode without = MAPPER.readTree(Run.of("triage", DEMO, "--json", "--draws", "0").out());
    ((tools.jackson.databind.node.ObjectNode) with).remove("stability");
    assertThat(with).isEqualTo(without);
  }

  /** A program that asks for several gets a list, whatever became of the others. */
  @Test
  void severalCasesAreAListEvenWhereOneIsBad(@TempDir Path folder) throws IOException {
    String bad = Files.writeString(folder.resolve("bad.json"), "{").toString();
    Run run = Run.of("triage", DEMO, bad, "--json", "--draws", "0");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).startsWith(bad + ":1:");
    JsonNode list = MAPPER.readTree(run.out());
    assertThat(items(list)).hasSize(1);
    assertThat(list.get(0))
        .isEqualTo(MAPPER.readTree(Run.of("triage", DEMO, "--json", "--draws", "0").out()));
  }
}
