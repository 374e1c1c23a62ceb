package firmlever.warranty;

import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Outcome.Award;
import java.util.List;

/**
 * A smallest set of further findings that changes the decision.
 *
 * @param after the matters of the claim with them; of their firmness it is only worked out on which
 *     side of the policy's limit it lies
 */
public record Turn(List<Further> findings, List<Matter> after) {
  /** What the claim would come to, each result once, in a fixed order. */
  public List<Award> becomes() {
    return Judged.results(after);
  }
}
