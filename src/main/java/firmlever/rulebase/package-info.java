/**
 * The one door to the rule engine: the facts of a case in, a model of this brake out.
 *
 * <p><b>Throws.</b> {@code rulebase/CaseBrake} puts a case before the pure hydraulics; {@code
 * RuleBase.consult} works the {@code ThrowEstimate} out once, and only where there is a throw, and
 * hands its symptoms to the rules as {@code Estimate} facts ({@code
 * rules/readings/throw-curve.drl}). What sound brakes of the kind take ({@code SoundThrow}, the
 * fact {@code SoundBrake}) is the limit of a long or short throw where the maker gives none. {@code
 * ThrowWords} says it in words.
 */
@NullMarked
package firmlever.rulebase;

import org.jspecify.annotations.NullMarked;
