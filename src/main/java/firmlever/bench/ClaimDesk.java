package firmlever.bench;

import firmlever.warranty.Desk;
import firmlever.warranty.Policy;
import firmlever.warranty.Submitted.Papers;

/**
 * What claims are judged with.
 *
 * @param papers where the papers lie that a claim taken in from a file names
 */
public record ClaimDesk(Desk desk, Policy policy, Papers papers) {}
