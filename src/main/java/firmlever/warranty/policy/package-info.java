/**
 * What a policy says: its clauses with their terms and who pays, how sure a decision must be, who
 * signs and by when. Reads it and tells what is wrong with it, or left open between its clauses.
 */
package firmlever.warranty.policy;
