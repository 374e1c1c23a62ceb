/**
 * Belief: what is probably wrong, exactly. A noisy-OR network, its solution, weights of evidence,
 * likely stories and how firm it all is. Pure arithmetic; knows nothing of brakes or rules.
 */
@NullMarked
package firmlever.belief;

import org.jspecify.annotations.NullMarked;
