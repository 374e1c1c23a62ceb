/**
 * The commands of the reviewer: a shop's tables taken in ({@code import}), and its comebacks
 * reviewed here or, by {@code Elsewhere}, on other machines.
 *
 * <p><b>Import.</b> A table is read by a mapping that was guessed and may be mended; {@code
 * JobText} turns words into names by the hearing, the trade words and the glossary; {@code
 * TableImport} writes mapping and records and tells what was lost.
 */
@NullMarked
package firmlever.cli.review;

import org.jspecify.annotations.NullMarked;
