package firmlever.hearing.language;

import firmlever.document.Nearest;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.tartarus.snowball.SnowballStemmer;

/**
 * The words of one language with the classes they belong to. A class, and a word a pattern names by
 * itself, is an atom: a small number.
 *
 * <p>An entry is a word, found by its stem ({@code leak} is {@code leaks} and {@code leaking}); a
 * beginning, an end or a middle ({@code spong*}, {@code *hebel}, {@code *brems*}); a word as it
 * stands ({@code bled!}); or several words joined by {@code _}, heard as one.
 */
public final class Lexicon {
  /** Only words this long are tried for a slip of the pen: short trade words are too alike. */
  private static final int LONG_WORD = 8;

  /** So many words of earlier texts are remembered. */
  private static final int MOST_FOUND = 10_000;

  private final SnowballStemmer stemmer;
  private final boolean german;
  private final boolean elides;
  private final Map<String, Integer> atoms = new HashMap<>();

  /** Signs of the atoms, once they are all known. */
  private volatile int @Nullable [] signs;

  private final Map<String, BitSet> whole = new HashMap<>();
  private final Map<String, BitSet> stems = new HashMap<>();

  /** Words whose stems nobody has asked for yet, by their first two letters. */
  private final Map<String, List<Unstemmed>> unstemmed = new HashMap<>();

  /** What was found for the words of earlier texts. */
  private final Map<String, BitSet> found = new ConcurrentHashMap<>();

  private final Map<String, BitSet> beginnings = new HashMap<>();
  private final Map<String, BitSet> ends = new HashMap<>();
  private final Map<String, BitSet> middles = new HashMap<>();
  private final Map<String, List<Joined>> joined = new HashMap<>();
  private final Map<String, List<String>> longWords = new HashMap<>();

  private record Unstemmed(String word, int atom) {}

  /** Several words heard as one; closed ones say nothing but their class. */
  record Joined(String[] words, BitSet atoms, boolean closed) {}

  Lexicon(SnowballStemmer stemmer, boolean german, boolean elides) {
    this.stemmer = stemmer;
    this.german = german;
    this.elides = elides;
  }

  /** The number of a class or of a word named by itself; a new one where the name is new. */
  int atom(String name) {
    Integer known = atoms.putIfAbsent(name, atoms.size());
    return known == null ? atoms.size() - 1 : known;
  }

  /** The sign of a class, which hangs on its name alone. */
  int sign(int atom) {
    if (signs == null) {
      int[] made = new int[atoms.size()];
      atoms.forEach((name, number) -> made[number] = SignNumber.of('a', name));
      signs = made;
    }
    return signs[atom];
  }

  boolean knows(String name) {
    return atoms.containsKey(name);
  }

  /**
   * Lays an entry into a class.
   *
   * @param closed whether several words heard as one then say nothing else
   */
  void add(int atom, String entry, boolean closed) {
    String word = asCut(Letters.fold(entry, german));
    if (word.contains("_")) {
      String[] words = parts(word);
      BitSet own = new BitSet();
      own.set(atom);
      joined.computeIfAbsent(words[0], w -> new ArrayList<>()).add(new Joined(words, own, closed));
    } else if (word.startsWith("*") && word.endsWith("*")) {
      put(middles, word.substring(1, word.length() - 1), atom);
    } else if (word.startsWith("*")) {
      put(ends, word.substring(1), atom);
    } else if (word.endsWith("*")) {
      put(beginnings, word.substring(0, word.length() - 1), atom);
    } else if (word.endsWith("!")) {
      put(whole, word.substring(0, word.length() - 1), atom);
    } else {
      put(whole, word, atom);
      unstemmed.computeIfAbsent(head(word), h -> new ArrayList<>()).add(new Unstemmed(word, atom));
      if (word.length() >= LONG_WORD) {
        longWords.computeIfAbsent(word.substring(0, 1), w -> new ArrayList<>()).add(word);
      }
    }
  }

