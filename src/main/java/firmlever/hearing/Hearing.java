package firmlever.hearing;

import firmlever.document.Limit;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Wheel;
import firmlever.hearing.Leaks.Said;
import firmlever.hearing.language.Certainty;
import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Language;
import firmlever.hearing.language.Language.Topic;
import firmlever.hearing.language.LanguageReader;
import firmlever.hearing.language.Pattern.Match;
import firmlever.hearing.language.Selection;
import firmlever.hearing.language.Selection.Chosen;
import firmlever.hearing.language.Signs.Window;
import firmlever.hearing.language.Word;
import firmlever.hearing.language.Words;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Predicate;
import java.util.stream.IntStream;

/**
 * Hears symptoms, works and events in a customer's words. What it hears is what the words say and
 * no more: a guess at the cause is no finding, a wish is no work. Safe for many threads; a language
 * is read when a text first needs it.
 */
public final class Hearing {
  static final List<String> LANGUAGES = List.of("en", "de", "fr");

  /** A text less known than this is in none of the languages. */
  private static final double LEAST_KNOWN = 0.5;

  /** A text so well known in one language is not tried in the next. */
  private static final double WELL_KNOWN = 0.9;

  private final List<String> spoken;
  private final boolean practised;
  private final Map<String, Language> languages = new ConcurrentHashMap<>();
  private final Map<String, Ear> ears = new ConcurrentHashMap<>();

  /** Listens in English, German and French; the text decides. */
  public Hearing() {
    this(LANGUAGES);
  }

  /**
   * Listens in some of the languages only.
   *
   * @param spoken out of {@code en}, {@code de} and {@code fr}
   */
  public Hearing(List<String> spoken) {
    this(spoken, true);
  }

  private Hearing(List<String> spoken, boolean practised) {
    if (!LANGUAGES.containsAll(spoken) || spoken.isEmpty()) {
      throw new IllegalArgumentException("languages are en, de and fr, not " + spoken);
    }
    this.spoken = List.copyOf(spoken);
    this.practised = practised;
  }

  /** Listens with the patterns alone, as what is learned from them must. */
  static Hearing byPatternsAlone() {
    return new Hearing(LANGUAGES, false);
  }

  /** Whether a text names the customer, or somebody near him outside a workshop. */
  public boolean namesOwner(String text) {
    String plain = plain(text);
    return language(plain).stream()
        .flatMap(language -> Words.of(plain, language).stream())
        .anyMatch(Grammar.OWNER::in);
  }

  /**
   * Hears a text.
   *
   * @param position wheel of the brake in question: {@code front}, {@code rear}, or anything else
   *     where it is not known or both are meant
   * @param today the day the text was written, which times in it are counted from
   */
  public Heard hear(String text, String position, LocalDate today) {
    boolean cut = text.length() > Limit.HEARD_LETTERS.most();
    String plain = plain(cut ? text.substring(0, Limit.HEARD_LETTERS.most()) : text);
    Optional<Language> language = language(plain);
    if (language.isEmpty()) {
      return new Heard(
          List.of(),
          List.of(),
          List.of(),
          Wheel.UNKNOWN,
          plain.isBlank() ? List.of() : List.of(plain.strip()),
          Optional.empty(),
          cut);
    }
    List<Word> words = Words.of(plain, language.get());
    List<Chosen> chosen = Selection.of(words, language.get(), found -> Leaks.torn(found, words));
    Stance stance = new Stance(plain, words, language.get(), chosen);
    Wheels wheels = new Wheels(words);
    List<Said> said = new ArrayList<>();
    for (Chosen each : chosen) {
      if (each.is(Topic.SYMPTOM)) {
        finding(plain, words, stance, each).ifPresent(f -> said.add(new Said(each, f)));
      }
    }
    Leaks leaks = new Leaks(words, said);
    List<Finding> here = new ArrayList<>();
    List<Finding> other = new ArrayList<>();
    BitSet heard = new BitSet();
    for (Said each : said) {
      if (!leaks.misheard(each)) {
        Match match = each.chosen().match();
        hears(words, match, heard);
        // Both brakes alike is said of this brake, whichever wheel is named.
        boolean alike = each.finding().symptom().equals("both-brakes");
        boolean elsewhere = !alike && isOther(wheels.of(match.first()), position);
        (elsewhere ? other : here).add(each.finding());
      }
    }
    Predicate<Window> ofOther =
        window ->
            IntStream.range(window.first(), window.end())
                .allMatch(word -> isOther(wheels.of(word), position));
    Set<String> settled = new HashSet<>();
    chosen.stream()
        .filter(each -> !leaks.isDenial(each))
        .forEach(c -> settled.add(c.meaning().id()));
    Practice practice =
        new Practice(
            plain,
            words,
            likely(words, language.get(), leaks::denies),
            settled,
            ofOther,
            window -> stance.doubted(window.first(), window.end() - 1));
    List<Finding> byPattern = once(here);
    List<Finding> findings = practice.findings(byPattern);
    findings.stream()
        .filter(each -> byPattern.stream().noneMatch(b -> b.symptom().equals(each.symptom())))
        .forEach(each -> hears(words, each.start(), each.end(), heard));
    TimeWords times = new TimeWords(words, language.get(), today);
    // What was done to the other brake is no record of this one; what befell the bike is.
    List<Chosen> done =
        chosen.stream()
            .filter(c -> !c.is(Topic.WORK) || !isOther(wheels.of(c.match().first()), position))
            .toList();
    Past past = new Past(plain, words, times, stance);
    past.matches(done).forEach(each -> hears(words, each, heard));
    List<Heard.Told> told = past.told(done);
    List<Heard.Told> history = practice.history(told, past);
    history.stream()
        .filter(each -> !told.contains(each))
        .forEach(each -> hears(words, each.start(), each.end(), heard));
    return new Heard(
        Heat.settled(Leaks.settled(findings)),
        once(other),
        history,
        wheels.whole(),
        unheard(plain, words, heard),
        Optional.of(language.get().code()),
        cut);
  }

