/**
 * Comebacks: what a batch of closed cases says about how often brakes come back, why, and what
 * would have prevented it. Pure: closed cases in, counts and findings out.
 *
 * <p>The work is split by brake: {@link firmlever.comeback.BrakeReview} looks at one brake with all
 * its visits, {@link firmlever.comeback.Tally} gathers what it finds, two tallies merge into one
 * whatever the order, and {@link firmlever.comeback.Findings} draws the conclusions once.
 *
 * <p><b>Comebacks.</b> Records are sorted by brake into 256 parts of one temporary file; threads
 * take parts, {@code BrakeRecords} reads each brake and fills one {@code Tally} (counts, exact
 * sums, first few by a fixed order); tallies merge in any order, so threads and file order cannot
 * matter; {@code BrakeReview.conclude} draws the conclusions once. {@code Returns} assigns each
 * return to one visit, the last related one after which the brake had gone back; the others are
 * named beside it. {@code Relatedness} judges by Bayes' rule whether the return's cause was there
 * then, was brought in, or came anew; without a cause the complaint decides. Held against the
 * invented depot's own truth ({@code RelatednessTest}): of what a visit left behind more than 85 of
 * 100 is seen, and of new faults at least 15 of 100 fewer are laid to it than by the complaint.
 * Clusters count all returns, related or not. {@code Definition.known} is the cut of {@code
 * --until}: later visits are not there, and a brake that had not gone back has no outcome. {@code
 * PlausibleDays} keeps a mistyped year from stretching the watch. Read = reviewed + rejected +
 * skipped; {@code Rejects} says which and why.
 *
 * <p><b>Measured.</b> 20 000 jobs of the invented depot: 36 s of wall, two threads, quiet machine,
 * Java's start included. A million: 1024 s beside other work, heap 1 GB; parts are read one brake
 * at a time. Planted patterns, 40 seeds of 20 000 jobs: 120 of 120 found, none named beside them;
 * verdicts on innocent persons 7, in 5 of the 40 seeds (above their colleagues in 3). With the
 * codes of the technicians shuffled over all records: 2 verdicts on persons, in 2 of the 40 seeds;
 * the built-in shuffle foretells 1.5. Avoidable beyond chance, 40 seeds of 1538 jobs: 0.18 on
 * average; with what second visits found dealt out anew 0.01, and the 95 % interval covers zero in
 * 36. Judging chance costs a second look at 300 comebacks, which only small batches feel. The page
 * had no violations by axe-core in Chromium at 390 and 1280 pixels, and prints on two sheets where
 * no pattern is named.
 *
 * <p><b>Fair comparisons.</b> {@code Groups} holds the groups of each trait against others of their
 * kind: technicians against colleagues on the same work and age of brake, works and causes against
 * others by the same hands ({@code Trait.stratum}, {@code Trait.likeWords}). {@code StratifiedTest}
 * is the exact conditional test over these strata (2 × 2 × k); {@code FairComparison} adjusts a
 * family of them together, asks each verdict to hold without any one other group or pair of hands,
 * and shuffles the labels within the strata to tell how many verdicts chance gives. Persons are a
 * family of their own, visits without a work on record are no part of it, and page and text show no
 * figures of those of whom no difference is shown ({@code ReviewAnswers.shown}). {@code Clusters}
 * looks for causes after lots, technicians and seasons; a technician is named only where the same
 * work bears it out.
 *
 * <p><b>Avoidable.</b> {@code BrakeReview} calls a comeback avoidable; {@code ChanceLevel} judges a
 * sample again with the second visit of another brake that first came with the same kind of
 * complaint. What is left beyond chance weighs the hours and the habits ({@code Habit}: what a
 * check made at every visit of a kind takes and saves). {@code Learning} weighs a visit by how the
 * recorder's word has held at second visits ({@code Trust}), leaves out recorders whose share of a
 * cause lies off all others', and draws causes with little exposure back to the elicited numbers
 * ({@code RatioPrior}).
 *
 * <p><b>Before and after.</b> {@code Backtest} gives the forecast ({@code ReturnForecast}: Nelson
 * and Aalen's hazard at the age of each brake that is out) what was known on earlier evenings and
 * holds it against what came: of 144 intervals at 95 % over 12 seeds of the depot 133 held. {@code
 * ChangeSeries} holds visits after a change against as many days before within the same work
 * ({@code RiskDifference}), and the halves of the time before against each other. Both are fed
 * beside the tally, brake by brake.
 */
@NullMarked
package firmlever.comeback;

import org.jspecify.annotations.NullMarked;
