/**
 * Rules as texts: what a rule file says, condition by condition and statement by statement, for the
 * book of rules and for the question why not; and the fault of a rule that says what cannot be.
 */
@NullMarked
package firmlever.rulebase.text;

import org.jspecify.annotations.NullMarked;
