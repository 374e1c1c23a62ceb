/**
 * An invented hire depot, so that the review of comebacks can be tried against a known truth. It
 * shares no numbers with the rules: what faults show and how people err is written down here once
 * more, from memory, and on purpose not quite the same.
 */
@NullMarked
package firmlever.invent;

import org.jspecify.annotations.NullMarked;
