package firmlever.warranty.policy;

import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.policy.Clause.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a policy that can be read may still have got wrong: nothing of it is an error, and somebody
 * must look at each.
 */
public final class PolicyGaps {
  private PolicyGaps() {}

  /** Gaps and overlaps, in sentences; none where there are none. */
  public static List<String> of(Policy policy, Vocabulary vocabulary) {
    List<String> found = new ArrayList<>();
    Map<String, Set<String>> uncovered = new LinkedHashMap<>();
    for (String cause : vocabulary.causes().keySet()) {
      List<Clause> about =
          policy.about(cause).stream()
              .filter(clause -> !clause.kind().asks())
              .filter(clause -> clause.kind() != Kind.OTHERWISE)
              .filter(clause -> clause.kind() != Kind.CONSEQUENCE)
              .toList();
      if (about.stream()
          .noneMatch(clause -> clause.result().orElseThrow().outcome() != Outcome.REFUSE)) {
        uncovered
            .computeIfAbsent(
                about.isEmpty()
                    ? "no clause of its own speaks of"
                    : "no clause ever covers, from no day on,",
                gap -> new LinkedHashSet<>())
            .add(cause);
      }
      if (policy.certainty(cause).isEmpty()) {
        uncovered
            .computeIfAbsent("no clause says how sure one must be of", gap -> new LinkedHashSet<>())
            .add(cause);
      }
      overlaps(policy, cause, found);
    }
    List<String> all = new ArrayList<>();
    uncovered.forEach((gap, causes) -> all.add("gap: " + gap + " " + String.join(", ", causes)));
    found.stream().distinct().forEach(all::add);
    if (policy.nothingFound().isEmpty()) {
      all.add("gap: no clause says what holds where nothing wrong is found");
    }
    if (policy.deadlines().isEmpty()) {
      all.add("gap: the policy names no deadlines");
    }
    if (policy.signers().isEmpty()) {
      all.add("gap: the policy names nobody who may sign");
    }
    return all;
  }

  /** Two periods over one cause, of which the one that goes first hides the other. */
  private static void overlaps(Policy policy, String cause, List<String> found) {
    List<Clause> clauses =
        policy.about(cause).stream()
            .filter(clause -> clause.kind() == Kind.PERIOD || clause.kind() == Kind.WEAR)
            .toList();
    for (int i = 0; i < clauses.size(); i++) {
      Clause first = clauses.get(i);
      boolean always = first.kind() == Kind.WEAR && first.terms().fromMonth() == 0;
      for (Clause later : clauses.subList(i + 1, clauses.size())) {
        if (always
            || first.kind() == later.kind() && first.terms().basis() == later.terms().basis()) {
          found.add(
              "overlap: clause "
                  + first.id()
                  + " goes before "
                  + later.id()
                  + (always ? " and leaves nothing of it" : "")
                  + " for "
                  + cause);
        }
      }
    }
  }
}
