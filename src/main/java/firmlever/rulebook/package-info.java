/**
 * The rules as a book for people, and why a rule did not speak.
 *
 * <p><b>Rule book and whynot.</b> {@code rulebase/text/RuleReader} reads rule files with the
 * engine's own parser into {@code RuleText}; {@code rulebase/Judge} holds the conditions against
 * the facts of a case ({@code JudgeTest} compares it with the engine for every rule and case). The
 * rule compiler deletes rule texts from {@code target/classes}; the pom's {@code lay-rule-texts}
 * puts them back before index and digest are written. A new verb of {@code Model} shows up in the
 * book's chapter "Other rules" until {@code RuleBook} gives it a place (then a test fails); a new
 * field of a fact needs words in {@code Spoken}.
 */
@NullMarked
package firmlever.rulebook;

import org.jspecify.annotations.NullMarked;
