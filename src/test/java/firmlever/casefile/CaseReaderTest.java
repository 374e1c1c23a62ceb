package firmlever.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import firmlever.casefile.CaseFile.Presence;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Problem;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CaseReaderTest {
  private static final CaseReader READER = new CaseReader(VocabularyReader.builtIn());

  /** The least a case file can be; single quotes stand for double ones. */
  private static final String LEAST =
      """
      { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12', 'brake': { 'id': 'b-1' },
        'complaint': 'soft' }""";

  private static CaseFile read(String quoted) throws BadInput {
    return READER.read(DocumentReader.readText(quoted.replace('\'', '"'), "c.json"), "c.json");
  }

  /** The least case with one more field. */
  private static CaseFile with(String field) throws BadInput {
    return read(LEAST.replace("'complaint'", field + ", 'complaint'"));
  }

  private static Problem onlyProblemWith(String field) {
    BadInput bad = catchThrowableOfType(BadInput.class, () -> with(field));
    assertThat(bad).as("must be refused: %s", field).isNotNull();
    assertThat(bad.problems()).hasSize(1);
    return bad.problems().get(0);
  }

  private static String resource(String name) throws IOException {
    try (var in = CaseReaderTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void everyKindOfErrorOfAFileIsToldAtOnceInPlaceOrder() throws IOException, BadInput {
    var document = DocumentReader.readText(resource("everything-wrong.json"), "wrong.json");
    BadInput bad = catchThrowableOfType(BadInput.class, () -> READER.read(document, "wrong.json"));
    assertThat(bad.getMessage() + "\n").isEqualTo(resource("everything-wrong.messages.txt"));
    assertThat(bad.problems())
        .isSortedAccordingTo(
            Comparator.comparingInt(Problem::line).thenComparingInt(Problem::column));
  }

  @Test
  void rulesBetweenFieldsAreToldBesideTheRest() {
    BadInput bad =
        catchThrowableOfType(
            BadInput.class,
            () ->
                read(
                    """
                    { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',
                      'brake': { 'id': 'b-1', 'fitted': '2026-05-13' },
                      'symptoms': { 'pump-up': 'present' },
                      'history': [ { 'date': '2026-05-14', 'event': 'flown' } ],
                      'outcome': { 'closed': '2026-05-11' },
                      'expect': { 'stop-ride': true } }"""));
    assertThat(bad)
        .hasMessage(
            """
            c.json:2:37: /brake/fitted: "2026-05-13" lies after the case was opened (2026-05-12); a brake is fitted before it comes in
            c.json:3:17: /symptoms/pump-up: "pump-up" is not a symptom known here
                Maybe "pumps-up" was meant.
            c.json:4:26: /history/0/date: "2026-05-14" lies after the case was opened (2026-05-12); history comes before
            c.json:5:26: /outcome/closed: "2026-05-11" lies before the case was opened (2026-05-12)
            c.json:6:13: /expect: an expectation stands here without a "why"; each must say why it holds""");
  }

  @Test
  void theSameDayIsNeitherBeforeNorAfter() throws BadInput {
    CaseFile same =
        read(
            """
            { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',
              'brake': { 'id': 'b-1', 'fitted': '2026-05-12' }, 'complaint': 'soft',
              'history': [ { 'date': '2026-05-12', 'event': 'flown' } ],
              'outcome': { 'closed': '2026-05-12' } }""");
    assertThat(same.history().get(0).daysAgo()).isEqualTo(OptionalInt.of(0));
  }

  @Test
  void theAbsenceOfASymptomMayBeSaidByItsOwnName() throws BadInput {
    String brake =
        "{ 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',"
            + " 'brake': { 'id': 'b-1' }, 'why': 'w', 'expect': { 'next': 'leak-found-nowhere' },"
            + " 'symptoms': { 'leak-found-nowhere': 'absent', 'firm-at-end': 'present',"
            + " 'no-bubbles': 'not-checked', 'bubbles-came': 'present' } }";
    CaseFile file = read(brake);
    assertThat(file.symptoms())
        .containsExactly(
            Map.entry("leak-found", Presence.PRESENT),
            Map.entry("no-hard-stop", Presence.ABSENT),
            Map.entry("bubbles-came", Presence.PRESENT));
    assertThat(file.expectation().orElseThrow().next()).containsExactly("leak-found");
    assertThat(
            catchThrowableOfType(
                BadInput.class,
                () ->
                    read(brake.replace("'no-bubbles': 'not-checked'", "'no-bubbles': 'present'"))))
        .hasMessageContaining(
            "/symptoms/no-bubbles: \"no-bubbles\" is the opposite of \"bubbles-came\"");
  }

  @Test
  void aPartNobodyKnowsIsKeptInWords() throws BadInput {
    CaseFile file =
        read(
            """
            { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',
              'brake': { 'id': 'b-1' }, 'complaint': 'soft',
              'history': [ { 'days-ago': 3, 'work': 'replace-pads', 'parts': ['pads', 'blue spacer'] } ] }""");
    assertThat(file.history().get(0).parts()).containsExactly("pads", "blue spacer");
  }

  @ParameterizedTest
  @ValueSource(strings = {"[]", "7", "'x'", "null", "true"})
  void whatIsNoObjectIsNoCase(String text) {
    assertThat(catchThrowableOfType(BadInput.class, () -> read(text)))
        .hasMessageEndingWith("stands here; it must be an object in curly brackets");
  }

  @Test
  void anEmptyObjectIsToldAllItLacks() {
    BadInput bad = catchThrowableOfType(BadInput.class, () -> read("{}"));
    assertThat(bad.problems())
        .extracting(Problem::pointer)
        .containsExactly("", "/brake", "/format", "/id", "/opened");
    assertThat(bad.problems().get(0).message())
        .isEqualTo("at least one of complaint, symptoms, readings must stand here");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'readings': { 'throw-light': '-6 mm' }      | between 0 and 200 mm",
        "'readings': { 'throw-after-five': '8 in' }  | between 0 and 200 mm",
        "'readings': { 'moisture': '101 %' }         | between 0 and 100 %",
        "'readings': { 'boiling-point': '500 °C' }   | between 60 and 400 °C",
        "'readings': { 'rotor-thickness': '17 mm' }  | between 0 and 10 mm",
        "'use': { 'ambient': '400 °C' }              | between -60 and 60 °C",
        "'use': { 'ambient': '141 °F' }              | between -60 and 60 °C",
        "'use': { 'rider-and-load': '5 kg' }         | between 10 and 500 kg",
      })
  void absurdValuesAreRefusedWithTheirBounds(String field, String bounds) {
    assertThat(onlyProblemWith(field).message()).contains(" cannot be: it must lie " + bounds);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'readings': { 'throw-light': '6 N' }   | /readings/throw-light | is a unit of force",
        "'use': { 'ambient': '12 mm' }          | /use/ambient          | is a unit of length",
        "'readings': { 'creep': '0.5 furlong' } | /readings/creep       | is no unit known here",
        "'readings': { 'creep': 0.5 }           | /readings/creep       | such as \"12 mm\"",
      })
  void wrongUnitsAndDimensionsAreNamed(String field, String pointer, String end) {
    Problem problem = onlyProblemWith(field);
    assertThat(problem.pointer()).isEqualTo(pointer);
    assertThat(problem.message()).endsWith(end);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'symptoms': { 'spongy-levr': 'present' }       | Maybe \"spongy-lever\" was meant.",
        "'symptoms': { 'spongy-lever': 'presnt' }       | Maybe \"present\" was meant.",
        "'outcome': { 'causes': ['air-at-lver'] }       | Maybe \"air-at-lever\" was meant.",
        "'outcome': { 'works': ['lever-end-blead'] }    | Maybe \"lever-end-bleed\" was meant.",
        "'history': [ { 'event': 'turnedover' } ]       | Maybe \"turned-over\" was meant.",
        "'history': [ { 'work': 'bleed' } ]             | Maybe \"full-bleed\" was meant.",
        "'history': [ { 'work': 'new pads' } ]          | Maybe \"replace-pads\" was meant.",
        "'history': [ { 'event': 'mud', 'date': '1.5.2026' } ] | Maybe \"2026-05-01\" was meant.",
        "'symptoms': { 'leak': 'present' }              | Maybe \"leak-found\" was meant.",
        "'sympoms': {}                                  | Maybe \"symptoms\" was meant.",
        "'outcome': { 'closd': '2026-05-13' }           | Maybe \"closed\" was meant.",
        "'why': 'x', 'expect': { 'next': 'full-bled' }  | Maybe \"full-bleed\" was meant.",
      })
  void aMisspeltIdOrFieldFindsItsName(String field, String maybe) {
    assertThat(onlyProblemWith(field).maybe()).contains(maybe);
  }

  @Test
  void theLeastCaseIsReadAndSaysThatTheRestIsUnknown() throws BadInput {
    CaseFile least = read(LEAST);
    assertThat(least.opened()).isEqualTo(LocalDate.of(2026, 5, 12));
    assertThat(least.brake().fluid()).isEqualTo(Fluid.UNKNOWN);
    assertThat(least.brake().position()).isEqualTo("unknown");
    assertThat(least.brake().hoseLengthMm()).isNaN();
    assertThat(least.use().ambientC()).isNaN();
    assertThat(least.readings().creepMm()).isNaN();
    assertThat(least.symptoms()).isEmpty();
    assertThat(least.history()).isEmpty();
    assertThat(least.outcome()).isEmpty();
    assertThat(least.expectation()).isEmpty();
  }

  /** Different values everywhere, so that no two fields can have been swapped. */
  @Test
  void everyFieldGoesToItsPlace() throws BadInput {
    CaseFile full =
        read(
            """
            { 'format': 'firmlever-case/1', 'id': 'c-2', 'opened': '2026-05-12',
              'brake': { 'id': 'b-3', 'position': 'front', 'fluid': 'dot-5.1', 'fitted': '2024-03-01',
                'reservoir': 'sealed',
                'hose': { 'length': '1.6 m', 'bore': '2.2 mm', 'routing': 'internal' },
                'lever': { 'bore': '11 mm', 'ratio': 5.6 },
                'caliper': { 'pistons': 4, 'bore': ['16 mm', '1.8 cm'] },
                'rotor': { 'diameter': '180 mm' },
                'maker-figures': { 'throw': '12 mm', 'clamp-torque': '2 N·m', 'port-torque': '40 in·lb',
                  'fitting-torque': '5 N·m', 'mount-torque': '6 Nm', 'pad-limit': '1.1 mm',
                  'rotor-limit': '1.5 mm', 'run-out-limit': '0.2 mm' },
                'lot': 'H24-11' },
              'use': { 'terrain': 'steep', 'rider-and-load': '210 lb', 'ambient': '50 °F',
                'altitude': '0.4 km' },
              'complaint': 'gets long',
              'symptoms': { 'pumps-up': 'absent', 'spongy-lever': 'present',
                'lever-sinks': 'not-checked' },
              'readings': { 'throw-light': '7 mm', 'throw-firm': { 'value': '19 mm', 'force': '100 N' },
                'throw-after-five': '13 mm', 'creep': '0.5 mm', 'moisture': '2.5 %',
                'boiling-point': '446 °F', 'pad-thickness': ['1.2 mm', '1.4 mm'],
                'rotor-thickness': '1.7 mm', 'run-out': '0.3 mm',
                'piston-advance': ['0.9 mm', '0.25 mm'], 'level-drop': '3.5 mm' },
              'history': [
                { 'date': '2026-04-30', 'work': 'full-bleed', 'fluid': 'dot-4', 'by': 'T3',
                  'torque': '4.5 N·m', 'parts': ['fluid', 'hose'], 'lot': 'P3',
                  'outcome': 'helped-for-a-while', 'circumstances': ['pads-in', 'worn-pads'],
                  'note': 'in a hurry' },
                { 'days-ago': 90, 'event': 'flown' }, { 'event': 'hung' } ],
              'outcome': { 'causes': ['air-at-lever'], 'works': ['lever-end-bleed'],
                'by': 'T8', 'site': 'lake', 'confirmed': 'firm and dry', 'closed': '2026-05-14' },
              'source': 'invented', 'why': 'because', 'known-miss': 'so far',
              'expect': { 'first': 'low-fluid', 'top3': ['wet-fluid'], 'likely': ['worn-pads'],
                'not': ['soft-hose'], 'impossible': ['wrong-fluid'], 'next': ['full-bleed'],
                'not-next': ['lever-end-bleed'], 'blocked': ['refit-pads'], 'stop-ride': false, 'ride': 'not-cleared', 'forbids': ['lever-sinks'], 'not-looked': ['drag'],
                'symptoms': { 'long-throw': 'present' }, 'contradictory': true,
                'cautions': ['hot-rotor'] } }""");
    assertThat(full.id()).isEqualTo("c-2");
    CaseFile.Brake brake = full.brake();
    assertThat(brake)
        .usingRecursiveComparison()
        .withComparatorForType(near(), Double.class)
        .isEqualTo(
            new CaseFile.Brake(
                "b-3",
                "front",
                Fluid.DOT_5_1,
                Optional.of(LocalDate.of(2024, 3, 1)),
                "sealed",
                Double.NaN,
                1600,
                2.2,
                "internal",
                11,
                5.6,
                4,
                List.of(16.0, 18.0),
                180,
                brake.makerFigures(),
                "H24-11"));
    assertThat(brake.makerFigures())
        .containsExactlyInAnyOrderEntriesOf(
            Map.of(
                "throw", 12.0,
                "clamp-torque", 2.0,
                // 40 × 0.112 984 8 N·m, NIST SP 811 B.8, to the digits the reader keeps
                "port-torque", brake.makerFigures().get("port-torque"),
                "fitting-torque", 5.0,
                "mount-torque", 6.0,
                "pad-limit", 1.1,
                "rotor-limit", 1.5,
                "run-out-limit", 0.2));
    assertThat(brake.makerFigures().get("port-torque")).isCloseTo(4.519392, within(2e-6));
    assertThat(full.use().terrain()).isEqualTo("steep");
    // 210 × 0.453 592 4 kg, NIST SP 811 B.8
    assertThat(full.use().riderAndLoadKg()).isCloseTo(95.2544, within(1e-4));
    assertThat(full.use().ambientC()).isCloseTo(10, within(1e-9));
    assertThat(full.use().altitudeM()).isCloseTo(400, within(1e-9));
    assertThat(full.complaint()).isEqualTo("gets long");
    assertThat(full.symptoms())
        .containsExactly(
            Map.entry("pumps-up", Presence.ABSENT),
            Map.entry("spongy-lever", Presence.PRESENT),
            Map.entry("lever-sinks", Presence.NOT_CHECKED));
    assertThat(full.readings())
        .usingRecursiveComparison()
        .withComparatorForType(near(), Double.class)
        .isEqualTo(
            new CaseFile.Readings(
                7,
                List.of(new CaseFile.Pull(19, 100)),
                13,
                0.5,
                2.5,
                230,
                List.of(1.2, 1.4),
                1.7,
                0.3,
                List.of(0.9, 0.25),
                3.5));
    assertThat(full.history())
        .containsExactly(
            new CaseFile.Entry(
                OptionalInt.of(12),
                "full-bleed",
                "",
                Fluid.DOT_4,
                "T3",
                4.5,
                List.of("fluid", "hose"),
                "P3",
                "helped-for-a-while",
                Set.of("pads-in", "worn-pads"),
                "in a hurry"),
            entry(OptionalInt.of(90), "flown"),
            entry(OptionalInt.empty(), "hung"));
    assertThat(full.outcome())
        .contains(
            new CaseFile.Outcome(
                List.of("air-at-lever"),
                List.of("lever-end-bleed"),
                "T8",
                "lake",
                "firm and dry",
                Optional.of(LocalDate.of(2026, 5, 14))));
    assertThat(full.source()).isEqualTo("invented");
    assertThat(full.why()).isEqualTo("because");
    assertThat(full.knownMiss()).contains("so far");
    assertThat(full.expectation())
        .contains(
            new CaseFile.Expectation(
                List.of("low-fluid"),
                List.of("wet-fluid"),
                List.of("worn-pads"),
                List.of("soft-hose"),
                List.of("wrong-fluid"),
                List.of("full-bleed"),
                List.of("lever-end-bleed"),
                List.of("refit-pads"),
                Optional.of(false),
                "not-cleared",
                List.of("lever-sinks"),
                List.of("drag"),
                Map.of("long-throw", Presence.PRESENT),
                Optional.of(true),
                List.of("hot-rotor")));
  }

  private static CaseFile.Entry entry(OptionalInt daysAgo, String event) {
    return new CaseFile.Entry(
        daysAgo, "", event, Fluid.UNKNOWN, "", Double.NaN, List.of(), "", "unknown", Set.of(), "");
  }

  private static Comparator<Double> near() {
    return (a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b);
  }

  @Test
  void everyFluidIsReadBackFromItsOwnName() throws BadInput {
    for (Fluid fluid : Fluid.values()) {
      String text = LEAST.replace("'b-1'", "'b-1', 'fluid': '" + fluid.id() + "'");
      assertThat(read(text).brake().fluid()).isEqualTo(fluid);
    }
  }

  @Test
  void fluidsClashOnlyWhenBothAreKnownAndOfDifferentFamilies() {
    assertThat(Fluid.DOT_4.clashesWith(Fluid.MINERAL_OIL)).isTrue();
    assertThat(Fluid.DOT_5.clashesWith(Fluid.DOT_5_1)).isTrue();
    assertThat(Fluid.DOT_3.clashesWith(Fluid.DOT_5_1)).isFalse();
    assertThat(Fluid.UNKNOWN.clashesWith(Fluid.DOT)).isFalse();
    for (Fluid a : Fluid.values()) {
      for (Fluid b : Fluid.values()) {
        assertThat(a.clashesWith(b)).isEqualTo(b.clashesWith(a));
      }
    }
  }

  /** Bytes as a bad disk or a bad hand leaves them: read or refused in words, nothing else. */
  @Test
  void aFlippedBitOfACaseFileIsReadOrRefused() throws IOException {
    byte[] bytes = Files.readAllBytes(Path.of("cases/demo/soft-after-the-car-roof.json"));
    int refused = 0;
    for (int bit = 0; bit < bytes.length * 8; bit++) {
      bytes[bit / 8] ^= (byte) (1 << bit % 8);
      try {
        assertThat(READER.read(DocumentReader.read(bytes, "c.json"), "c.json")).isNotNull();
      } catch (BadInput e) {
        refused++;
        assertThat(e.problems()).isNotEmpty();
      }
      bytes[bit / 8] ^= (byte) (1 << bit % 8);
    }
    assertThat(refused).isBetween(bytes.length * 3, bytes.length * 8 - 1);
  }

  @ParameterizedTest
  @ValueSource(strings = {"1e999999", "-1e999999", "1e-999999"})
  void hugeExponentsAreJudgedLikeAnyNumber(String number) {
    assertThat(onlyProblemWith("'history': [ { 'event': 'flown', 'days-ago': " + number + " } ]"))
        .extracting(Problem::pointer)
        .isEqualTo("/history/0/days-ago");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0e999999", "0.0", "0"})
  void zeroIsZeroHoweverItIsWritten(String zero) throws BadInput {
    CaseFile read = with("'history': [ { 'event': 'flown', 'days-ago': " + zero + " } ]");
    assertThat(read.history().get(0).daysAgo()).isEqualTo(OptionalInt.of(0));
  }
}
