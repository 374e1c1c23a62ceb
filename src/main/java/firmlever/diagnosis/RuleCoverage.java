package firmlever.diagnosis;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.RuleInfo;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Which cases hold which rule in place. A rule is pinned by a case whose expectation is missed as
 * soon as the rule is taken out; a rule that no case pins could be changed without anyone noticing.
 */
public final class RuleCoverage {
  private RuleCoverage() {}

  /**
   * One rule among the cases.
   *
   * @param matched in how many cases it fires
   * @param pinnedBy the first case that fails without it
   */
  public record Covered(RuleInfo rule, int matched, Optional<String> pinnedBy) {}

  /** Takes each rule out in turn, over the cases that have an expectation and meet it. */
  public static List<Covered> of(RuleBase rules, List<CaseFile> cases) {
    Diagnostician diagnostician = new Diagnostician(rules);
    Map<String, List<CaseFile>> casesByRule = new LinkedHashMap<>();
    for (CaseFile file : cases) {
      BrakeModel model = rules.consult(file);
      Diagnosis whole = diagnostician.diagnose(file, model, Diagnostician.Options.BARE);
      if (meets(file, whole)) {
        model
            .fired()
            .forEach(rule -> casesByRule.computeIfAbsent(rule, r -> new ArrayList<>()).add(file));
      }
    }
    return rules.rules().parallelStream()
        .map(rule -> covered(diagnostician, rule, casesByRule.getOrDefault(rule.name(), List.of())))
        .toList();
  }

  private static boolean meets(CaseFile file, Diagnosis diagnosis) {
    return file.expectation().map(e -> Expectations.missed(e, diagnosis).isEmpty()).orElse(false);
  }

  private static Covered covered(
      Diagnostician diagnostician, RuleInfo rule, List<CaseFile> matching) {
    Optional<String> pin =
        matching.stream()
            .sorted(Comparator.comparingLong((CaseFile file) -> -kin(rule.name(), file.id())))
            .filter(file -> !meets(file, diagnostician.diagnoseWithout(file, Set.of(rule.name()))))
            .map(CaseFile::id)
            .findFirst();
    return new Covered(rule, matching.size(), pin);
  }

  /** How many words the names share: the case written for a rule is tried before the others. */
  private static long kin(String rule, String caseId) {
    Set<String> words = Set.copyOf(List.of(caseId.split("-")));
    return Stream.of(rule.split("[^a-z]+")).distinct().filter(words::contains).count();
  }
}
