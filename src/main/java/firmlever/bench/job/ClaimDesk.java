package firmlever.bench.job;

import firmlever.warranty.Desk;
import firmlever.warranty.Submitted.Papers;
import firmlever.warranty.policy.Policy;

/**
 * What claims are judged with.
 *
 * @param papers where the papers lie that a claim taken in from a file names
 */
public record ClaimDesk(Desk desk, Policy policy, Papers papers) {}
