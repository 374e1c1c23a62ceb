/**
 * The case format {@code firmlever-case/1}: one brake as somebody found it, and the one reader of
 * it.
 */
@NullMarked
package firmlever.casefile;

import org.jspecify.annotations.NullMarked;
