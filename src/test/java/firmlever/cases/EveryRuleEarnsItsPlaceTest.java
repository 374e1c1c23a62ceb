package firmlever.cases;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.RuleCoverage;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import org.junit.jupiter.api.Test;

class EveryRuleEarnsItsPlaceTest {
  @Test
  void taking_out_any_one_rule_makes_a_case_fail() throws Exception {
    RuleBase rules = RuleBase.builtIn(VocabularyReader.builtIn());

    List<String> unpinned =
        RuleCoverage.of(rules, CaseFilesTest.cases()).stream()
            .filter(covered -> covered.pinnedBy().isEmpty())
            .map(covered -> covered.rule().name())
            .toList();

    assertThat(unpinned).as("rules that no case pins").isEmpty();
  }
}
