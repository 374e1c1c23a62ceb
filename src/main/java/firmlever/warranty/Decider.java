package firmlever.warranty;

import firmlever.rulebase.warranty.WarrantyFacts.Brought;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyRules.Finding;
import firmlever.rulebase.warranty.WarrantyRules.State;
import firmlever.warranty.Judged.Considered;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Settles which clause decides on each cause. The clauses are looked at from the highest priority
 * down to the first one that holds. One that cannot be told yet leaves two roads open; only where
 * the roads end differently is the missing fact asked for, and it is never counted either way. What
 * another fault brought goes the way of that fault.
 */
final class Decider {
  private final Policy policy;
  private final Map<String, Map<String, Finding>> findings;
  private final Map<String, Double> probabilities;
  private final Map<String, List<Brought>> broughtBy;
  private final Map<String, Decision> decided = new HashMap<>();

  /**
   * Takes what the rules found of each clause before each cause.
   *
   * @param broughtBy for each cause the faults that may have brought it, likeliest first
   */
  Decider(
      Policy policy,
      List<Finding> findings,
      Map<String, Double> probabilities,
      Map<String, List<Brought>> broughtBy) {
    this.policy = policy;
    this.findings = new HashMap<>();
    for (Finding finding : findings) {
      this.findings
          .computeIfAbsent(finding.ruling().cause(), cause -> new HashMap<>())
          .put(finding.ruling().clause(), finding);
    }
    this.probabilities = probabilities;
    this.broughtBy = broughtBy;
  }

  /** Decides on one cause. */
  Decision decide(String cause) {
    Decision before = decided.get(cause);
    if (before == null) {
      before = walk(cause);
      decided.put(cause, before);
    }
    return before;
  }

  private Decision walk(String cause) {
    Map<String, Finding> byClause = findings.getOrDefault(cause, Map.of());
    List<Considered> considered = new ArrayList<>();
    List<Clause> open = new ArrayList<>();
    Set<Award> roads = new LinkedHashSet<>();
    Set<Missing> asked = EnumSet.noneOf(Missing.class);
    Clause holds = null;
    for (Clause clause : policy.about(cause)) {
      Finding finding = of(clause, byClause);
      considered.add(new Considered(clause, finding.state(), finding.why(), finding.rules()));
      if (finding.state() == State.FAILS) {
        continue;
      }
      if (clause.result().isPresent()) {
        roads.add(clause.result().orElseThrow());
      } else {
        for (Decision by : bringers(cause, finding.state())) {
          roads.add(by.result());
          asked.addAll(by.missing());
        }
      }
      if (finding.state() == State.APPLIES) {
        holds = clause;
        break;
      }
      open.add(clause);
    }
    if (holds == null) {
      throw new IllegalStateException("no clause decides on " + cause);
    }
    boolean settled = roads.size() == 1;
    Award result = settled ? roads.iterator().next() : Award.ASKED;
    Set<Missing> missing = EnumSet.noneOf(Missing.class);
    if (result.equals(Award.ASKED)) {
      missing.addAll(asked);
      List<Clause> asking = new ArrayList<>(settled ? List.of() : open);
      asking.add(holds);
      if (holds.kind().asks()) {
        // What is wanted at the same priority is asked for at once, not letter by letter.
        int priority = holds.priority();
        policy.about(cause).stream()
            .filter(clause -> clause.kind().asks() && clause.priority() == priority)
            .filter(clause -> of(clause, byClause).state() == State.APPLIES)
            .forEach(asking::add);
      }
      asking.forEach(clause -> missing.addAll(of(clause, byClause).missing()));
      if (missing.isEmpty()) {
        // Two faults that are decided differently may each have brought it.
        missing.add(Missing.FINDINGS);
      }
    }
    Set<String> why = new LinkedHashSet<>();
    if (settled) {
      why.addAll(of(holds, byClause).why());
    } else {
      open.forEach(clause -> why.addAll(of(clause, byClause).why()));
    }
    Clause named = settled || open.isEmpty() ? holds : open.get(0);
    List<Decision> followed = holds.result().isEmpty() ? bringers(cause, State.APPLIES) : List.of();
    return new Decision(
        cause,
        result,
        named,
        followed.isEmpty() ? Optional.empty() : Optional.of(followed.get(0)),
        List.copyOf(why),
        List.copyOf(new TreeSet<>(of(holds, byClause).facts())),
        List.copyOf(missing),
        probabilities.getOrDefault(cause, 0.0),
        List.copyOf(considered));
  }

  private static Finding of(Clause clause, Map<String, Finding> byClause) {
    Finding finding = byClause.get(clause.id());
    if (finding == null) {
      throw new IllegalStateException("no rule spoke of clause " + clause.id());
    }
    return finding;
  }

  /** What is decided of the faults that brought the cause; those that are likely where it holds. */
  private List<Decision> bringers(String cause, State state) {
    return broughtBy.getOrDefault(cause, List.of()).stream()
        .filter(by -> by.likely() || state == State.OPEN)
        .map(by -> decide(by.by()))
        .toList();
  }
}
