package firmlever.interview;

import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Fields;
import firmlever.document.Shape;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.lucene.analysis.Analyzer;
import org.apache.lucene.analysis.LowerCaseFilter;
import org.apache.lucene.analysis.TokenStream;
import org.apache.lucene.analysis.Tokenizer;
import org.apache.lucene.analysis.en.PorterStemFilter;
import org.apache.lucene.analysis.standard.StandardTokenizer;
import org.apache.lucene.analysis.tokenattributes.CharTermAttribute;
import org.apache.lucene.analysis.tokenattributes.OffsetAttribute;

/**
 * Hears symptoms in a customer's words. What it hears is a suggestion: a person confirms it, and
 * the text itself decides nothing.
 */
public final class Listener {
  /** Words of the text that may stand between two words of a phrase. */
  private static final int BETWEEN = 2;

  /** A "not" this many words before a phrase denies it. */
  private static final int DENIES = 3;

  private static final String NOT = "not";

  /** Words that deny; those ending in n't do as well. */
  private static final Set<String> DENYING =
      Set.of("no", "not", "never", "without", "cannot", "nor", "neither", "none");

  /** Words that say too little to be matched. */
  private static final Set<String> SILENT =
      Set.of(
          "a", "an", "the", "is", "are", "was", "be", "been", "my", "his", "her", "it", "its",
          "this", "that", "to", "of", "does", "do", "did", "will", "has", "have", "had", "i",
          "very", "really", "quite", "bit", "so", "just", "too");

  /** After these, a denial reaches no further. */
  private static final Set<String> TURNING = Set.of("but", "and", "then", "yet", "however", "now");

  private final Analyzer words = new Words();
  private final List<Phrase> phrases = new ArrayList<>();
  private final Map<String, String> opposites;

  private record Phrase(String symptom, List<String> stems) {}

  /**
   * One word of a text.
   *
   * @param stretch number of the stretch between two signs, within which phrases are looked for
   * @param clause the same, with a "but" as a sign too: one clause speaks of one wheel
   * @param turns whether it ends the reach of a denial
   */
  private record Spoken(String stem, int start, int end, int stretch, int clause, boolean turns) {}

  /**
   * A symptom heard.
   *
   * @param present whether it was said to be there; otherwise it was denied
   * @param words the words it was heard in
   */
  public record Heard(String symptom, boolean present, String words) {}

  /**
   * All that was heard.
   *
   * @param elsewhere what was said of the other wheel's brake
   * @param wheel {@code front} or {@code rear} where the words name just one; empty otherwise
   */
  public record Result(List<Heard> heard, List<Heard> elsewhere, String wheel) {}

  /** Reads the synonyms built into the program. */
  public Listener(Vocabulary vocabulary) {
    Shape entry =
        Shape.object()
            .needs("id", oneOf("a symptom", vocabulary.symptomWords()), "the symptom")
            .needs("phrases", list(3, text(80)), "how customers say it");
    opposites = vocabulary.opposites();
    for (Fields each : VocabularyReader.entries("synonyms.json", entry, "synonyms")) {
      List<String> all = new ArrayList<>(each.texts("phrases"));
      if (!opposites.containsKey(each.text("id"))) {
        all.add(vocabulary.symptoms().get(each.text("id")).name());
      }
      for (String phrase : all) {
        List<String> stems = spoken(phrase).stream().map(Spoken::stem).distinct().toList();
        phrases.add(new Phrase(each.text("id"), stems));
      }
    }
    phrases.sort(
        Comparator.comparingInt((Phrase p) -> -p.stems().size()).thenComparing(Phrase::symptom));
  }

  /**
   * Listens to a text.
   *
   * @param position wheel of the brake in question: {@code front}, {@code rear} or {@code unknown}
   */
  public Result listen(String text, String position) {
    List<Spoken> spoken = spoken(text);
    Map<Integer, Set<String>> wheels = wheels(spoken);
    Set<String> named = new java.util.TreeSet<>();
    wheels.values().forEach(named::addAll);
    boolean[] taken = new boolean[spoken.size()];
    Map<Integer, Heard> here = new TreeMap<>();
    Map<Integer, Heard> elsewhere = new TreeMap<>();
    for (Phrase phrase : phrases) {
      for (int at = 0; at < spoken.size(); at++) {
        int[] match = match(spoken, taken, phrase.stems(), at);
        if (match.length == 0) {
          continue;
        }
        boolean inPhrase = phrase.stems().contains(NOT);
        boolean denied = !inPhrase && denied(spoken, taken, match);
        int last = match[match.length - 1];
        boolean turned = opposites.containsKey(phrase.symptom());
        Heard heard =
            new Heard(
                opposites.getOrDefault(phrase.symptom(), phrase.symptom()),
                denied == turned,
                text.substring(spoken.get(match[0]).start(), spoken.get(last).end()));
        for (int each : match) {
          taken[each] = true;
        }
        Set<String> wheel = wheels.getOrDefault(spoken.get(at).clause(), Set.of());
        boolean other =
            wheel.size() == 1 && !position.equals("unknown") && !wheel.contains(position);
        (other ? elsewhere : here).put(at, heard);
      }
    }
    return new Result(
        once(here), once(elsewhere), named.size() == 1 ? named.iterator().next() : "");
  }

