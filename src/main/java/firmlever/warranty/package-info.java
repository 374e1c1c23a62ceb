/**
 * The warranty desk: from a case and a policy to a decision with reasons that both sides can check.
 * Pure: no files, no clock; who worked and who claims decide nothing but through stated clauses.
 */
package firmlever.warranty;
