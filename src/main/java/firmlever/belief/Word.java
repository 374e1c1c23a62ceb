package firmlever.belief;

import java.util.Locale;

/**
 * The seven words for how often something shows, with the number each stands for.
 *
 * <p>Source: {@link #SOURCE}. The ends are 0.98 and 0.005.
 */
public enum Word {
  CERTAIN(0.98),
  PROBABLE(0.85),
  EXPECTED(0.75),
  FIFTY_FIFTY(0.50),
  UNCERTAIN(0.25),
  IMPROBABLE(0.15),
  IMPOSSIBLE(0.005);

  /** Where scale and numbers are from. */
  public static final String SOURCE =
      "verbal-numerical probability scale, Renooij and Witteman, Int. J. Approximate Reasoning 22"
          + " (1999) 169-194; the two ends are drawn in a little, because no observation in a"
          + " workshop is beyond doubt";

  private final double probability;

  Word(double probability) {
    this.probability = probability;
  }

  /** The probability the word stands for, in (0, 1). */
  public double probability() {
    return probability;
  }

  /** The word as it is spoken and written in outputs, such as {@code fifty-fifty}. */
  public String spoken() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The word whose number lies nearest to {@code probability} in [0, 1]. */
  public static Word nearest(double probability) {
    Word best = CERTAIN;
    for (Word word : values()) {
      if (Math.abs(word.probability - probability) < Math.abs(best.probability - probability)) {
        best = word;
      }
    }
    return best;
  }
}
