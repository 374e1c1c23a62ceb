/**
 * The commands. Those of the review and of the desk have rooms of their own; what all commands
 * share is in {@code shell}.
 */
@NullMarked
package firmlever.cli;

import org.jspecify.annotations.NullMarked;
