package firmlever.hearing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;

/**
 * What may have been meant by words nobody understood, for a person to say. Safe for many threads;
 * the sayings of a language are read when they are first needed.
 */
public final class Guesses {
  private static final int MOST_CLAUSES = 2;
  private static final int MOST_GUESSES = 3;

  /**
   * Less alike, guesses are wrong too often: of complaints by authors nobody had read, two in three
   * of the clauses so offered had a right one among their guesses, one in seven with labels
   * shuffled.
   */
  private static final double LEAST_ALIKE = 0.3;

  private final Map<String, Likeness> sayings = new ConcurrentHashMap<>();

  /**
   * Words and what they are most like.
   *
   * @param words a clause in which nothing was heard
   * @param ids what people say in words like these, the nearest first; never empty
   */
  public record Guess(String words, List<String> ids) {}

  /**
   * The first clauses that were not understood and are like something people say.
   *
   * @param wanted which symptoms, works and events may be guessed
   */
  public List<Guess> of(Heard heard, Predicate<String> wanted) {
    List<Guess> guesses = new ArrayList<>();
    for (String words : heard.language().isPresent() ? heard.unheard() : List.<String>of()) {
      if (guesses.size() == MOST_CLAUSES) {
        break;
      }
      List<String> ids =
          sayings
              .computeIfAbsent(heard.language().get(), Likeness::of)
              .nearest(words, wanted, LEAST_ALIKE, MOST_GUESSES)
              .stream()
              .map(Likeness.Like::id)
              .toList();
      if (!ids.isEmpty()) {
        guesses.add(new Guess(words.strip(), ids));
      }
    }
    return guesses;
  }
}
