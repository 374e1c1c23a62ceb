/**
 * A job at the bench, without any page: what is read of it from the store, what is changed in its
 * case, what was done on it, and its claim.
 */
@NullMarked
package firmlever.bench.job;

import org.jspecify.annotations.NullMarked;
