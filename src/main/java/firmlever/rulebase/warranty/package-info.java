/** The rules of the warranty desk: facts of a claim in, which clauses hold out. */
package firmlever.rulebase.warranty;
