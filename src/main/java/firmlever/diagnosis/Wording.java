package firmlever.diagnosis;

import firmlever.belief.Chance;
import firmlever.belief.Word;
import firmlever.plan.Plan;
import firmlever.plan.Problem.Hold;
import firmlever.rulebase.BrakeModel.Link;
import firmlever.vocabulary.Vocabulary;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The reasons of a diagnosis, in words. */
final class Wording {
  private static final int NAMED = 3;

  /** Said hundreds of times a case, so put into words once. */
  private static final Map<Word, String> SHARE = new EnumMap<>(Word.class);

  static {
    for (Word word : Word.values()) {
      SHARE.put(word, String.format(Locale.ROOT, " (%s)", share(word.probability())));
    }
  }

  private static String share(double probability) {
    return probability < 0.01
        ? String.format(Locale.ROOT, "%.3f", probability)
        : String.format(Locale.ROOT, "%.2f", probability);
  }

  private final Vocabulary vocabulary;

  Wording(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /**
   * Why a symptom weighs as it does for a cause; said after the finding. Where the symptom is not
   * there it is named again, since the finding was said by its opposite.
   */
  static String ofWeight(
      String symptom,
      String cause,
      boolean present,
      @Nullable Link link,
      double weight,
      double alone) {
    if (link == null) {
      return present
          ? "no sign of " + cause + ", so something else must have brought it"
          : "“" + symptom + "” is no sign of " + cause + " in any case";
    }
    String seen = often(link.word()) + " with " + cause + SHARE.get(link.word());
    if (!present) {
      return "“" + symptom + "” is " + seen;
    }
    return alone > 0.3 && weight < alone / 2
        ? seen + ", though another cause can explain it too"
        : seen;
  }

  /** How often a symptom is seen with a cause. */
  private static String often(Word word) {
    return switch (word) {
      case CERTAIN -> "nearly always seen";
      case PROBABLE -> "mostly seen";
      case EXPECTED -> "often seen";
      case FIFTY_FIFTY -> "seen half the time";
      case UNCERTAIN -> "sometimes seen";
      case IMPROBABLE -> "seldom seen";
      case IMPOSSIBLE -> "hardly ever seen";
    };
  }

  /** Why a step stands where it stands. */
  String ofStep(Plan.Step step) {
    if (step.outcomes().isEmpty() && !step.waits().isEmpty()) {
      return step.waits().stream().map(Hold::why).distinct().collect(Collectors.joining("; "));
    }
    List<String> about = step.why().about();
    String number = Chance.withNumber(step.why().probability());
    return switch (step.why().reason()) {
      case TELLS_APART -> "speaks for " + named(about, " or ") + " if it is there";
      case RELEASES ->
          named(about, " and ")
              + (step.kind() == Plan.Kind.WORK
                  ? " must wait for it and may follow"
                  : " must wait for it");
      case MENDS ->
          "mends "
              + named(about, " or ")
              + (about.size() > 1 ? ", one of which is there: " : ", which is there: ")
              + number;
      case NOTHING_WRONG -> "no fault is the likeliest: " + number;
      case WAITS -> "would mend " + named(about, " or ");
    };
  }

  private String named(List<String> ids, String between) {
    return ids.stream().limit(NAMED).map(vocabulary::name).collect(Collectors.joining(between));
  }
}
