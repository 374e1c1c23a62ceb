package firmlever.vocabulary;

import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Fields;
import firmlever.document.Nearest;
import firmlever.document.Shape;
import java.text.Normalizer;
import java.util.Arrays;
import java.util.Collection;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Words of the trade that name something of the vocabulary by another word: {@code bleed} for
 * {@code full-bleed}. They are guesses to be shown, and decide nothing. Common practice.
 */
public final class TradeWords {
  private static final String FILE = "trade-words.json";

  /** What a word can name. */
  public enum Kind {
    SYMPTOM("a symptom"),
    WORK("a work"),
    EVENT("an event"),
    PART("a part"),
    OUTCOME("an outcome"),
    CAUSE("a cause"),
    FLUID("a fluid");

    private final String spoken;

    Kind(String spoken) {
      this.spoken = spoken;
    }

    /** Its name with the article. */
    public String spoken() {
      return spoken;
    }

    private String section() {
      return name().toLowerCase(Locale.ROOT) + "s";
    }
  }

  private final Vocabulary vocabulary;
  private final Map<String, Map<Kind, List<String>>> meanings = new LinkedHashMap<>();

  private TradeWords(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    for (Fields entry : VocabularyReader.document(FILE, shape(vocabulary)).objects("trade-words")) {
      Map<Kind, List<String>> means = new EnumMap<>(Kind.class);
      for (Kind kind : Kind.values()) {
        if (entry.has(kind.section())) {
          means.put(kind, entry.texts(kind.section()));
        }
      }
      entry.texts("said").forEach(said -> meanings.put(plain(said), means));
    }
  }

  /** Reads the words built into the program; only an error or a search needs them. */
  public static TradeWords of(Vocabulary vocabulary) {
    return new TradeWords(vocabulary);
  }

  private static Shape shape(Vocabulary vocabulary) {
    Shape.Fields entry = Shape.object().needs("said", list(1, text(80)), "the words of the trade");
    for (Kind kind : Kind.values()) {
      // Which fluids there are is known to the case format, a floor above.
      Shape id = kind == Kind.FLUID ? text(20) : oneOf(kind.spoken(), ids(vocabulary, kind));
      entry.may(kind.section(), list(1, id), "what they mean of this kind");
    }
    return Shape.object()
        .needs("format", oneOf("a format", List.of(VocabularyReader.FORMAT)), "the format")
        .needs("trade-words", list(1, entry), "the words");
  }

  private static Collection<String> ids(Vocabulary vocabulary, Kind kind) {
    return switch (kind) {
      case SYMPTOM -> vocabulary.symptomWords();
      case WORK -> vocabulary.recordedWorks();
      case EVENT -> vocabulary.events().keySet();
      case PART -> vocabulary.parts().keySet();
      case OUTCOME -> vocabulary.outcomes().keySet();
      case CAUSE -> vocabulary.causes().keySet();
      case FLUID -> List.of();
    };
  }

  /** Accents are left out where a shop is in a hurry. */
  private static String plain(String said) {
    return Normalizer.normalize(Nearest.plain(said), Normalizer.Form.NFD).replaceAll("\\p{M}", "");
  }

  /** What the words mean, by kind; empty where they are no words of the trade. */
  public Map<Kind, List<String>> meaning(String said) {
    return meanings.getOrDefault(plain(said), Map.of());
  }

  /** The one name of a kind that was surely meant: itself, its spoken name, or a trade word. */
  public Optional<String> one(String said, Kind kind, Collection<String> known) {
    List<String> all = surely(said, kind, known);
    return all.size() == 1 ? Optional.of(all.get(0)) : Optional.empty();
  }

  private List<String> surely(String said, Kind kind, Collection<String> known) {
    String plain = Nearest.plain(said);
    if (known.contains(plain)) {
      return List.of(plain);
    }
    String named = names(kind).get(plain);
    if (named != null && known.contains(named)) {
      return List.of(named);
    }
    return meaning(said).getOrDefault(kind, List.of()).stream().filter(known::contains).toList();
  }

  /**
   * A suggestion for a name that is not known where it stands: by the words of the trade, by what
   * it names elsewhere, by likeness to ids and spoken names; a list of what is known where that is
   * short, else where to look it up.
   *
   * @param kind what ought to be named
   * @param known the ids that may stand there
   */
  public String maybe(String given, Kind kind, Collection<String> known) {
    List<String> meant = surely(given, kind, known);
    Optional<Kind> other = elsewhere(given, kind);
    if (other.isPresent()) {
      return "That is "
          + other.get().spoken()
          + ", not "
          + kind.spoken()
          + ("." + (meant.isEmpty() ? "" : " Maybe " + either(meant) + " was meant."));
    }
    if (!meant.isEmpty()) {
      return "Maybe " + either(meant) + " was meant.";
    }
    Optional<String> near = Nearest.to(given, known);
    Map<String, String> names = names(kind);
    Optional<String> named = Nearest.to(given, names.keySet()).map(names::get);
    Optional<String> best = near.or(() -> named.filter(known::contains));
    if (best.isPresent()) {
      return "Maybe \"" + best.get() + "\" was meant.";
    }
    String list = Nearest.maybe(given, known);
    return list.isEmpty() ? "Maybe look it up: firmlever words lists them." : list;
  }

  /** The other kind of thing that the word names; a cause is one even where it also hints. */
  private Optional<Kind> elsewhere(String given, Kind kind) {
    String plain = Nearest.plain(given);
    if (ids(vocabulary, kind).contains(plain) || names(kind).containsKey(plain)) {
      return Optional.empty();
    }
    Map<Kind, List<String>> means = meaning(given);
    if (kind == Kind.SYMPTOM && means.containsKey(Kind.CAUSE)) {
      return Optional.of(Kind.CAUSE);
    }
    if (means.containsKey(kind)) {
      return Optional.empty();
    }
    return Arrays.stream(Kind.values())
        .filter(each -> each != kind)
        .filter(
            each ->
                means.containsKey(each)
                    || ids(vocabulary, each).contains(plain)
                    || names(each).containsKey(plain))
        .findFirst();
  }

  /** Ids by spoken name, written as ids are. */
  private Map<String, String> names(Kind kind) {
    Map<String, String> names = new LinkedHashMap<>();
    switch (kind) {
      case SYMPTOM ->
          vocabulary
              .symptoms()
              .values()
              .forEach(
                  each -> {
                    names.put(Nearest.plain(each.name()), each.id());
                    each.opposite().ifPresent(o -> names.put(Nearest.plain(o.name()), o.id()));
                  });
      case WORK -> {
        vocabulary.actions().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
        vocabulary.works().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
      }
      case CAUSE ->
          vocabulary.causes().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
      case EVENT ->
          vocabulary.events().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
      case PART ->
          vocabulary.parts().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
      case OUTCOME ->
          vocabulary.outcomes().values().forEach(e -> names.put(Nearest.plain(e.name()), e.id()));
      case FLUID -> {}
    }
    return names;
  }

  private static String either(List<String> ids) {
    List<String> quoted = ids.stream().map(id -> "\"" + id + "\"").toList();
    return quoted.size() == 1
        ? quoted.get(0)
        : quoted.stream().limit(quoted.size() - 1L).collect(Collectors.joining(", "))
            + " or "
            + quoted.get(quoted.size() - 1);
  }
}
