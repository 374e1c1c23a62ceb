/**
 * A language as hearing reads it: its words cut into clauses and word classes, its grammar, and the
 * patterns that say what a run of words means. The words themselves are data, one file a language;
 * what is made of a text that was read so is for {@code hearing} to say.
 */
@NullMarked
package firmlever.hearing.language;

import org.jspecify.annotations.NullMarked;
