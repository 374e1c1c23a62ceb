package firmlever.diagnosis;

import static java.util.Objects.requireNonNull;

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
  private static final Map<Word, String> SHOWN = new EnumMap<>(Word.class);

  static {
    for (Word word : Word.values()) {
      SHOWN.put(
          word,
          String.format(
              Locale.ROOT, "it shows this as %s (%.2f)", word.spoken(), word.probability()));
    }
  }

  private final Vocabulary vocabulary;

  Wording(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /** Why a symptom weighs as it does for a cause. */
  static String ofWeight(boolean present, @Nullable Link link, double weight, double alone) {
    String shown = link == null ? "it does not show this" : requireNonNull(SHOWN.get(link.word()));
    if (present && link == null) {
      return shown + ", something else must";
    }
    if (present && alone > 0.3 && weight < alone / 2) {
      return shown + ", but another cause explains it";
    }
    return shown;
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
