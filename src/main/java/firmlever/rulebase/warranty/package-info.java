/** The rules of the warranty desk: facts of a claim in, which clauses hold out. */
@NullMarked
package firmlever.rulebase.warranty;

import org.jspecify.annotations.NullMarked;
