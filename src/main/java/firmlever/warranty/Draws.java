package firmlever.warranty;

import firmlever.belief.Balance;
import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.TooManySymptoms;
import firmlever.belief.WorkBudget;
import firmlever.rulebase.BrakeModel;
import java.util.List;

/** How many redrawn models stand behind a firmness. */
final class Draws {
  /** Enough to tell 0.8 from 0.9. */
  static final int FULL = 100;

  /** Enough to leave aside what turns nothing; what seems to turn a decision is decided in full. */
  static final int ROUGH = 20;

  /** A draw beside its solve takes as long as so many visits to table entries. */
  private static final long DRAW = 50_000;

  private Draws() {}

  /**
   * Redrawn models that half of what the diagnosis leaves allows, and never fewer than the rough
   * ones.
   *
   * @throws TooManySymptoms where not even those fit
   */
  static int within(BrakeModel model, WorkBudget budget) {
    Network network = model.network();
    List<Observation> seen = model.observations();
    long left = budget.left();
    if (least(network, seen) > left) {
      throw new TooManySymptoms(network, seen, some -> least(network, some), left);
    }
    long half = (left - Balance.work(network, seen) - Inference.work(network, seen)) / 2;
    return (int) Math.min(FULL, Math.max(ROUGH, half / drawing(network, seen)));
  }

  /** Work without which nothing is decided. */
  private static long least(Network network, List<Observation> seen) {
    return Balance.work(network, seen)
        + Inference.work(network, seen)
        + ROUGH * drawing(network, seen);
  }

  /** Work of one draw. */
  static long drawing(Network network, List<Observation> seen) {
    return DRAW + Inference.work(network, seen);
  }
}
