package firmlever.hearing;

import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Fields;
import firmlever.document.Shape;
import firmlever.hearing.language.Words;
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

  /** The sayings in which a run of letters stands, by their numbers. */
  private final Map<String, List<Integer>> holders = new HashMap<>();

  private final double[] lengths;

  private record Saying(String id, String words) {}

  /**
   * A saying near to a text.
   *
   * @param id id of the symptom, work or event it says
   * @param likeness 0 where no letters are shared, up to 1 for the same words
   */
  public record Like(String id, String saying, double likeness) {}

  private Likeness(boolean german, List<Fields> all) {
    this.german = german;
    for (Fields each : all) {
      for (String words : each.texts("says")) {
        for (String run : runs(words)) {
          holders.computeIfAbsent(run, r -> new ArrayList<>()).add(sayings.size());
        }
        sayings.add(new Saying(each.text("id"), words));
      }
    }
    this.lengths = new double[sayings.size()];
    holders.forEach(
        (run, numbers) -> numbers.forEach(number -> lengths[number] += square(weight(run))));
  }

  /**
   * Reads the sayings of a language out of {@code rules/vocabulary/hearing/}.
   *
   * @param code {@code en}, {@code de} or {@code fr}
   */
  public static Likeness of(String code) {
    return new Likeness(
        code.equals("de"), VocabularyReader.document(file(code)).objects("sayings"));
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

  /**
   * The ids whose sayings are nearest, the nearest first, each once.
   *
   * @param wanted which ids may be named
   * @param least likeness below which nothing is named
   */
  List<Like> nearest(String text, Predicate<String> wanted, double least, int most) {
    double length = 0;
    double[] shared = new double[sayings.size()];
    for (String run : runs(text)) {
      double weight = square(weight(run));
      length += weight;
      for (int number : holders.getOrDefault(run, List.of())) {
        shared[number] += weight;
      }
    }
    Map<String, Like> best = new HashMap<>();
    for (int number = 0; number < shared.length; number++) {
      double likeness = shared[number] / Math.sqrt(length * lengths[number]);
      Saying saying = sayings.get(number);
      if (likeness >= least && wanted.test(saying.id())) {
        best.merge(
            saying.id(),
            new Like(saying.id(), saying.words(), likeness),
            (a, b) -> a.likeness() >= b.likeness() ? a : b);
      }
    }
    return best.values().stream()
        .sorted(Comparator.comparingDouble(Like::likeness).reversed().thenComparing(Like::id))
        .limit(most)
        .toList();
  }

  private double weight(String run) {
    return Math.log((sayings.size() + 1) / (holders.getOrDefault(run, List.of()).size() + 0.5));
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
