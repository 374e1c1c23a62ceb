package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.rulebase.BuiltInRules;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.RuleInfo;
import firmlever.rulebase.RulesInForce;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Why not this cause")
class WhyNotFinderTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final RuleBase RULES = RuleBase.builtIn(VOCABULARY);
  private static final Diagnostician DIAGNOSTICIAN = new Diagnostician(RULES);
  private static final String DEMO = "demo/soft-after-the-car-roof";
  private static final String SINKS = "regression/_not-air/sinks-under-a-held-pull-and-dry";

  private static CaseFile file(String name) throws BadInput {
    Path path = Path.of("cases", name + ".json");
    return new CaseReader(VOCABULARY).read(path, path.toString());
  }

  private static WhyNot whyNot(String name, String cause) throws BadInput {
    return new WhyNotFinder(RULES).of(file(name), cause, RulesInForce.about(cause, RULES));
  }

  @ParameterizedTest(name = "agrees with the diagnosis, and its weights add up: {0}")
  @ValueSource(strings = {"air-left-in-line", "air-at-lever", "worn-lever-seal", "soft-hose"})
  void agreesWithTheDiagnosis(String cause) throws BadInput {
    WhyNot whyNot = whyNot(DEMO, cause);
    Diagnosis diagnosis = DIAGNOSTICIAN.diagnose(file(DEMO), Options.WITHOUT_DRAWS);
    CauseBelief belief = whyNot.belief().orElseThrow();
    assertThat(belief).isEqualTo(diagnosis.cause(cause).orElseThrow());
    assertThat(whyNot.leader()).isEqualTo(diagnosis.first());
    assertThat(whyNot.rank() - 1).isEqualTo(diagnosis.causes().indexOf(belief));
    double sum = belief.prior();
    for (Weight weight : belief.history()) {
      sum += weight.weight();
    }
    for (Weight weight : belief.symptoms()) {
      sum += weight.weight();
    }
    assertThat(sum).isCloseTo(belief.logOdds(), within(1e-4));
  }

  @Test
  @DisplayName("names every rule about the cause once: it spoke, or it lacked something")
  void namesEveryRule() throws BadInput {
    for (String cause : VOCABULARY.causes().keySet()) {
      WhyNot whyNot = whyNot(SINKS, cause);
      Set<String> named = new HashSet<>(whyNot.applied());
      whyNot
          .notApplied()
          .forEach(
              each -> {
                assertThat(named.add(each.judgement().rule().name())).isTrue();
                assertThat(BuiltInRules.met(each.judgement())).isEqualTo(Optional.of(false));
              });
      assertThat(named)
          .containsExactlyInAnyOrderElementsOf(
              RULES.rules().stream()
                  .map(RuleInfo::name)
                  .filter(name -> name.startsWith(cause + ": "))
                  .toList());
    }
  }

  @Test
  @DisplayName("says by which rule a cause is impossible, and then asks for no check")
  void namesWhatMakesItImpossible() throws BadInput {
    WhyNot whyNot = whyNot(SINKS, "wet-fluid");
    assertThat(whyNot.impossible().orElseThrow().rule()).isEqualTo("wet-fluid: takes no water up");
    assertThat(whyNot.belief()).isEmpty();
    assertThat(whyNot.checks()).isEmpty();
  }

  @Test
  @DisplayName("tells of each check what the diagnosis would be after it")
  void checksAreWhatTheDiagnosisWouldBe() throws BadInput {
    String cause = "air-left-in-line";
    CaseFile file = file(DEMO);
    WhyNot whyNot = whyNot(DEMO, cause);
    WhyNot.Check first = whyNot.checks().get(0);
    assertThat(first.ifPresent())
        .isCloseTo(after(first.symptom(), Presence.PRESENT, cause), within(1e-12));
    assertThat(first.ifAbsent())
        .isCloseTo(after(first.symptom(), Presence.ABSENT, cause), within(1e-12));
    assertThat(whyNot.checks())
        .hasSizeGreaterThan(50)
        .isSortedAccordingTo((a, b) -> Double.compare(b.swing(), a.swing()))
        .allSatisfy(
            each -> {
              assertThat(each.chance()).isBetween(0.0, 1.0);
              assertThat(VOCABULARY.symptoms().get(each.symptom()).canBeChecked()).isTrue();
              assertThat(file.symptoms().getOrDefault(each.symptom(), Presence.NOT_CHECKED))
                  .isEqualTo(Presence.NOT_CHECKED);
            });
  }

  private static double after(String symptom, Presence presence, String cause) throws BadInput {
    return DIAGNOSTICIAN
        .diagnose(file(DEMO).with(symptom, presence), Options.WITHOUT_DRAWS)
        .cause(cause)
        .map(CauseBelief::probability)
        .orElse(0.0);
  }

  @Test
  @DisplayName("says which other cause explains a symptom that is there")
  void namesWhoExplainsIt() throws BadInput {
    assertThat(whyNot(DEMO, "air-left-in-line").explainedBy())
        .containsEntry("pumps-up", "air-at-lever");
  }
}
