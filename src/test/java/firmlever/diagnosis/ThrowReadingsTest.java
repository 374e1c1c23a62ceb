package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis.Concluded;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.ThrowCurve.If;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.hydraulics.AssumedBrake.Assumption;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.hydraulics.ThrowEstimate.Meaning;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("What a lever throw says in a case")
class ThrowReadingsTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final Diagnostician DIAGNOSTICIAN =
      new Diagnostician(RuleBase.builtIn(VOCABULARY));
  private static final String KNOWN =
      "'hose': { 'length': '1650 mm', 'bore': '2.2 mm' }, 'lever': { 'bore': '10 mm', 'ratio': 5.6 },"
          + " 'caliper': { 'pistons': 2, 'bore': '21 mm' }";

  private static CaseFile demo(String name) throws BadInput {
    return READER.read(Path.of("cases/demo", name + ".json"), name);
  }

  private static CaseFile file(String brake, String symptoms, String readings) throws BadInput {
    String text =
        """
        { 'format': 'firmlever-case/1', 'id': 'c-1', 'opened': '2026-05-12',
          'brake': { 'id': 'b-1', 'position': 'rear', 'fluid': 'mineral-oil', %s },
          'complaint': 'long', 'symptoms': { %s }, 'readings': { %s } }"""
            .replace("%s", "%S")
            .replaceFirst("%S", brake)
            .replaceFirst("%S", symptoms)
            .replaceFirst("%S", readings)
            .replace('\'', '"');
    return READER.read(DocumentReader.readText(text, "case.json"), "case.json");
  }

  private static Diagnosis diagnose(CaseFile file) {
    return DIAGNOSTICIAN.diagnose(file, Options.WITHOUT_DRAWS);
  }

  private static Optional<Concluded> concluded(Diagnosis d, String symptom) {
    return d.concluded().stream().filter(c -> c.symptom().equals(symptom)).findFirst();
  }

  private static ThrowEstimate estimate(Diagnosis d) {
    return d.throwEstimate().orElseThrow();
  }

  @Test
  @DisplayName("early contact and a long soft way is gas, and air comes first")
  void gas() throws BadInput {
    CaseFile file = demo("soft-with-readings");
    Diagnosis d = diagnose(file);
    assertThat(estimate(d).meaning()).isEqualTo(Meaning.GAS);
    assertThat(estimate(d).gasMl().low()).isPositive();
    assertThat(estimate(d).assumptions()).as("the case has all the data").isEmpty();
    assertThat(concluded(d, "spongy-lever").orElseThrow().present()).isTrue();
    assertThat(d.first()).isEqualTo("air-at-lever");
    // 1 mm: the ruler's error, common practice
    ThrowCurve curve = ThrowCurve.of(file);
    assertThat(curve.measured()).hasSize(3);
    assertThat(curve.measured())
        .allSatisfy(
            m ->
                assertThat(curve.lines().get(0).throwMm(m.forceN()))
                    .as("%s", m)
                    .isCloseTo(m.throwMm(), within(1.0)));
  }

  @Test
  @DisplayName("late contact and a firm end is gap: pads and pistons, not air")
  void gap() throws BadInput {
    Diagnosis d = diagnose(demo("long-but-firm-with-readings"));
    assertThat(estimate(d).meaning()).isEqualTo(Meaning.CLEARANCE);
    assertThat(estimate(d).clearanceMm().low()).isGreaterThan(0.09);
    assertThat(concluded(d, "no-hard-stop").orElseThrow().present()).isFalse();
    assertThat(concluded(d, "spongy-lever").orElseThrow().present()).isFalse();
    assertThat(d.causes().subList(0, 2))
        .extracting(Diagnosis.CauseBelief::id)
        .containsExactlyInAnyOrder("worn-pads", "sticky-piston");
  }

  @Test
  @DisplayName("without a throw nothing is worked out")
  void nothingWithoutThrows() throws BadInput {
    Diagnosis d = diagnose(file(KNOWN, "'spongy-lever': 'present'", "'creep': '4 mm'"));
    assertThat(d.throwEstimate()).isEmpty();
    assertThat(concluded(d, "hose-swells")).isEmpty();
  }

  private static Optional<Concluded> atFirmPull(
      String mm, String figures, String symptoms, String symptom) throws BadInput {
    String firm = "'throw-firm': { 'value': '%s mm', 'force': '100 N' }".replace("%s", mm);
    return concluded(diagnose(file(KNOWN + figures, symptoms, firm)), symptom);
  }

  @Test
  @DisplayName(
      "a throw is judged by what sound brakes of its kind take; among them it tells little")
  void amongSoundBrakes() throws BadInput {
    assertThat(atFirmPull("19", "", "", "long-throw").orElseThrow().present()).isTrue();
    Concluded among = atFirmPull("14", "", "", "long-throw").orElseThrow();
    assertThat(among.present()).isFalse();
    assertThat(among.evidence()).as("inside the range is no evidence").isFalse();
    Concluded early = atFirmPull("9", "", "", "long-throw").orElseThrow();
    assertThat(early.present()).isFalse();
    assertThat(early.evidence()).isTrue();
    assertThat(atFirmPull("9", "", "", "short-throw")).isEmpty();
    assertThat(atFirmPull("4", "", "", "short-throw").orElseThrow().present()).isTrue();
  }

  @Test
  @DisplayName("just beyond the range is near the limit, and says so")
  void nearTheEdge() throws BadInput {
    assertThat(atFirmPull("16.6", "", "", "long-throw").orElseThrow().probability())
        .isBetween(0.5, 0.9);
  }

  @Test
  @DisplayName("the maker's figure stands above the range, and a person's word above both")
  void whatStandsAboveTheRange() throws BadInput {
    String maker = ", 'maker-figures': { 'throw': '22 mm' }";
    assertThat(atFirmPull("19", maker, "", "long-throw").orElseThrow().present()).isFalse();
    assertThat(atFirmPull("4", maker, "", "short-throw").map(Concluded::present))
        .isNotEqualTo(Optional.of(true));
    assertThat(atFirmPull("9", "", "'long-throw': 'present'", "long-throw")).isEmpty();
    assertThat(atFirmPull("19", "", "'long-throw': 'absent'", "long-throw")).isEmpty();
    assertThat(atFirmPull("9", "", "'lever-to-bar': 'present'", "long-throw")).isEmpty();
  }

  @Test
  @DisplayName("data no brake has are set aside and named, and the range grows")
  void absurdBrake() throws BadInput {
    String throwsRead =
        "'throw-light': '6 mm', 'throw-firm': [ { 'value': '18 mm', 'force': '90 N' }, { 'value':"
            + " '15 mm', 'force': '20 N' } ]";
    ThrowEstimate known = estimate(diagnose(file(KNOWN, "", throwsRead)));
    ThrowEstimate absurd =
        estimate(
            diagnose(
                file("'lever': { 'bore': '29 mm' }, 'caliper': { 'pistons': 5 }", "", throwsRead)));
    assertThat(absurd.assumptions())
        .filteredOn(Assumption::setAside)
        .extracting(Assumption::what)
        .containsExactlyInAnyOrder("lever bore", "number of caliper pistons");
    assertThat(absurd.gasMl().width()).isGreaterThan(known.gasMl().width());
  }

  @Test
  @DisplayName("throws no brake gives count for nothing but what each shows by itself")
  void absurdThrows() throws BadInput {
    Diagnosis d =
        diagnose(
            file(
                KNOWN,
                "",
                "'throw-light': '21 mm', 'throw-firm': { 'value': '5 mm', 'force': '100 N' }"));
    assertThat(estimate(d).fits()).isFalse();
    assertThat(concluded(d, "spongy-lever")).isEmpty();
    assertThat(concluded(d, "no-hard-stop")).isEmpty();
    assertThat(concluded(d, "long-throw").orElseThrow().present()).isFalse();
  }

  @Test
  @DisplayName("a throw at light contact alone says nothing of softness")
  void lightAlone() throws BadInput {
    Diagnosis d = diagnose(file(KNOWN, "", "'throw-light': '7 mm'"));
    assertThat(estimate(d).meaning()).isEqualTo(Meaning.OPEN);
    assertThat(estimate(d).wouldTell()).isPresent();
    assertThat(d.concluded()).isEmpty();
  }

  @Test
  @DisplayName("what a person recorded stands, and a hard stop that cannot be is named")
  void recordedStands() throws BadInput {
    String soft =
        "'throw-light': '5 mm', 'throw-firm': [ { 'value': '20 mm', 'force': '110 N' }, { 'value':"
            + " '17 mm', 'force': '30 N' } ]";
    Diagnosis absent = diagnose(file(KNOWN, "'spongy-lever': 'absent'", soft));
    assertThat(concluded(absent, "spongy-lever")).isEmpty();
    assertThat(absent.contradictions()).isEmpty();
    Diagnosis hard = diagnose(file(KNOWN, "'firm-at-end': 'present'", soft));
    assertThat(concluded(hard, "spongy-lever").orElseThrow().present()).isFalse();
    assertThat(hard.contradictions())
        .singleElement()
        .satisfies(c -> assertThat(c.symptoms()).containsExactly("no-hard-stop"));
  }

  @Test
  @DisplayName("the further the lever goes after contact, the more gas, and the more it is air")
  void moreTravelMoreGas() throws BadInput {
    List<Double> gasMl = new ArrayList<>();
    List<Double> air = new ArrayList<>();
    for (int mm = 9; mm <= 24; mm += 3) {
      Diagnosis d =
          diagnose(
              file(
                  KNOWN,
                  "",
                  "'throw-light': '6 mm', 'throw-firm': [ { 'value': '%d mm', 'force': '100 N' }, {"
                          .replace("%d", String.valueOf(mm))
                      + " 'value': '%d mm', 'force': '25 N' } ]"
                          .replace("%d", String.valueOf(mm - 2))));
      gasMl.add(estimate(d).gasMl().best());
      air.add(d.cause("air-at-lever").orElseThrow().probability());
    }
    assertThat(gasMl).isSorted().doesNotHaveDuplicates();
    assertThat(air).isSorted();
    assertThat(air.get(5)).isGreaterThan(1.5 * air.get(0));
  }

  @Test
  @DisplayName("gas and a soft hose lengthen the modelled throw, new pads shorten it")
  void whatIf() throws BadInput {
    ThrowCurve curve = ThrowCurve.of(demo("long-but-firm-with-readings"));
    double[] at = curve.lines().stream().mapToDouble(line -> line.throwMm(100)).toArray();
    assertThat(curve.lines().stream().map(ThrowCurve.Line::of)).containsExactly(If.values());
    assertThat(at[1]).as("0.2 mL more gas").isGreaterThan(at[0] + 5);
    assertThat(at[2]).as("new pads").isLessThan(at[0] - 5);
    assertThat(at[3]).as("soft hose").isGreaterThan(at[0] + 0.5);
    for (ThrowCurve.Line line : curve.lines()) {
      assertThat(curve.forcesN().stream().map(line::throwMm)).isSorted();
    }
  }
}
