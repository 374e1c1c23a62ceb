/**
 * The page on which the jobs of a day are done: each request reads a job from the store, and each
 * tap writes one change of it. Thinks nothing itself: verdicts come from the diagnosis.
 */
@NullMarked
package firmlever.bench;

import org.jspecify.annotations.NullMarked;
