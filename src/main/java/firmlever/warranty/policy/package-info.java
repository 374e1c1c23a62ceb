/**
 * What a policy says: its clauses with their terms and who pays, how sure a decision must be, who
 * signs and by when. Reads it and tells what is wrong with it, or left open between its clauses.
 */
@NullMarked
package firmlever.warranty.policy;

import org.jspecify.annotations.NullMarked;
