package firmlever.diagnosis;

import firmlever.rulebase.BrakeModel.Link;
import java.util.Locale;

/** The reasons of a diagnosis, in words. */
final class Wording {
  private Wording() {}

  static String ofWeight(boolean present, Link link, double weight, double alone) {
    String shown =
        link == null
            ? "it does not show this"
            : String.format(
                Locale.ROOT,
                "it shows this as %s (%.2f)",
                link.word().spoken(),
                link.word().probability());
    if (present && link == null) {
      return shown + ", something else must";
    }
    if (present && alone > 0.3 && weight < alone / 2) {
      return shown + ", but another cause explains it";
    }
    return shown;
  }
}
