package firmlever.hearing.language;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.lucene.analysis.miscellaneous.ASCIIFoldingFilter;

/** Brings the letters of a word to their plain form. */
public final class Letters {
  /** A word longer than this is no word. */
  static final int LONGEST_WORD = 40;

  private Letters() {}

  /** Small letters without accents; in German, ae, oe and ue are the umlauts they stand for. */
  public static String fold(String word, boolean german) {
    if (isPlain(word)) {
      return german ? umlauts(word) : word;
    }
    char[] from = word.toLowerCase(Locale.ROOT).toCharArray();
    // One character becomes four at most.
    char[] to = new char[from.length * 4];
    String plain = new String(to, 0, ASCIIFoldingFilter.foldToASCII(from, 0, to, 0, from.length));
    return german ? umlauts(plain) : plain;
  }

  private static boolean isPlain(String word) {
    for (int at = 0; at < word.length(); at++) {
      char letter = word.charAt(at);
      if (letter > 'z' || letter >= 'A' && letter <= 'Z') {
        return false;
      }
    }
    return true;
  }

  private static String umlauts(String word) {
    if (word.indexOf('e', 1) < 0) {
      return word;
    }
    StringBuilder out = new StringBuilder(word.length());
    for (int at = 0; at < word.length(); at++) {
      char letter = word.charAt(at);
      char before = at > 0 ? word.charAt(at - 1) : ' ';
      boolean umlaut =
          letter == 'e'
              && (before == 'a' || before == 'o' || before == 'u')
              && (at < 2 || "aeiouq".indexOf(word.charAt(at - 2)) < 0);
      if (!umlaut) {
        out.append(letter);
      }
    }
    return out.toString();
  }

  /** Whether a letter stands three times running. */
  static boolean held(String word) {
    for (int at = 2; at < word.length(); at++) {
      if (word.charAt(at) == word.charAt(at - 1) && word.charAt(at) == word.charAt(at - 2)) {
        return true;
      }
    }
    return false;
  }

  /** The word with each run of three or more of a letter cut down to {@code most}. */
  static String squeezed(String word, int most) {
    StringBuilder out = new StringBuilder(word.length());
    for (int at = 0; at < word.length(); ) {
      int end = at;
      while (end < word.length() && word.charAt(end) == word.charAt(at)) {
        end++;
      }
      out.append(String.valueOf(word.charAt(at)).repeat(end - at > 2 ? most : end - at));
      at = end;
    }
    return out.toString();
  }

  /** The pieces of a text between signs; nothing where two signs stand together. */
  static List<String> split(String text, char sign) {
    List<String> pieces = new ArrayList<>();
    int from = 0;
    for (int at = 0; at <= text.length(); at++) {
      if (at == text.length() || text.charAt(at) == sign) {
        if (at > from) {
          pieces.add(text.substring(from, at));
        }
        from = at + 1;
      }
    }
    return pieces;
  }
}
