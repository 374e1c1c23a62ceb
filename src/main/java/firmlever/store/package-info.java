/** The jobs of a shop, kept in one file. Knows nothing of what stands in a case. */
@NullMarked
package firmlever.store;

import org.jspecify.annotations.NullMarked;
