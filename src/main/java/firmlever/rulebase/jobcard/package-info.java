/** The rules of the job card: facts of a job in, what stands on its card out. */
package firmlever.rulebase.jobcard;
