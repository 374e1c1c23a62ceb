package firmlever.rulebase;

import firmlever.document.BadInput;
import firmlever.rulebase.Judge.Judged;
import firmlever.rulebase.Judge.Judgement;
import firmlever.rulebase.Judge.Verdict;
import firmlever.rulebase.text.RuleText;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import java.util.Optional;

/** The rules of this build as they are written, and what a judgement of one comes to. */
public final class BuiltInRules {
  private BuiltInRules() {}

  public static List<RuleText> read() {
    try {
      return RulesInForce.of(RuleBase.builtIn(VocabularyReader.builtIn()));
    } catch (BadInput e) {
      throw new AssertionError(e);
    }
  }

  /** Whether the rule has its conditions; empty where that cannot be judged. */
  public static Optional<Boolean> met(Judgement judgement) {
    List<Verdict> verdicts = judgement.conditions().stream().map(Judged::verdict).toList();
    if (verdicts.stream().allMatch(each -> each == Verdict.MET)) {
      return Optional.of(true);
    }
    return verdicts.stream()
            .anyMatch(v -> v == Verdict.FALSE || v == Verdict.NOT_CHECKED || v == Verdict.UNKNOWN)
        ? Optional.of(false)
        : Optional.empty();
  }
}
