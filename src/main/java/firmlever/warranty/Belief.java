package firmlever.warranty;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.rulebase.BrakeModel;
import firmlever.warranty.belief.Chances;
import firmlever.warranty.belief.Confirmation;
import firmlever.warranty.belief.Firmness;
import firmlever.warranty.policy.Policy;
import java.util.List;
import java.util.Optional;

/**
 * What is believed of a case.
 *
 * @param network the model's, and beside it what the one who closed the case confirmed
 * @param seen what was seen in that network
 * @param confirmation empty where nothing was confirmed
 */
record Belief(
    BrakeModel model,
    Network network,
    List<Observation> seen,
    Inference.Posterior posterior,
    Chances chances,
    Optional<Confirmation> confirmation,
    Firmness firmness) {
  int position(String cause) {
    return network.causes().indexOf(cause);
  }

  double probability(String cause) {
    int at = position(cause);
    return at < 0 ? 0 : posterior.posterior()[at];
  }

  /** The same where of its firmness only counts what the policy asks for. */
  Belief against(Policy policy, int draws) {
    Firmness sides = firmness.against(policy.firmnesses(), draws);
    return new Belief(model, network, seen, posterior, chances, confirmation, sides);
  }
}
