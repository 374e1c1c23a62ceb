package firmlever.cases;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Expectations;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The case files are the tests of the rule base; each is named by its reason. */
class CaseFilesTest {
  private static final Path CASES = Path.of("cases");
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final Diagnostician DIAGNOSTICIAN =
      new Diagnostician(RuleBase.builtIn(VOCABULARY));

  private static final Map<String, Diagnosis> DIAGNOSED = new ConcurrentHashMap<>();

  private static final Set<String> BLEEDS = Set.of("lever-end-bleed", "full-bleed", "fluid-flush");

  static List<CaseFile> cases() throws Exception {
    try (Stream<Path> files = Files.walk(CASES)) {
      return files
          .filter(file -> file.toString().endsWith(".json"))
          .sorted()
          .map(CaseFilesTest::read)
          .toList();
    }
  }

  private static CaseFile read(Path file) {
    try {
      return READER.read(file, file.toString());
    } catch (firmlever.document.BadInput e) {
      throw new AssertionError(e.getMessage());
    }
  }

  /** Each case once for all tests. */
  private static Diagnosis diagnosed(CaseFile file) {
    return DIAGNOSED.computeIfAbsent(
        file.id(), id -> DIAGNOSTICIAN.diagnose(file, Options.WITHOUT_DRAWS));
  }

  @TestFactory
  Stream<DynamicTest> every_case_is_diagnosed_as_it_says() throws Exception {
    return cases().stream()
        .filter(file -> file.expectation().isPresent())
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.id() + ": " + file.why(),
                    () -> {
                      List<String> missed =
                          Expectations.missed(file.expectation().orElseThrow(), diagnosed(file));
                      if (file.knownMiss().isPresent()) {
                        assertThat(missed)
                            .as("a known miss that is met is known no longer: drop the mark")
                            .isNotEmpty();
                      } else {
                        assertThat(missed).isEmpty();
                      }
                    }));
  }

  @Test
  void case_ids_are_unique() throws Exception {
    List<String> ids = cases().stream().map(CaseFile::id).toList();

    assertThat(ids).doesNotHaveDuplicates();
  }

  @Test
  void every_cause_has_a_folder_of_cases_with_a_plain_one_a_near_miss_and_one_turned_by_history()
      throws Exception {
    Set<String> missing = new TreeSet<>();
    for (String cause : VOCABULARY.causes().keySet()) {
      for (String name : List.of("plain.json", "near-miss.json", "history.json")) {
        Path file = CASES.resolve("regression").resolve(cause).resolve(name);
        if (!Files.exists(file)) {
          missing.add(file.toString());
        }
      }
    }

    assertThat(missing).isEmpty();
  }

  @Test
  void no_brake_with_a_weep_is_bled_first_and_none_may_be_ridden() throws Exception {
    for (CaseFile file : cases()) {
      Diagnosis d = diagnosed(file);
      boolean weeps =
          file.symptoms().entrySet().stream()
              .anyMatch(
                  e -> e.getKey().startsWith("weep-") && e.getValue() == CaseFile.Presence.PRESENT);
      if (weeps) {
        assertThat(d.stopRide()).as(file.id()).isTrue();
        assertThat(
                d.next().stream()
                    .filter(Diagnosis.Step::open)
                    .map(Diagnosis.Step::id)
                    .filter(BLEEDS::contains)
                    .collect(Collectors.toSet()))
            .as(file.id())
            .isEmpty();
      }
    }
  }

  @Test
  void no_brake_that_must_not_be_ridden_is_handed_back() throws Exception {
    for (CaseFile file : cases()) {
      Diagnosis d = diagnosed(file);
      if (d.stopRide()) {
        assertThat(d.firstStep().map(Diagnosis.Step::id).orElse(""))
            .as(file.id())
            .isNotEqualTo(Diagnosis.HAND_BACK);
      }
    }
  }
}