  /** Marks the clauses of a match, and none that only lies between two of its words. */
  private static void hears(List<Word> words, Match match, BitSet heard) {
    match.words().forEach(word -> heard.set(words.get(word).clause()));
  }

  private static void hears(List<Word> words, int start, int end, BitSet heard) {
    words.stream()
        .filter(w -> w.start() >= start && w.end() <= end)
        .forEach(w -> heard.set(w.clause()));
  }

  private static boolean isOther(Wheel wheel, String position) {
    boolean known = position.equals("front") || position.equals("rear");
    return known
        && (wheel == Wheel.FRONT || wheel == Wheel.REAR)
        && !wheel.name().toLowerCase(Locale.ROOT).equals(position);
  }

  private static Optional<Finding> finding(
      String text, List<Word> words, Stance stance, Chosen each) {
    int start = words.get(each.match().first()).start();
    int end = words.get(each.match().last()).end();
    return stance
        .certainty(each.meaning().certainty(), each.match())
        .map(
            certainty ->
                new Finding(
                    each.meaning().id(), certainty, text.substring(start, end), start, end));
  }

  /** Each symptom once: what is certain before what is not, and what is said last before that. */
  private static List<Finding> once(List<Finding> findings) {
    Map<String, Finding> kept = new LinkedHashMap<>();
    for (Finding each : findings) {
      kept.merge(each.symptom(), each, Hearing::counts);
    }
    return List.copyOf(kept.values());
  }

  private static Finding counts(Finding a, Finding b) {
    if (Leaks.surer(b, a)) {
      return b;
    }
    return b.certainty() == Certainty.UNSURE || Leaks.surer(a, b) ? a : b;
  }

  private static List<String> unheard(String text, List<Word> words, BitSet heard) {
    List<String> unheard = new ArrayList<>();
    for (int at = 0; at < words.size(); ) {
      int end = at;
      while (end < words.size() && words.get(end).clause() == words.get(at).clause()) {
        end++;
      }
      if (!heard.get(words.get(at).clause())) {
        unheard.add(text.substring(words.get(at).start(), words.get(end - 1).end()));
      }
      at = end;
    }
    return unheard;
  }

  /** Signs that cannot be seen become spaces, so that offsets stay. */
  private static String plain(String text) {
    StringBuilder out = new StringBuilder(text);
    for (int at = 0; at < out.length(); at++) {
      char letter = out.charAt(at);
      if (Character.isISOControl(letter) && letter != '\n' && letter != '\r'
          || Character.getType(letter) == Character.FORMAT) {
        out.setCharAt(at, ' ');
      }
    }
    return out.toString();
  }

  /**
   * The language most of whose words are in the text; empty where too few are of any. Languages
   * after one that is sure are not even read.
   */
  private Optional<Language> language(String text) {
    Language best = null;
    double most = 0;
    for (String code : spoken) {
      Language language = of(code);
      double known = share(text, language);
      if (known > most && known >= LEAST_KNOWN) {
        most = known;
        best = language;
      }
      if (known > WELL_KNOWN && !foreign(text, language)) {
        break;
      }
    }
    return Optional.ofNullable(best);
  }

  private static boolean foreign(String text, Language language) {
    return Words.pieces(text, language.german(), language.elides()).stream()
        .anyMatch(piece -> language.foreign().contains(piece.plain()));
  }

  /**
   * How well a language is known by its words, 0 to 1.5: the share of them that are known, and half
   * the share of those that only make up sentences, which tell a language more surely than trade
   * words do.
   */
  private static double share(String text, Language language) {
    int known = 0;
    int small = 0;
    int all = 0;
    for (Words.Piece piece : Words.pieces(text, language.german(), language.elides())) {
      if (Character.isLetter(piece.plain().charAt(0))) {
        BitSet atoms = language.lexicon().atoms(piece.plain());
        known += atoms.isEmpty() ? 0 : 1;
        small += atoms.get(Grammar.FILLER.ordinal()) ? 1 : 0;
        all++;
      }
    }
    return all == 0 ? 0 : (known + small / 2.0) / all;
  }

  /** Begins to read the first language on another thread: it takes as long as a rule base. */
  public Hearing ahead() {
    Thread reading = new Thread(() -> ear(of(spoken.get(0))), "hearing");
    reading.setDaemon(true);
    reading.start();
    return this;
  }

  private Language of(String code) {
    return languages.computeIfAbsent(code, LanguageReader::read);
  }

  private List<Ear.Likely> likely(
      List<Word> words, Language language, Predicate<Window> deniesLeak) {
    return practised
        ? ear(language).hear(words, language.lexicon(), Practice.CLEAR, deniesLeak)
        : List.of();
  }

  private Ear ear(Language language) {
    return ears.computeIfAbsent(language.code(), Ear::of);
  }
}
