package firmlever.hearing.language;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Cuts a text into words and clauses. */
public final class Words {
  /** Signs that end a sentence. */
  private static final String STOPS = ".!?;\n\r•|…";

  /** Signs that end a clause and not the sentence. */
  private static final String PAUSES = ",:()[]{}–—+=>\"«»„“”";

  private static final int PAUSE = 2;
  private static final int STOP = 1000;

  /** So far from the first, the name of the other wheel begins a clause of its own. */
  private static final int APART = 1;

  private Words() {}

  /** A piece of text that may be a word. */
  public record Piece(String plain, int start, int end) {}

  /** The letters and digits of a text that stand together; an apostrophe within a word counts. */
  public static List<Piece> pieces(String text, boolean german, boolean elides) {
    List<Piece> pieces = new ArrayList<>();
    int at = 0;
    while (at < text.length()) {
      if (!Character.isLetterOrDigit(text.charAt(at))) {
        at++;
        continue;
      }
      int start = at;
      while (at < text.length() && inside(text, start, at, elides)) {
        at++;
      }
      String word = text.substring(start, Math.min(at, start + Letters.LONGEST_WORD));
      String plain = Letters.fold(word, german).replace('’', '\'');
      if (plain.endsWith("'s")) {
        plain = plain.substring(0, plain.length() - 2);
      }
      // Dialect: "aufg'macht".
      pieces.add(new Piece(german ? plain.replace("'", "") : plain, start, at));
    }
    return pieces;
  }

  private static boolean inside(String text, int start, int at, boolean elides) {
    char letter = text.charAt(at);
    if (Character.isLetterOrDigit(letter)
        || Character.getType(letter) == Character.NON_SPACING_MARK) {
      // "3weeks" is two words.
      return at == start
          || Character.isDigit(letter) == Character.isDigit(text.charAt(at - 1))
          || !Character.isLetterOrDigit(text.charAt(at - 1));
    }
    boolean between = at + 1 < text.length() && at > start;
    if (!between) {
      return false;
    }
    char before = text.charAt(at - 1);
    char after = text.charAt(at + 1);
    if (letter == '\'' || letter == '’') {
      return !elides && Character.isLetter(before) && Character.isLetter(after);
    }
    return (letter == '.' || letter == ',')
        && Character.isDigit(before)
        && Character.isDigit(after);
  }

  /** The words of a text. */
  public static List<Word> of(String text, Language language) {
    List<Piece> pieces = pieces(text, language.german(), language.elides());
    List<Word> words = new ArrayList<>(pieces.size());
    int place = 0;
    int clause = 0;
    int sentence = 0;
    int read = 0;
    int lastWheel = 0;
    int wheelPlace = 0;
    for (int at = 0; at < pieces.size(); ) {
      Piece first = pieces.get(at);
      int length = 1;
      BitSet atoms = new BitSet();
      boolean closed = false;
      for (Lexicon.Joined each : language.lexicon().joined(first.plain())) {
        if (each.words().length >= length && follows(pieces, at, each.words(), text)) {
          if (each.words().length > length) {
            atoms.clear();
            closed = false;
          }
          closed |= each.closed();
          atoms.or(each.atoms());
          length = each.words().length;
        }
      }
      if (length == 1) {
        atoms = language.lexicon().atoms(first.plain());
      } else if (!closed) {
        for (Piece each : pieces.subList(at, at + length)) {
          BitSet own = language.lexicon().atoms(each.plain());
          boolean denies = Grammar.NOT.ordinal() < own.length() && own.get(Grammar.NOT.ordinal());
          own.clear(0, Grammar.values().length);
          own.set(Grammar.NOT.ordinal(), denies);
          atoms.or(own);
        }
      }
      for (Piece each : pieces.subList(at, at + length)) {
        // "was bled" hides who did it, as one word too.
        if (length > 1 && language.lexicon().atoms(each.plain()).get(Grammar.PASSIVE.ordinal())) {
          atoms.set(Grammar.PASSIVE.ordinal());
        }
      }
      if (Character.isDigit(first.plain().charAt(0))) {
        String sign = below(text, first.start()) ? "-" : "";
        String unit = at + 1 < pieces.size() ? pieces.get(at + 1).plain() : "";
        measured(sign + first.plain(), unit, language, atoms);
      }
      Piece last = pieces.get(at + length - 1);
      String between = text.substring(read, first.start());
      boolean stop = stops(between) && !shortened(text, pieces, at, between);
      boolean pause = has(between, PAUSES) || between.contains(" -") || between.contains("- ");
      int wheel =
          atoms.get(Grammar.FRONT.ordinal()) ? 1 : atoms.get(Grammar.REAR.ordinal()) ? 2 : 0;
      boolean otherWheel =
          wheel + lastWheel == 3 && place - wheelPlace >= APART && !words.isEmpty();
      boolean turn = atoms.get(Grammar.TURN.ordinal()) || otherWheel;
      boolean open = !words.isEmpty();
      if (open && (stop || pause || turn)) {
        clause++;
        sentence += stop ? 1 : 0;
        place += stop ? STOP : PAUSE;
      }
      place += atoms.get(Grammar.FILLER.ordinal()) ? 0 : 1;
      words.add(new Word(first.plain(), atoms, first.start(), last.end(), place, clause, sentence));
      if (wheel > 0 || stop) {
        lastWheel = wheel;
        wheelPlace = place;
      }
      read = last.end();
      at += length;
    }
    return words;
  }