  /** The first word on a symptom counts where several speak of it. */
  private static List<Heard> once(Map<Integer, Heard> heard) {
    Map<String, Heard> first = new LinkedHashMap<>();
    heard.values().forEach(each -> first.putIfAbsent(each.symptom(), each));
    return List.copyOf(first.values());
  }

  /**
   * Places of the phrase's words, from {@code from} on, in any order; empty where it is not said.
   */
  private static int[] match(List<Spoken> spoken, boolean[] taken, List<String> stems, int from) {
    Spoken first = spoken.get(from);
    if (taken[from] || !stems.contains(first.stem())) {
      return new int[0];
    }
    List<String> left = new ArrayList<>(stems);
    List<Integer> places = new ArrayList<>();
    int skipped = 0;
    for (int at = from; at < spoken.size() && !left.isEmpty(); at++) {
      Spoken word = spoken.get(at);
      if (word.stretch() != first.stretch() || skipped > BETWEEN) {
        return new int[0];
      }
      if (!taken[at] && left.remove(word.stem())) {
        places.add(at);
      } else {
        skipped++;
        // "firm, not spongy" must not be heard as one thing.
        if (word.stem().equals(NOT)) {
          return new int[0];
        }
      }
    }
    return left.isEmpty() ? places.stream().mapToInt(Integer::intValue).toArray() : new int[0];
  }

  private static boolean denied(List<Spoken> spoken, boolean[] taken, int[] match) {
    for (int back = 1; back <= DENIES && match[0] - back >= 0; back++) {
      Spoken word = spoken.get(match[0] - back);
      if (word.clause() != spoken.get(match[0]).clause() || word.turns()) {
        return false;
      }
      if (word.stem().equals(NOT)) {
        return !taken[match[0] - back];
      }
    }
    return false;
  }

  /** The wheels named, by clause; a clause that names none belongs with the one before it. */
  private static Map<Integer, Set<String>> wheels(List<Spoken> spoken) {
    Map<Integer, Set<String>> wheels = new TreeMap<>();
    for (int at = 0; at < spoken.size(); at++) {
      String word = spoken.get(at).stem();
      String next = at + 1 < spoken.size() ? spoken.get(at + 1).stem() : "";
      String wheel =
          word.equals("front")
              ? "front"
              : word.equals("rear")
                      || word.equals("back") && Set.of("brake", "wheel", "on").contains(next)
                  ? "rear"
                  : "";
      if (!wheel.isEmpty()) {
        wheels.computeIfAbsent(spoken.get(at).clause(), c -> new java.util.TreeSet<>()).add(wheel);
      }
    }
    int clause = -1;
    Set<String> before = Set.of();
    for (Spoken word : spoken) {
      if (word.clause() != clause) {
        clause = word.clause();
        if (wheels.containsKey(clause)) {
          before = wheels.get(clause);
        } else if (!before.isEmpty()) {
          wheels.put(clause, before);
        }
      }
    }
    return wheels;
  }

  private List<Spoken> spoken(String text) {
    List<Spoken> spoken = new ArrayList<>();
    int clause = 0;
    int stretch = 0;
    int read = 0;
    // The tokenizer knows the straight apostrophe, people type both.
    String plain = text.replace('’', '\'');
    try (TokenStream stream = words.tokenStream("complaint", new StringReader(plain))) {
      CharTermAttribute term = stream.addAttribute(CharTermAttribute.class);
      OffsetAttribute offset = stream.addAttribute(OffsetAttribute.class);
      stream.reset();
      while (stream.incrementToken()) {
        String between = plain.substring(read, offset.startOffset());
        read = offset.endOffset();
        String word =
            plain.substring(offset.startOffset(), read).toLowerCase(java.util.Locale.ROOT);
        boolean sign = between.matches("(?s).*([.!?;\n,:()–—]| - ).*");
        stretch += sign ? 1 : 0;
        clause += sign || word.equals("but") ? 1 : 0;
        boolean denies = DENYING.contains(word) || word.endsWith("n't");
        if (denies || !SILENT.contains(word)) {
          spoken.add(
              new Spoken(
                  denies ? NOT : term.toString(),
                  offset.startOffset(),
                  read,
                  stretch,
                  clause,
                  TURNING.contains(word)));
        }
      }
      stream.end();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return spoken;
  }

  /** Splits at word boundaries, folds case and brings English words to their stems. */
  private static final class Words extends Analyzer {
    @Override
    protected TokenStreamComponents createComponents(String field) {
      Tokenizer tokenizer = new StandardTokenizer();
      return new TokenStreamComponents(
          tokenizer, new PorterStemFilter(new LowerCaseFilter(tokenizer)));
    }
  }
}
