package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.belief.Balance;
import firmlever.belief.TooManySymptoms;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.report.JsonReport;
import firmlever.diagnosis.report.TextReport;
import firmlever.diagnosis.report.WhyNotReport;
import firmlever.document.BadInput;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RulesInForce;
import firmlever.rulebase.text.RuleText;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("The work for one answer")
class WorkLimitsTest {
  private static final String CAUSE = "air-at-lever";
  private static final List<RuleText> TEXTS = texts();

  private static List<RuleText> texts() {
    try {
      return RulesInForce.about(CAUSE, Bench.RULES);
    } catch (BadInput e) {
      throw new IllegalStateException(e);
    }
  }

  /** A case with so many symptoms present, those that the most causes show. */
  private static CaseFile crowded(int symptoms) {
    return Bench.of(
        "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'symptoms':{%s}"
            .formatted(
                Crowd.of(Bench.RULES, symptoms).stream()
                    .map(symptom -> "'" + symptom + "':'present'")
                    .collect(Collectors.joining(","))));
  }

  private static long musts(CaseFile file) {
    BrakeModel model = Bench.RULES.consult(file);
    return Balance.work(model.network(), model.observations());
  }

  private static Diagnosis diagnose(CaseFile file, WorkBudget budget) {
    return Bench.DIAGNOSTICIAN.diagnose(file, Bench.RULES.consult(file), Options.USUAL, budget);
  }

  private static WhyNot whyNot(CaseFile file, WorkBudget budget) {
    return new WhyNotFinder(Bench.RULES).of(file, CAUSE, TEXTS, budget);
  }

  private static String words(String text) {
    return text.replaceAll("\\s+", " ");
  }

  @Test
  @DisplayName("a diagnosis keeps to it, is the same twice, and says what it left")
  void aDiagnosisStopsEarly() {
    CaseFile file = crowded(12);
    long limit = musts(file) + 30_000_000;
    WorkBudget budget = WorkBudget.of(limit);
    Diagnosis diagnosis = diagnose(file, budget);
    assertThat(budget.spent()).isBetween(musts(file), limit);
    assertThat(diagnosis.stability().orElseThrow().draws()).isBetween(8, 99);
    assertThat(JsonReport.of(diagnose(file, WorkBudget.of(limit))))
        .isEqualTo(JsonReport.of(diagnosis));
    assertThat(diagnosis.stoppedEarly()).isNotEmpty().allMatch(s -> s.contains("was used up"));
    String text = words(new TextReport(Bench.VOCABULARY, 80, false).of(diagnosis));
    assertThat(diagnosis.stoppedEarly()).allMatch(text::contains);
    assertThat(words(JsonReport.of(diagnosis)))
        .contains("\"stopped-early\" : [ \"How firm it is was tried with");
  }

  @Test
  @DisplayName("a diagnosis with nothing left for draws and checks still ranks the causes")
  void theMustsAlone() {
    CaseFile file = crowded(12);
    Diagnosis diagnosis = diagnose(file, WorkBudget.of(musts(file)));
    assertThat(diagnosis.stability()).isEmpty();
    assertThat(diagnosis.turning()).isEmpty();
    assertThat(diagnosis.stoppedEarly()).hasSize(2);
    assertThat(diagnosis.causes())
        .isEqualTo(diagnose(file, WorkBudget.of(Long.MAX_VALUE)).causes());
    assertThatThrownBy(() -> diagnose(file, WorkBudget.of(musts(file) - 1)))
        .isInstanceOf(TooManySymptoms.class);
  }

  @Test
  @DisplayName("why not keeps to it, begins with the symptoms of the cause, and says so")
  void whyNotStopsEarly() {
    CaseFile file = crowded(12);
    long limit = musts(file) + 60_000_000;
    WorkBudget budget = WorkBudget.of(limit);
    WhyNot whyNot = whyNot(file, budget);
    assertThat(budget.spent()).isBetween(musts(file), limit);
    WhyNot whole = whyNot(file, WorkBudget.of(Long.MAX_VALUE));
    assertThat(whole.stoppedEarly()).isEmpty();
    assertThat(whyNot.checks()).isNotEmpty().hasSizeLessThan(whole.checks().size());
    assertThat(whole.checks()).containsSubsequence(whyNot.checks());
    // The strongest symptom of the cause is among them.
    assertThat(whyNot.checks()).contains(whole.checks().get(0));
    assertThat(whyNot.stoppedEarly()).hasSize(1);
    WhyNotReport report = new WhyNotReport(Bench.VOCABULARY, 80, false);
    assertThat(words(report.of(whyNot, false))).contains(whyNot.stoppedEarly().get(0));
    assertThat(report.json(whyNot))
        .isEqualTo(report.json(whyNot(file, WorkBudget.of(limit))))
        .satisfies(
            json ->
                assertThat(words(json))
                    .contains("\"stopped-early\" : [ \"What a check would make of it"));
  }

  @ParameterizedTest(name = "changes nothing where it is enough: {0}")
  @ValueSource(strings = {"soft-after-the-car-roof", "long-lever-hard-stop", "third-bleed-wanted"})
  void changesNothingWhereItIsEnough(String name) throws BadInput {
    Path path = Path.of("cases", "demo", name + ".json");
    CaseFile file = Bench.READER.read(path, name);
    WorkBudget endless = WorkBudget.of(Long.MAX_VALUE);
    Diagnosis unlimited = diagnose(file, endless);
    Diagnosis usual = Bench.DIAGNOSTICIAN.diagnose(file, Options.USUAL);
    assertThat(JsonReport.of(usual)).isEqualTo(JsonReport.of(unlimited));
    assertThat(usual.stoppedEarly()).isEmpty();
    assertThat(usual.stability().orElseThrow().draws()).isEqualTo(Options.USUAL.draws());
    WhyNotReport report = new WhyNotReport(Bench.VOCABULARY, 80, false);
    assertThat(report.json(new WhyNotFinder(Bench.RULES).of(file, CAUSE, TEXTS)))
        .isEqualTo(report.json(whyNot(file, WorkBudget.of(Long.MAX_VALUE))));
  }

  @Test
  @DisplayName("what the refusal names is enough to leave out, and none of it too much")
  void theRefusalNamesWhatIsEnough() {
    CaseFile file = crowded(12);
    long limit = musts(crowded(10));
    List<String> named = List.of();
    try {
      diagnose(file, WorkBudget.of(limit));
    } catch (TooManySymptoms e) {
      assertThat(e.what()).startsWith("12 findings hang together");
      named = Arrays.asList(e.maybe().replaceAll(".*: |\\.$", "").split(", "));
    }
    assertThat(named).isNotEmpty();
    BrakeModel model = Bench.RULES.consult(file);
    List<String> leave = named;
    assertThat(workWithout(model, leave)).isLessThanOrEqualTo(limit);
    for (String one : leave) {
      assertThat(workWithout(model, leave.stream().filter(each -> !each.equals(one)).toList()))
          .as("without " + one)
          .isGreaterThan(limit);
    }
  }

  private static long workWithout(BrakeModel model, List<String> left) {
    return Balance.work(
        model.network(),
        model.observations().stream()
            .filter(seen -> !left.contains(model.network().symptoms().get(seen.symptom())))
            .toList());
  }
}
