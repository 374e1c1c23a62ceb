/**
 * Comebacks: what a batch of closed cases says about how often brakes come back, why, and what
 * would have prevented it. Pure: closed cases in, counts and findings out.
 *
 * <p>The work is split by brake: {@link firmlever.comeback.BrakeReview} looks at one brake with all
 * its visits, {@link firmlever.comeback.Tally} gathers what it finds, two tallies merge into one
 * whatever the order, and {@link firmlever.comeback.Findings} draws the conclusions once.
 */
package firmlever.comeback;