  /** Whether a minus stands before a number, and no range: "-8", not "2-3". */
  private static boolean below(String text, int start) {
    return start > 0
        && (text.charAt(start - 1) == '-' || text.charAt(start - 1) == '−')
        && (start == 1 || !Character.isLetterOrDigit(text.charAt(start - 2)));
  }

  /** Adds the classes of a number with the unit that follows it. */
  private static void measured(String number, String unit, Language language, BitSet atoms) {
    for (Language.Measure each : language.measures()) {
      if (each.holds(Double.parseDouble(number.replace(',', '.')), unit)) {
        atoms.set(each.atom());
      }
    }
  }

  private static boolean follows(List<Piece> pieces, int at, String[] words, String text) {
    if (at + words.length > pieces.size()) {
      return false;
    }
    for (int i = 0; i < words.length; i++) {
      String plain = pieces.get(at + i).plain();
      boolean same =
          words[i].endsWith("*")
              ? plain.startsWith(words[i].substring(0, words[i].length() - 1))
              : plain.equals(words[i]);
      if (!same
          || i > 0 && parted(text, pieces.get(at + i - 1).end(), pieces.get(at + i).start())) {
        return false;
      }
    }
    return true;
  }

  /** Whether a sign stands between two words, so that they are not said as one. */
  private static boolean parted(String text, int end, int start) {
    String between = text.substring(end, start);
    return stops(between) || has(between, PAUSES);
  }

  /** Whether the point belongs to a word cut short: "re. innen", "lt. Kd.", "1. Zug". */
  private static boolean shortened(String text, List<Piece> pieces, int at, String between) {
    if (!between.equals(". ") || at == 0) {
      return false;
    }
    String before = pieces.get(at - 1).plain();
    boolean cut = before.chars().noneMatch(letter -> "aeiouy".indexOf(letter) >= 0);
    return before.length() <= 2
        && (cut || Character.isLowerCase(text.charAt(pieces.get(at).start())));
  }

  /** Whether a sentence ends here; the point within {@code i.O.} ends none. */
  private static boolean stops(String between) {
    return has(between, STOPS) && !between.equals(".");
  }

  private static boolean has(String between, String signs) {
    for (int i = 0; i < between.length(); i++) {
      if (signs.indexOf(between.charAt(i)) >= 0) {
        return true;
      }
    }
    return false;
  }
}
