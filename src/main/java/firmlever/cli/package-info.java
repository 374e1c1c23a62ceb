/**
 * The commands. Those of the review and of the desk have rooms of their own; what all commands
 * share is in {@code shell}.
 */
package firmlever.cli;
