package firmlever.hearing.language;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;

/**
 * By what a run of words is known again: its words, their beginnings and ends, which stand beside
 * each other, and the classes of words in it. Each sign is a number that hangs on its letters
 * alone, so that what was learned holds where classes are added.
 */
public final class Signs {
  private static final int SHORT = 4;
  private static final int LONG = 6;
  private static final int ROOT = 5;

  /** A window of more clauses than one is no longer than this. */
  private static final int MOST_WORDS = 22;

  private static final int MOST_CLAUSES = 3;

  private Signs() {}

  /**
   * Words that may say something together: a clause, or two or three of them.
   *
   * @param first the first of them
   * @param end the one after the last
   */
  public record Window(int first, int end) {}

  /** All windows of a text, the narrow ones of each clause first. */
  public static List<Window> windows(List<Word> words) {
    List<Integer> starts = new ArrayList<>();
    for (int at = 0; at < words.size(); at++) {
      if (at == 0 || words.get(at).clause() != words.get(at - 1).clause()) {
        starts.add(at);
      }
    }
    starts.add(words.size());
    List<Window> windows = new ArrayList<>();
    for (int from = 0; from + 1 < starts.size(); from++) {
      for (int clauses = 1; clauses <= MOST_CLAUSES && from + clauses < starts.size(); clauses++) {
        Window window = new Window(starts.get(from), starts.get(from + clauses));
        if (clauses == 1 || window.end - window.first <= MOST_WORDS) {
          windows.add(window);
        }
      }
    }
    return windows;
  }

  /** The signs of some words, each once, ascending. */
  public static int[] of(List<Word> words, Lexicon lexicon) {
    Taken taken = new Taken();
    String before = "^";
    String beforeThat = "^";
    BitSet classes = new BitSet();
    for (Word word : words) {
      String plain = word.plain();
      String root = beginning(plain, ROOT);
      taken.add('w', plain);
      taken.add('s', beginning(plain, SHORT));
      taken.add('s', beginning(plain, LONG));
      taken.add('e', plain.substring(Math.max(0, plain.length() - SHORT)));
      taken.add('b', before + ' ' + root);
      taken.add('k', beforeThat + ' ' + root);
      classes.or(word.atoms());
      beforeThat = before;
      before = root;
    }
    taken.add('b', before + " $");
    classes.clear(Grammar.FILLER.ordinal());
    classes.stream().forEach(each -> taken.add(lexicon.sign(each)));
    return taken.all();
  }

  private static String beginning(String word, int letters) {
    return word.substring(0, Math.min(letters, word.length()));
  }

  /** Numbers, each once. */
  private static final class Taken {
    private int[] numbers = new int[512];
    private int count;

    void add(char kind, String name) {
      add(SignNumber.of(kind, name));
    }

    void add(int number) {
      if (count == numbers.length) {
        numbers = Arrays.copyOf(numbers, 2 * count);
      }
      numbers[count++] = number;
    }

    int[] all() {
      Arrays.sort(numbers, 0, count);
      int kept = 0;
      for (int at = 0; at < count; at++) {
        if (kept == 0 || numbers[kept - 1] != numbers[at]) {
          numbers[kept++] = numbers[at];
        }
      }
      return Arrays.copyOf(numbers, kept);
    }
  }
}
