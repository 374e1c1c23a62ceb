package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Condition;
import firmlever.rulebase.text.RuleText.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** What was found once must not be weighed twice. */
@DisplayName("A finding counts once")
class CountedOnceTest {
  /**
   * Facts that make a finding another piece of evidence: together with what was done or measured.
   */
  private static final Set<String> BESIDE = Set.of("Job", "Event", "Reading", "History", "Use");

  @Test
  @DisplayName("no rule moves the odds of a cause on nothing but a finding that the cause shows")
  void noFactorRepeatsALink() {
    List<String> twice = new ArrayList<>();
    Map<String, Map<String, BrakeModel.Link>> links =
        Cases.RULES.consult(Cases.plain("dot", "diaphragm")).links();
    int looked = 0;
    for (RuleText rule : BuiltInRules.read()) {
      boolean beside =
          rule.conditions().stream()
              .anyMatch(c -> c.kind() != Kind.NOT && BESIDE.contains(c.fact()));
      for (RuleText.Statement said : rule.saying("raise", "lower").toList()) {
        Map<String, BrakeModel.Link> shown = links.getOrDefault(said.arguments().get(0), Map.of());
        for (Condition condition : rule.conditions()) {
          looked++;
          if (!beside
              && condition.kind() != Kind.NOT
              && condition.fact().equals("Finding")
              && condition.named("symptom").stream().anyMatch(shown::containsKey)) {
            twice.add(rule.name() + ": " + condition.text());
          }
        }
      }
    }
    assertThat(looked).isGreaterThan(100);
    assertThat(twice).isEmpty();
  }

  @Test
  @DisplayName("a wet place makes the leak found, and does not weigh again as such")
  void theFinerFindingSpeaksForTheCoarser() {
    BrakeModel model = consult("'weep-at-caliper-port':'present'");
    Known leak = model.findings().get("leak-found");
    assertThat(leak.present()).isTrue();
    assertThat(leak.weighs()).isFalse();
    assertThat(consult("'weep-at-caliper-port':'present','leak-found':'present'").observations())
        .isEqualTo(model.observations());
  }

  @Test
  @DisplayName("a dry round weighs once, whatever places are listed beside it")
  void theCoarserAbsenceSpeaksForItsKinds() {
    BrakeModel round = consult("'leak-found-nowhere':'present'");
    assertThat(round.findings().get("weep-along-hose").present()).isFalse();
    assertThat(consult("'leak-found-nowhere':'present','weep-along-hose':'absent'").observations())
        .isEqualTo(round.observations());
  }

  @Test
  @DisplayName("a kind that was ruled out explains its coarser symptom no more")
  void whatIsRuledOutShowsNothing() {
    int leak = Cases.VOCABULARY.symptoms().keySet().stream().toList().indexOf("wet-at-lever");
    BrakeModel open = consult("'wet-at-lever':'present'");
    BrakeModel dryPort = consult("'wet-at-lever':'present','weep-at-lever-port':'absent'");
    int port = open.network().causes().indexOf("lever-port-weep");
    assertThat(open.network().strength()[port][leak]).isGreaterThan(0.9);
    assertThat(dryPort.network().strength()[port][leak]).isLessThan(0.1);
  }

  @Test
  @DisplayName(
      "throws that tell gas from give weigh for air, and then not once more against the hose")
  void gasOrGiveWeighsOnce() {
    BrakeModel model =
        Cases.RULES.consult(
            Cases.of(
                "'brake':{'id':'B-0417-rear','fluid':'dot-4'},'readings':{'throw-light':'7 mm',"
                    + "'throw-firm':[{'value':'23 mm','force':'100 N'},"
                    + "{'value':'20 mm','force':'40 N'},{'value':'27 mm','force':'200 N'}]}"));
    assertThat(model.factors())
        .anyMatch(
            f ->
                f.cause().equals("air-left-in-line")
                    && f.said().rule().contains("the throws say gas"));
    Known hose = model.findings().get("hose-swells");
    assertThat(hose.present()).isFalse();
    assertThat(hose.weighs()).isFalse();
  }

  private static BrakeModel consult(String symptoms) {
    CaseFile file =
        Cases.of("'brake':{'id':'B-0417-rear','fluid':'dot-4'},'symptoms':{" + symptoms + "}");
    return Cases.RULES.consult(file);
  }
}
