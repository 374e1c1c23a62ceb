package firmlever.hearing;

import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Fields;
import firmlever.document.Shape;
import firmlever.vocabulary.VocabularyReader;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * What a text is most like of what people say. It only suggests: likeness of letters cannot tell a
 * denial or a guess from a finding, so a person must say whether it was meant.
 *
 * <p>Texts are compared by the runs of three to five letters they share, the rare ones weighing
 * more (cosine of tf-idf weights).
 */
public final class Likeness {
  private static final String FORMAT = "firmlever-sayings/1";
  private static final int SHORTEST_RUN = 3;
  private static final int LONGEST_RUN = 5;

  private final boolean german;
  private final List<Saying> sayings = new ArrayList<>();
  private final Map<String, Integer> spread = new HashMap<>();

  private record Saying(String id, String words, Set<String> runs) {}

  /**
   * A saying near to a text.
   *
   * @param id id of the symptom, work or event it says
   * @param likeness 0 where no letters are shared, up to 1 for the same words
   */
  public record Like(String id, String saying, double likeness) {}

  private Likeness(boolean german) {
    this.german = german;
  }

  /**
   * Reads the sayings of a language out of {@code rules/vocabulary/hearing/}.
   *
   * @param code {@code en}, {@code de} or {@code fr}
   */
  public static Likeness of(String code) {
    Likeness likeness = new Likeness(code.equals("de"));
    for (Fields each : VocabularyReader.document(file(code)).objects("sayings")) {
      each.texts("says").forEach(words -> likeness.add(each.text("id"), words));
    }
    return likeness;
  }

  static String file(String code) {
    return "hearing/sayings-" + code + ".json";
  }

  /** What a file of sayings must hold; a test holds the files of the build to it. */
  static Shape shape(Collection<String> ids) {
    return Shape.object()
        .needs("format", oneOf("a format", List.of(FORMAT)), "the format")
        .may("source", text(300), "who wrote them")
        .needs(
            "sayings",
            list(
                1,
                Shape.object()
                    .needs("id", oneOf("a symptom, work or event", ids), "what they say")
                    .needs("says", list(1, text(200)), "ways of saying it")),
            "the sayings");
  }

  private void add(String id, String words) {
    Saying saying = new Saying(id, words, runs(words));
    saying.runs().forEach(run -> spread.merge(run, 1, Integer::sum));
    sayings.add(saying);
  }

  /**
   * The ids whose sayings are nearest, the nearest first, each once.
   *
   * @param wanted which ids may be named
   * @param least likeness below which nothing is named
   */
  public List<Like> nearest(String text, Predicate<String> wanted, double least, int most) {
    Set<String> runs = runs(text);
    double length = length(runs);
    Map<String, Like> best = new HashMap<>();
    for (Saying each : sayings) {
      if (wanted.test(each.id())) {
        double likeness = shared(runs, each.runs()) / (length * length(each.runs()));
        if (likeness >= least) {
          best.merge(
              each.id(),
              new Like(each.id(), each.words(), likeness),
              (a, b) -> a.likeness() >= b.likeness() ? a : b);
        }
      }
    }
    return best.values().stream()
        .sorted(Comparator.comparingDouble(Like::likeness).reversed().thenComparing(Like::id))
        .limit(most)
        .toList();
  }

  private double shared(Set<String> some, Set<String> others) {
    double sum = 0;
    for (String run : some) {
      sum += others.contains(run) ? square(weight(run)) : 0;
    }
    return sum;
  }

  private double length(Set<String> runs) {
    double sum = 0;
    for (String run : runs) {
      sum += square(weight(run));
    }
    return Math.sqrt(sum);
  }

  private double weight(String run) {
    return Math.log((sayings.size() + 1) / (spread.getOrDefault(run, 0) + 0.5));
  }

  private static double square(double value) {
    return value * value;
  }

  private Set<String> runs(String text) {
    StringBuilder plain = new StringBuilder(" ");
    for (Words.Piece piece : Words.pieces(text, german, false)) {
      plain.append(piece.plain()).append(' ');
    }
    Set<String> runs = new HashSet<>();
    for (int size = SHORTEST_RUN; size <= LONGEST_RUN; size++) {
      for (int at = 0; at + size <= plain.length(); at++) {
        runs.add(plain.substring(at, at + size));
      }
    }
    return runs;
  }
}
