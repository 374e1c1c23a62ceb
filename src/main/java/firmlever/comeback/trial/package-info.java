/**
 * Trials over time: what the forecast of an earlier day would have been worth, and what a change in
 * the shop did.
 */
@NullMarked
package firmlever.comeback.trial;

import org.jspecify.annotations.NullMarked;
