package firmlever.warranty;

import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyFacts.Suspect;
import firmlever.rulebase.WarrantyRules.Finding;
import firmlever.rulebase.WarrantyRules.State;
import firmlever.warranty.Dossier.Considered;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Outcome.Result;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Settles which clause decides. The clauses are looked at from the highest priority down to the
 * first one that holds. One that cannot be told yet leaves two roads open; only where the roads end
 * differently is the missing fact asked for, and it is never counted either way.
 */
final class Decider {
  private Decider() {}

  /** Decides on one cause, from what the rules said of each clause about it. */
  static Decision decide(Policy policy, Suspect suspect, Map<String, Finding> byClause) {
    List<Considered> considered = new ArrayList<>();
    List<Clause> open = new ArrayList<>();
    Set<Result> roads = new LinkedHashSet<>();
    Clause holds = null;
    for (Clause clause : policy.about(suspect.cause())) {
      Finding finding = byClause.get(clause.id());
      if (finding == null) {
        throw new IllegalStateException("no rule spoke of clause " + clause.id());
      }
      considered.add(new Considered(clause, finding.state(), finding.why(), finding.rules()));
      if (finding.state() == State.FAILS) {
        continue;
      }
      roads.add(clause.result());
      if (finding.state() == State.APPLIES) {
        holds = clause;
        break;
      }
      open.add(clause);
    }
    boolean decided = roads.size() == 1;
    Clause named = decided || open.isEmpty() ? holds : open.get(0);
    List<Clause> asking = new ArrayList<>(decided ? List.of() : open);
    if (!decided || holds.result().equals(Result.ASKED)) {
      asking.add(holds);
    }
    Set<Missing> missing = EnumSet.noneOf(Missing.class);
    Set<String> why = new LinkedHashSet<>();
    for (Clause clause : asking) {
      missing.addAll(byClause.get(clause.id()).missing());
    }
    if (decided) {
      why.addAll(byClause.get(holds.id()).why());
    } else {
      open.forEach(clause -> why.addAll(byClause.get(clause.id()).why()));
    }
    return new Decision(
        suspect.cause(),
        decided ? holds.result() : Result.ASKED,
        named,
        List.copyOf(why),
        List.copyOf(new TreeSet<>(byClause.get(holds.id()).facts())),
        List.copyOf(missing),
        suspect.probability(),
        suspect.firmness(),
        suspect.confirmed(),
        List.copyOf(considered));
  }
}
