/**
 * The pure statistical core of the comeback review: counts in, records out.
 *
 * <p>Nothing here reads a file, knows a brake or keeps state between calls. Times are finite and
 * not negative, in whatever unit the caller uses (the review uses days); rates and levels are
 * fractions of one, not percent.
 *
 * <p><b>Map and merge.</b> What must be gathered over all jobs is gathered in four summaries:
 * {@link firmlever.comeback.statistics.Proportion}, {@link
 * firmlever.comeback.statistics.LifeTable}, {@link firmlever.comeback.statistics.ReturnHistories}
 * and {@link firmlever.comeback.statistics.Calibration}. Each holds whole-number counts only
 * (calibration: fixed-point sums, which are whole numbers too), and {@code plus} adds two of them.
 * Whole-number addition has no rounding, so any split of the jobs over threads or machines, in any
 * order, gives the same summary to the last bit. Split by brake, for {@code ReturnHistories} needs
 * one brake's history in one place. Size grows with the number of different times, never with the
 * number of jobs. Everything computed from a summary runs once, in ascending time order.
 *
 * <p>Distributions, exact tests and root finding come from Apache Commons Statistics and Numbers.
 */
@NullMarked
package firmlever.comeback.statistics;

import org.jspecify.annotations.NullMarked;
