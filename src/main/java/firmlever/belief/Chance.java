package firmlever.belief;

import java.util.Locale;

/**
 * A chance as one would say it: in tens, since nobody at a stand counts finer, and since words such
 * as "improbable" mean something else to each reader (Wintle and others, 2019).
 */
public final class Chance {
  private Chance() {}

  /** Such as {@code 3 in 10}; near the ends no number is claimed. */
  public static String inTen(double probability) {
    if (probability >= 0.95) {
      return "almost certain";
    }
    if (probability >= 0.05) {
      return Math.max(1, Math.round(probability * 10)) + " in 10";
    }
    return probability >= 0.02 ? "less than 1 in 10" : "hardly ever";
  }

  /** The same with its number, for whoever reckons on: {@code 3 in 10 (0.34)}. */
  public static String withNumber(double probability) {
    double shown = Math.min(0.99, Math.max(0.01, probability));
    return inTen(probability) + String.format(Locale.ROOT, " (%.2f)", shown);
  }
}
