/**
 * The visits of one brake: which are returns, to which earlier visit each is related and why, and
 * by which traits visits are compared.
 */
@NullMarked
package firmlever.comeback.visits;

import org.jspecify.annotations.NullMarked;
