/**
 * Documents that know their lines, what may stand in them, and files that are written whole.
 *
 * <p><b>Limits.</b> How large, deep and many things may be stands in {@code document/Limit} and
 * nowhere else; {@code firmlever --help limits} prints it, {@code LimitTest} and {@code GuardTest}
 * try each at its edge. {@code belief/WorkBudget} counts table states, never time: one answer has
 * one budget; searches that stop early say so.
 */
@NullMarked
package firmlever.document;

import org.jspecify.annotations.NullMarked;
