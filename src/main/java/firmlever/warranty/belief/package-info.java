/**
 * How sure a claim's faults are: the chance that one of several is there, how firm that is, and
 * what the one who closed the case confirmed.
 */
@NullMarked
package firmlever.warranty.belief;

import org.jspecify.annotations.NullMarked;
