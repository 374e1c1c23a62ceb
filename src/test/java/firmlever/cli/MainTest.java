package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

class MainTest {
  private static final String DEMO = "cases/demo/soft-after-the-car-roof.json";
  private static final String WEEP = "cases/regression/caliper-port-weep/plain.json";
  private static final String SOUND = "cases/demo/nothing-wrong.json";

  @TempDir Path folder;

  private String file(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text).toString();
  }

  private static String demo() throws IOException {
    return Files.readString(Path.of(DEMO));
  }

  private static void assertRefused(Run run, String... said) {
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).as("results only on standard output").isEmpty();
    assertThat(run.err()).isNotBlank();
    assertThat(said).allSatisfy(words -> assertThat(run.err()).contains(words));
    assertThat(run.err()).doesNotContain("at firmlever", "Exception", "a fault of its own");
  }

  static Stream<List<String>> wrongUses() {
    return Stream.of(
        List.of(),
        List.of("triaje"),
        List.of("--no-such-option"),
        List.of("triage"),
        List.of("triage", DEMO, "--jsn"),
        List.of("triage", DEMO, "--draws", "many"),
        List.of("triage", DEMO, "--draws", "-1"),
        List.of("triage", DEMO, "--draws", "100001"),
        List.of("triage", DEMO, "--seed", "1.5"),
        List.of("triage", DEMO, "--draws"),
        List.of("schema", "extra"),
        List.of("check", "--loud"));
  }

  @ParameterizedTest
  @MethodSource("wrongUses")
  void wrongUseIsToldOnStandardErrorWithCodeTwo(List<String> args) {
    assertRefused(Run.of(args.toArray(String[]::new)));
  }

  @Test
  void theVersionTellsProgramCommitAndRules() {
    Run run = Run.of("--version");
    assertThat(run.code()).isZero();
    assertThat(run.out().lines()).hasSize(3);
    assertThat(run.out())
        .containsPattern("firmlever [0-9.]+\n")
        .containsPattern("commit    [^\n]+\n")
        .contains("rules     " + RuleBase.builtIn(VocabularyReader.builtIn()).digest());
    assertThat(Run.of("-V")).isEqualTo(run);
  }

  @Test
  void everyCommandIsFoundByTheNameInItsAnnotation() {
    assertThat(Main.COMMANDS)
        .allSatisfy(
            each ->
                assertThat(each.name())
                    .isEqualTo(each.type().getAnnotation(CommandLine.Command.class).name()));
  }

  @Test
  void aMisspeltCommandFindsItsName() {
    assertRefused(Run.of("triaje"), "triage");
  }

  @ParameterizedTest
  @CsvSource({"--help", "triage --help", "check --help", "schema --help"})
  void helpIsAResultAndTellsExitCodes(String args) {
    Run run = Run.of(args.split(" "));
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).startsWith("Usage: firmlever").doesNotContain("\u001b");
  }

  @Test
  void aCaseIsTriagedWithCodeZeroAndNothingOnStandardError() {
    Run run = Run.of("triage", DEMO, "--draws", "20", "--why");
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .startsWith("B-0417-rear-3: ")
        .contains("What is probably wrong", "What to do next", "Mind")
        .contains("How firm");
  }

  @Test
  void theGateTellsStopRideByItsCodeAlone() {
    Run open = Run.of("triage", WEEP, "--draws", "0");
    Run gated = Run.of("triage", WEEP, "--draws", "0", "--gate");
    assertThat(open.code()).isZero();
    assertThat(gated.code()).isEqualTo(3);
    assertThat(gated.out()).isEqualTo(open.out()).contains("Ride   NO.");
    assertThat(Run.of("triage", SOUND, "--draws", "0", "--gate").code()).isZero();
  }

  static Stream<List<String>> hostileFiles() {
    return Stream.of(
        List.of("empty.json", "", "is empty"),
        List.of("cut.json", "{ \"format\": \"firmlever-case/1\", \"id\":", "cut off"),
        List.of("open.json", "[".repeat(10_000_000), "nested deeper"),
        List.of("list.json", "[]", "must be an object"),
        List.of("huge.json", "{ \"id\": 1e99999999999 }", "exponent"),
        List.of("steer.json", "{ \"id\": \"\\u001b[2J\" }", "\\u001b[2J"));
  }

  @ParameterizedTest
  @MethodSource("hostileFiles")
  void hostileFilesAreRefusedInWords(List<String> nameTextAndWords) throws IOException {
    String file = file(nameTextAndWords.get(0), nameTextAndWords.get(1));
    Run run = Run.of("triage", file);
    assertRefused(run, file + ":", nameTextAndWords.get(2));
    assertThat(run.err()).hasSizeLessThan(2000).doesNotContain("\u001b");
  }

  @Test
  void aDirectoryAMissingFileAndANameNoFileCanHaveAreRefused() {
    assertRefused(Run.of("triage", folder.toString()), "is a directory, not a file");
    assertRefused(
        Run.of("triage", "cases/demo/soft-after-the-car-rof.json"),
        "there is no such file",
        "soft-after-the-car-roof.json was meant");
    assertRefused(Run.of("triage", "no\0name.json"), "is no name a file can have");
    assertRefused(Run.of("check", "no\0name.json"), "is no name a file can have");
  }

  @Test
  void aMisspeltSymptomAndAWrongUnitAreToldTogether() throws IOException {
    String file =
        file("two.json", demo().replace("\"pumps-up\"", "\"pump-up\"").replace("19 mm", "19 N"));
    assertRefused(
        Run.of("triage", file),
        "Maybe \"pumps-up\" was meant.",
        "\"19 N\" stands here; it must be a length");
  }

  @Test
  void ofSeveralCasesTheGoodAreToldAndTheBadNamed() throws IOException {
    String bad = file("bad.json", demo().replace("B-0417-rear-3", "B 0417"));
    Run run = Run.of("triage", DEMO, bad, WEEP, "--draws", "0");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).startsWith("B-0417-rear-3: ").contains("Ride   NO.");
    assertThat(run.err()).startsWith(bad + ":3:").contains("\"B 0417\"").doesNotContain(DEMO);
    assertThat(run.err().lines()).hasSize(1);
  }

  @Test
  void checkCountsWhatItSawAndNamesWhatItMissed() throws IOException {
    String right =
        file(
            "right.json",
            demo()
                .replace(
                    "\"source\"",
                    "\"why\": \"x\", \"expect\": { \"stop-ride\": true }, \"source\""));
    String wrong =
        file(
            "wrong.json",
            demo()
                .replace(
                    "\"source\"",
                    "\"why\": \"Because it is so.\", \"expect\": { \"first\": \"bent-rotor\" }, \"source\""));
    String known =
        file(
            "known.json",
            Files.readString(Path.of(wrong))
                .replace("\"why\"", "\"known-miss\": \"no rule yet\", \"why\""));
    Run all = Run.of("check", right, wrong, known, DEMO);
    assertThat(all.code()).isEqualTo(1);
    assertThat(all.out())
        .contains("met     " + right, "missed  " + wrong, "why: Because it is so.")
        .contains("known   " + known + ": no rule yet")
        .endsWith(
            "3 cases checked: 1 as expected, 1 not, 1 known misses; 1 without an expectation were"
                + " only read.\n");
    assertThat(all.err()).isEmpty();
    assertThat(Run.of("check", right, known).code()).isZero();
    assertThat(Run.of("check", "--quiet", right).out()).startsWith("1 cases checked");
    Run unread = Run.of("check", right, folder.resolve("no.json").toString());
    assertThat(unread.code()).isEqualTo(2);
    assertThat(unread.err()).contains("there is no such file");
  }

  @Test
  void schemaPrintsASchemaThatAcceptsTheDemoCase() throws IOException {
    Run run = Run.of("schema");
    assertThat(run.code()).isZero();
    assertThat(run.err()).isEmpty();
    assertThat(
            SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(run.out(), InputFormat.JSON)
                .validate(demo(), InputFormat.JSON))
        .isEmpty();
  }

  /** In Turkish, an upper-case i is no I; in Arabic and Hindi locales digits may be others. */
  @ParameterizedTest
  @ValueSource(strings = {"tr-TR", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva", "de-DE"})
  void localeAndTimeZoneChangeNoByte(String locale) {
    String[][] commands = {
      {"triage", DEMO, WEEP, "--draws", "20"},
      {"triage", DEMO, "--json", "--draws", "20", "--seed", "7"},
      {"check", "cases/regression/air-at-lever"},
      {"schema"}
    };
    List<Run> here = Stream.of(commands).map(Run::of).toList();
    Locale ownLocale = Locale.getDefault();
    TimeZone ownZone = TimeZone.getDefault();
    try {
      for (String zone : List.of("Pacific/Kiritimati", "Pacific/Pago_Pago")) {
        Locale.setDefault(Locale.forLanguageTag(locale));
        TimeZone.setDefault(TimeZone.getTimeZone(zone));
        assertThat(Stream.of(commands).map(Run::of).toList()).isEqualTo(here);
      }
    } finally {
      Locale.setDefault(ownLocale);
      TimeZone.setDefault(ownZone);
    }
  }

  @Test
  void fourThreadsPrintWhatOnePrints() throws Exception {
    List<String[]> commands = new ArrayList<>();
    for (String file : List.of(DEMO, WEEP, "cases/regression/worn-pads/history.json")) {
      commands.add(new String[] {"triage", file, "--json", "--draws", "10"});
      commands.add(new String[] {"triage", file, "--draws", "10"});
    }
    List<Run> alone = commands.stream().map(Run::of).toList();
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      Callable<List<Run>> all = () -> commands.stream().map(Run::of).toList();
      for (Future<List<Run>> each : threads.invokeAll(List.of(all, all, all, all))) {
        assertThat(each.get()).isEqualTo(alone);
      }
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void theWidthOfTheTerminalIsKept() {
    String own = System.getProperty("firmlever.columns");
    try {
      System.setProperty("firmlever.columns", "46");
      String narrow = Run.of("triage", DEMO, "--draws", "0").out();
      assertThat(narrow.lines()).allMatch(line -> line.length() <= 46);
      System.setProperty("firmlever.columns", "nonsense");
      String usual = Run.of("triage", DEMO, "--draws", "0").out();
      assertThat(usual.lines()).allMatch(line -> line.length() <= 80);
      assertThat(usual.lines().count()).isLessThan(narrow.lines().count());
    } finally {
      if (own == null) {
        System.clearProperty("firmlever.columns");
      } else {
        System.setProperty("firmlever.columns", own);
      }
    }
  }

  @Test
  void aCaseWithEverySymptomPresentIsAnsweredOrRefusedAndTheOthersAreTold() throws IOException {
    String every =
        String.join(
            ", ", Arrays.stream(symptomIds()).map(id -> "\"" + id + "\": \"present\"").toList());
    String file =
        file(
            "every.json",
            demo().replaceFirst("\"symptoms\": \\{.*}", "\"symptoms\": { " + every + " }"));
    Run run = Run.of("triage", DEMO, file, WEEP, "--draws", "0");
    assertThat(run.out()).contains("B-0417-rear-3: ", "Ride   NO.");
    assertThat(run.err()).doesNotContain("at firmlever", "a fault of its own");
    if (run.code() == 2) {
      assertThat(run.err()).contains(file + ": ", "hang together", "Maybe leave out");
    }
  }

  private static String[] symptomIds() {
    return VocabularyReader.builtIn().symptoms().keySet().toArray(String[]::new);
  }
}
