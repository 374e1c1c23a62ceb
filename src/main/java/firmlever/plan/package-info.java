/**
 * What to do next: the checks and works that make the whole repair cheapest to expect
 * (decision-theoretic troubleshooting: Heckerman, Breese and Rommelse, CACM 38, 1995). Pure
 * arithmetic over the belief; knows nothing of brakes, rules or sentences.
 */
@NullMarked
package firmlever.plan;

import org.jspecify.annotations.NullMarked;
