/**
 * The warranty desk: from a case and a policy to a decision with reasons that both sides can check.
 * Pure: no files, no clock; who worked and who claims decide nothing but through stated clauses.
 *
 * <p><b>Warranty.</b> {@code Desk.judge} takes the causes the claim speaks of ({@code Scope}: the
 * part or complaint claimed, and what the cost lines mend); {@code ClaimFacts} puts each clause
 * before each cause; the rules say through {@code rulebase/warranty/Verdict} whether it applies,
 * fails or is open; {@code Decider} walks from the highest priority down, and asks for a fact only
 * where the two roads end differently. Causes that come to the same outcome are one {@code Matter}:
 * {@code Chances} adds them exactly (one more solve with them left out), and the policy's limits
 * hold for the sum. {@code Traces} says whether an entry of the record brought a cause: told before
 * it, not overtaken, and with which chance (1 − 1/k, where the rules multiply its odds by k). What
 * one fault brings ({@code rules/vocabulary/brings.json}) follows that fault by the clause {@code
 * consequence}. What a closed case confirmed is evidence with a reporter ({@code Confirmation}),
 * never an override. Only a paper with its SHA-256, or a signed statement, counts as handed in.
 * {@code Costs} ties works and parts to causes and shares prices to the coin. {@code TurnSearch}
 * looks for the smallest sets of findings that would change the decision; {@code History} keeps
 * what people signed as a chain of digests. {@code Firmness} solves each redrawn model once for
 * each belief. One sheet serves text, HTML and PDF; only {@code SheetPdf} touches openhtmltopdf
 * (LGPL 2.1 or later, linked, not copied). The PDF's fonts are under the SIL Open Font License. The
 * demo claims carry their {@code why}; {@code DeskTest} holds what each must come to.
 */
@NullMarked
package firmlever.warranty;

import org.jspecify.annotations.NullMarked;