  /** An entry as texts are cut: at hyphens, where letters meet digits, and where vowels elide. */
  private String asCut(String entry) {
    StringBuilder out = new StringBuilder(entry.length() + 2);
    for (int at = 0; at < entry.length(); at++) {
      char letter = entry.charAt(at);
      boolean within = at > 0 && at + 1 < entry.length();
      if (within && (letter == '-' || elides && letter == '\'')) {
        out.append('_');
        continue;
      }
      char before = at > 0 ? entry.charAt(at - 1) : '_';
      if (Character.isDigit(letter) && Character.isLetter(before)
          || Character.isLetter(letter) && Character.isDigit(before)) {
        out.append('_');
      }
      out.append(letter);
    }
    return out.toString();
  }

  /** The parts of several words heard as one. */
  private static String[] parts(String joined) {
    List<String> parts = new ArrayList<>(4);
    int from = 0;
    for (int at = joined.indexOf('_'); at >= 0; at = joined.indexOf('_', from)) {
      parts.add(joined.substring(from, at));
      from = at + 1;
    }
    parts.add(joined.substring(from));
    return parts.toArray(String[]::new);
  }

  private static String head(String word) {
    return word.length() < 2 ? word : word.substring(0, 2);
  }

  private static void put(Map<String, BitSet> map, String key, int atom) {
    map.computeIfAbsent(key, k -> new BitSet()).set(atom);
  }

  /** Several words heard as one that begin with this word. */
  List<Joined> joined(String word) {
    return joined.getOrDefault(word, List.of());
  }

  /**
   * The atoms of a folded word; empty for a word not known. A letter held down ({@code sooo}) and,
   * in long words, one slip of the pen are overlooked.
   */
  public BitSet atoms(String word) {
    BitSet known = found.get(word);
    if (known == null) {
      known = search(word);
      if (found.size() >= MOST_FOUND) {
        found.clear();
      }
      found.put(word, known);
    }
    return (BitSet) known.clone();
  }

  private BitSet search(String word) {
    BitSet atoms = known(word);
    if (atoms.isEmpty() && Letters.held(word)) {
      atoms = known(Letters.squeezed(word, 2));
      if (atoms.isEmpty()) {
        atoms = known(Letters.squeezed(word, 1));
      }
    }
    if (atoms.isEmpty() && word.length() >= LONG_WORD) {
      for (String near : longWords.getOrDefault(word.substring(0, 1), List.of())) {
        if (Math.abs(near.length() - word.length()) <= 1 && Nearest.edits(word, near) == 1) {
          return known(near);
        }
      }
    }
    return atoms;
  }

  private BitSet known(String word) {
    BitSet atoms = new BitSet();
    or(atoms, whole.get(word));
    stemmed(word, atoms);
    for (int at = 0; at < word.length(); at++) {
      if (!ends.isEmpty()) {
        or(atoms, ends.get(word.substring(at)));
      }
      or(atoms, beginnings.get(word.substring(0, at + 1)));
      if (!middles.isEmpty()) {
        for (int end = at + 3; end <= word.length(); end++) {
          or(atoms, middles.get(word.substring(at, end)));
        }
      }
    }
    return atoms;
  }

  /**
   * Adds the atoms of the words of this stem. A stem is asked for far less often than there are
   * words, so only those that begin alike are stemmed. The stemmer has a state of its own.
   */
  private synchronized void stemmed(String word, BitSet atoms) {
    List<Unstemmed> alike = unstemmed.remove(head(word));
    if (alike != null) {
      alike.forEach(each -> put(stems, stem(each.word()), each.atom()));
    }
    or(atoms, stems.get(stem(word)));
  }

  private static void or(BitSet into, @Nullable BitSet more) {
    if (more != null) {
      into.or(more);
    }
  }

  // It makes "hard" of "hardly", which says the contrary.
  private String stem(String word) {
    if (word.endsWith("ly")) {
      return word;
    }
    stemmer.setCurrent(word);
    stemmer.stem();
    return stemmer.getCurrent();
  }
}
