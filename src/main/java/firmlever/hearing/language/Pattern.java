package firmlever.hearing.language;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Words that say something when they stand close together.
 *
 * <p>Its text is a row of elements: classes in capitals, single words in small letters, choices
 * with {@code |}. They may stand in any order; {@code >} in front keeps them in theirs. At most
 * {@link #GAP} telling words may stand between two of them, or as many as {@code /n} at the end
 * says. An element in brackets is needed but left free for other patterns; {@code X?} may be
 * missing; {@code !X} must not stand near the match in its clauses; after {@code ..} the rest may
 * follow at a distance, in the next sentence too.
 */
public final class Pattern {
  static final int GAP = 3;

  /** So many words further on, the part after {@code ..} is still looked for. */
  private static final int FAR = 24;

  /** What a pattern asks about classes while it is read. */
  interface Classes {
    /** The atom of a class, or of a word named by itself. */
    int atom(String name);

    /** Whether words of the class may serve several patterns. */
    boolean shared(String name);

    /** Whether words of the class deny. */
    boolean denies(String name);
  }

  /** So many words before and after a match, what must not be there is looked for. */
  private static final int NEARBY = 7;

  /** Words looked at on either side, those that say little among them. */
  private static final int WINDOW = 16;

  private record Element(int[] atoms, boolean free, boolean denial, boolean spends) {
    boolean matches(Word word) {
      for (int atom : atoms) {
        if (word.is(atom)) {
          return true;
        }
      }
      return false;
    }
  }

  private final String text;
  private final boolean ordered;
  private final int reach;
  private final List<List<Element>> parts = new ArrayList<>();
  private final List<Element> forbidden = new ArrayList<>();

  /**
   * Where a pattern was found.
   *
   * @param words places of its words in the list of words, growing
   * @param claimed those of them no other pattern may use
   * @param denials those of them that deny, as part of the pattern
   */
  public record Match(List<Integer> words, List<Integer> claimed, List<Integer> denials) {
    public int first() {
      return words.get(0);
    }

    public int last() {
      return words.get(words.size() - 1);
    }
  }

  /**
   * Reads a pattern.
   *
   * @throws IllegalArgumentException where it names a class there is none of, or has no element
   */
  Pattern(String text, Classes classes) {
    this.text = text;
    String rest = text.strip();
    this.ordered = rest.startsWith(">");
    rest = ordered ? rest.substring(1).strip() : rest;
    int gap = GAP;
    int slash = rest.lastIndexOf('/');
    if (slash > 0) {
      gap = Integer.parseInt(rest.substring(slash + 1).strip());
      rest = rest.substring(0, slash).strip();
    }
    this.reach = gap + 1;
    List<Element> part = new ArrayList<>();
    for (String each : Letters.split(rest, ' ')) {
      if (each.equals("..")) {
        parts.add(part);
        part = new ArrayList<>();
      } else if (each.startsWith("!")) {
        forbidden.add(element(each.substring(1), true, classes));
      } else if (each.startsWith("(") && each.endsWith(")")) {
        part.add(element(each.substring(1, each.length() - 1), true, classes));
      } else {
        part.add(element(each, false, classes));
      }
    }
    parts.add(part);
    boolean empty = false;
    for (List<Element> each : parts) {
      empty |= each.isEmpty();
    }
    if (empty) {
      throw new IllegalArgumentException("the pattern \"" + text + "\" has an empty part");
    }
  }

  private static Element element(String text, boolean free, Classes classes) {
    List<String> choices = Letters.split(text, '|');
    int[] atoms = new int[choices.size()];
    boolean shared = true;
    boolean denial = false;
    for (int i = 0; i < choices.size(); i++) {
      atoms[i] = classes.atom(choices.get(i));
      shared &= classes.shared(choices.get(i));
      denial |= classes.denies(choices.get(i));
    }
    return new Element(atoms, free || shared, denial, denial && !free);
  }

  /** The atoms one of which must stand in a text for this pattern to be found in it. */
  int[] anchors() {
    return anchor().atoms();
  }

  private Element anchor() {
    List<Element> first = parts.get(0);
    if (ordered) {
      return first.get(0);
    }
    for (Element each : first) {
      if (!each.free() && !each.denial()) {
        return each;
      }
    }
    return first.get(0);
  }

  /** How much it asks for: the more, the sooner it is believed. */
  int weight() {
    int weight = 0;
    for (List<Element> part : parts) {
      for (Element each : part) {
        weight += each.free() ? 3 : 5;
      }
    }
    return weight;
  }

  /** Whether a text whose words have these atoms between them can hold the pattern at all. */
  boolean possible(BitSet atoms) {
    for (List<Element> part : parts) {
      for (Element element : part) {
        boolean there = false;
        for (int atom : element.atoms()) {
          there |= atoms.get(atom);
        }
        if (!there) {
          return false;
        }
      }
    }
    return true;
  }

  /** The pattern as far as it is found with its anchor at word {@code at}, if it is. */
  Optional<Match> at(List<Word> words, int at) {
    List<Integer> found = new ArrayList<>();
    List<Integer> claimed = new ArrayList<>();
    List<Integer> denials = new ArrayList<>();
    int[] places = place(words, parts.get(0), anchor(), at);
    for (int i = 0; places != null; i++) {
      for (int e = 0; e < places.length; e++) {
        Element element = parts.get(i).get(e);
        found.add(places[e]);
        if (!element.free()) {
          claimed.add(places[e]);
        }
        if (element.spends()) {
          denials.add(places[e]);
        }
      }
      if (i + 1 == parts.size()) {
        found.sort(null);
        return allowed(words, found)
            ? Optional.of(new Match(found, claimed, denials))
            : Optional.empty();
      }
      places = later(words, parts.get(i + 1), found);
    }
    return Optional.empty();
  }

  private int @Nullable [] later(List<Word> words, List<Element> part, List<Integer> found) {
    int last = found.stream().max(Integer::compare).orElseThrow();
    for (int at = last + 1; at < words.size() && at <= last + FAR; at++) {
      if (words.get(at).sentence() > words.get(last).sentence() + 1) {
        return null;
      }
      if (part.get(0).matches(words.get(at))) {
        int[] places = place(words, part, part.get(0), at);
        if (places != null && java.util.Arrays.stream(places).allMatch(p -> p > last)) {
          return places;
        }
      }
    }
    return null;
  }

  /** Places of the elements of a part around its anchor; null where one is missing. */
  private int @Nullable [] place(List<Word> words, List<Element> part, Element anchor, int at) {
    int[] places = new int[part.size()];
    java.util.Arrays.fill(places, -1);
    places[part.indexOf(anchor)] = at;
    int low = at;
    int high = at;
    for (int left = part.size() - 1; left > 0; left--) {
      int best = -1;
      int bestAt = -1;
      int nearest = Integer.MAX_VALUE;
      for (int e = 0; e < places.length; e++) {
        if (places[e] >= 0) {
          continue;
        }
        int to = Math.min(words.size() - 1, high + WINDOW);
        int from = ordered ? high + 1 : Math.max(0, low - WINDOW);
        for (int w = from; w <= to; w++) {
          int distance = distance(words, low, high, w);
          if (distance <= reach
              && distance < nearest
              && part.get(e).matches(words.get(w))
              && free(places, w)
              && (!anchor.denial() || reached(words, at, w, places))
              && denies(words, part.get(e), low, high, w, places)) {
            nearest = distance;
            best = e;
            bestAt = w;
          }
        }
        if (ordered) {
          break;
        }
      }
      if (best < 0) {
        return null;
      }
      places[best] = bestAt;
      low = Math.min(low, bestAt);
      high = Math.max(high, bestAt);
    }
    return places;
  }

  private static boolean free(int[] places, int word) {
    for (int place : places) {
      if (place == word) {
        return false;
      }
    }
    return true;
  }

  private static int distance(List<Word> words, int low, int high, int at) {
    int place = words.get(at).place();
    if (at < low) {
      return words.get(low).place() - place;
    }
    return at > high ? place - words.get(high).place() : 0;
  }

  /** Whether a denial may speak of what stands between these words. */
  private static boolean denies(
      List<Word> words, Element element, int low, int high, int at, int[] places) {
    return !element.denial() || reached(words, at, low, places) || reached(words, at, high, places);
  }

  /** A denial speaks of its own clause only, and not past an "and" that is no part of the match. */
  private static boolean reached(List<Word> words, int denial, int at, int[] places) {
    if (words.get(denial).clause() != words.get(at).clause()) {
      return false;
    }
    for (int between = Math.min(denial, at) + 1; between < Math.max(denial, at); between++) {
      if (Grammar.JOIN.in(words.get(between)) && free(places, between)) {
        return false;
      }
    }
    return true;
  }

  private boolean allowed(List<Word> words, List<Integer> found) {
    if (forbidden.isEmpty()) {
      return true;
    }
    int first = found.get(0);
    int last = found.get(found.size() - 1);
    int to = Math.min(words.size() - 1, last + NEARBY);
    for (int at = Math.max(0, first - NEARBY); at <= to; at++) {
      Word word = words.get(at);
      if (word.clause() >= words.get(first).clause()
          && word.clause() <= words.get(last).clause()
          && forbidden.stream().anyMatch(element -> element.matches(word))) {
        return false;
      }
    }
    return true;
  }

  @Override
  public String toString() {
    return text;
  }
}
