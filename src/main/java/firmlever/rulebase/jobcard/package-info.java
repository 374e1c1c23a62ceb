/** The rules of the job card: facts of a job in, what stands on its card out. */
@NullMarked
package firmlever.rulebase.jobcard;

import org.jspecify.annotations.NullMarked;
