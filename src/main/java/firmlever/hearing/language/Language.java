package firmlever.hearing.language;

import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What one language file says, ready for use.
 *
 * @param code such as {@code en}
 * @param german whether ae, oe and ue stand for umlauts
 * @param elides whether an apostrophe parts two words, as in {@code l'avant}
 * @param denialBefore telling words a denial reaches forward
 * @param denialAfter telling words a denial reaches back
 * @param values what words of time count, by the atom of their class
 * @param measures classes of numbers with a unit
 * @param foreign words by which a text is of another language
 * @param meanings patterns to try at a word, by the atoms of the word
 */
public record Language(
    String code,
    boolean german,
    boolean elides,
    int denialBefore,
    int denialAfter,
    Lexicon lexicon,
    Map<Integer, Value> values,
    List<Measure> measures,
    Set<String> foreign,
    Map<Integer, List<Meaning>> meanings) {

  /**
   * A class of numbers with a unit, as in "0.4 mm".
   *
   * @param units how the unit is written, folded; none where the number is enough
   * @param from least value of the class
   * @param below value from which on none is in it
   */
  record Measure(int atom, Set<String> units, double from, double below) {
    boolean holds(double value, String unit) {
      return value >= from && value < below && (units.isEmpty() || units.contains(unit));
    }
  }

  /** What a word of time counts: days ago, a number, days in a span, a day of the week, a month. */
  public record Value(Unit unit, int number) {}

  /** Kinds of words of time. */
  public enum Unit {
    DAYS,
    NUMBER,
    SPAN,
    WEEKDAY,
    MONTH
  }

  /** Of what a pattern speaks. */
  public enum Topic {
    SYMPTOM,
    WORK,
    EVENT,
    OUTCOME,
    FLUID;

    /** Patterns of one room compete for the words of a text. */
    boolean sharesRoomWith(Topic other) {
      return this == other || isDone() && other.isDone();
    }

    private boolean isDone() {
      return this == WORK || this == EVENT;
    }
  }

  /** What a pattern means; the certainty is that of a symptom, and else PRESENT. */
  public record Meaning(Pattern pattern, Topic topic, String id, Certainty certainty) {}
}
