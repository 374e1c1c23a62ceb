package firmlever.hearing.language;

import java.util.BitSet;

/**
 * One word of a text, or several heard as one.
 *
 * @param plain its letters, folded
 * @param atoms the classes it belongs to
 * @param start where it begins in the text
 * @param end where it ends, exclusive
 * @param place its place for distances: words that say little add nothing, signs add to it
 * @param clause number of the clause, which signs and turning words end
 * @param sentence number of the sentence
 */
public record Word(
    String plain, BitSet atoms, int start, int end, int place, int clause, int sentence) {
  boolean is(int atom) {
    return atoms.get(atom);
  }
}
