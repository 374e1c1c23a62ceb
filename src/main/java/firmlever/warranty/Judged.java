package firmlever.warranty;

import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyRules.State;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import java.util.List;
import java.util.Optional;

/**
 * What is decided of a claim.
 *
 * @param matters the outcomes that are sure enough, and those that are open; surest first
 * @param decisions what each cause in question comes to, most probable first
 * @param none chance that none of the causes claimed for is there
 * @param confirmedBy who confirmed something, in words; empty where nobody did
 */
public record Judged(
    List<Matter> matters, List<Decision> decisions, double none, String confirmedBy) {

  /** What it comes to, each result once, in a fixed order. */
  public List<Award> results() {
    return results(matters);
  }

  /** All that is missing, in a fixed order. */
  public List<Missing> missing() {
    return matters.stream().flatMap(m -> m.missing().stream()).distinct().sorted().toList();
  }

  static List<Award> results(List<Matter> matters) {
    return matters.stream().map(Matter::result).distinct().sorted().toList();
  }

  /**
   * One outcome of a claim. The chances of all causes that come to it add.
   *
   * @param decisions what was decided of its causes, most probable first; none where nothing wrong
   *     was found
   * @param clause the clause that decides, or that asks
   * @param chance that one of the causes is present
   * @param firmness share of redrawn models in which that stays likelier than not
   * @param missing what to send
   * @param why why it is open; empty where it is decided
   */
  public record Matter(
      Award result,
      List<Decision> decisions,
      Clause clause,
      double chance,
      double firmness,
      List<Missing> missing,
      String why) {}

  /**
   * What one cause comes to.
   *
   * @param clause the clause that decides, or the first one that cannot be told yet
   * @param follows what is decided of the fault that brought this one, where that decides
   * @param facts the facts it rests on, in words
   * @param missing what to send
   * @param considered the clauses looked at, in the order of their priority, up to the one that
   *     settles it
   */
  public record Decision(
      String cause,
      Award result,
      Clause clause,
      Optional<Decision> follows,
      List<String> why,
      List<String> facts,
      List<Missing> missing,
      double probability,
      List<Considered> considered) {}

  /** A clause that was looked at, and whether it holds. */
  public record Considered(Clause clause, State state, List<String> why, List<String> rules) {}
}
