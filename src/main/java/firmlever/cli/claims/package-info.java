/** The commands of the warranty desk, and the claims of the bench's store as it reads them. */
@NullMarked
package firmlever.cli.claims;

import org.jspecify.annotations.NullMarked;
