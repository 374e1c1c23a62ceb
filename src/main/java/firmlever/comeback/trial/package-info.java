/**
 * Trials over time: what the forecast of an earlier day would have been worth, and what a change in
 * the shop did.
 */
package firmlever.comeback.trial;
