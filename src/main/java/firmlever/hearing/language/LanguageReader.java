package firmlever.hearing.language;

import static firmlever.document.Shape.list;
import static firmlever.document.Shape.number;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;
import static firmlever.document.Shape.whole;

import firmlever.casefile.Fluid;
import firmlever.document.Fields;
import firmlever.document.Shape;
import firmlever.hearing.language.Language.Meaning;
import firmlever.hearing.language.Language.Measure;
import firmlever.hearing.language.Language.Topic;
import firmlever.hearing.language.Language.Unit;
import firmlever.hearing.language.Language.Value;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.tartarus.snowball.SnowballStemmer;
import org.tartarus.snowball.ext.EnglishStemmer;
import org.tartarus.snowball.ext.FrenchStemmer;
import org.tartarus.snowball.ext.GermanStemmer;

/**
 * Reads a language file out of {@code rules/vocabulary/hearing/}. It is part of the build, so it is
 * held to its shape when the build is tested and not at each start.
 */
public final class LanguageReader implements Pattern.Classes {
  private static final String FORMAT = "firmlever-hearing/1";

  private static final Shape CLASS =
      Shape.object()
          .needs("name", text(40), "its name, in capitals")
          .needs("words", text(8000), "its words, parted by spaces");

  private static final Shape TIME =
      Shape.object()
          .needs("counts", oneOf("a kind", lower(Unit.values())), "what the words count")
          .needs("number", whole(0, 1000), "days, a number, a weekday or a month")
          .needs("words", text(500), "the words, parted by spaces");

  private static final Shape MEASURE =
      Shape.object()
          .needs("name", text(40), "its name, in capitals")
          .may(
              "unit",
              text(200),
              "how the unit is written, parted by spaces; none where any will do")
          .may("from", number(-100, 1000), "least value of the class")
          .may("below", number(-100, 1000), "value from which on none is in the class");

  private final Lexicon lexicon;
  private final List<Measure> measures = new ArrayList<>();
  private final Set<String> classes = new HashSet<>();
  private final Set<String> shared = new HashSet<>();
  private final Map<Integer, Value> values = new HashMap<>();
  private final Map<Integer, List<Meaning>> meanings = new HashMap<>();

  private LanguageReader(Lexicon lexicon) {
    this.lexicon = lexicon;
  }

  private static List<String> lower(Enum<?>[] values) {
    return Arrays.stream(values).map(v -> v.name().toLowerCase(Locale.ROOT)).toList();
  }

  /** Reads the file of a language: {@code en}, {@code de} or {@code fr}. */
  public static Language read(String code) {
    boolean german = code.equals("de");
    boolean elides = code.equals("fr");
    SnowballStemmer stemmer =
        switch (code) {
          case "de" -> new GermanStemmer();
          case "fr" -> new FrenchStemmer();
          default -> new EnglishStemmer();
        };
    String file = "hearing/" + code + ".json";
    Fields fields = VocabularyReader.document(file);
    Lexicon lexicon = new Lexicon(stemmer, german, elides);
    try {
      LanguageReader reader = new LanguageReader(lexicon);
      reader.fill(fields);
      return new Language(
          code,
          german,
          elides,
          fields.whole("denial-before", 0),
          fields.whole("denial-after", 0),
          lexicon,
          reader.values,
          List.copyOf(reader.measures),
          Set.copyOf(Letters.split(fields.text("foreign", ""), ' ')),
          reader.meanings);
    } catch (IllegalArgumentException e) {
      throw new IllegalStateException(file + " of this build is wrong: " + e.getMessage(), e);
    }
  }

  /** What a language file must hold; a test holds the files of the build to it. */
  static Shape shape(Vocabulary vocabulary) {
    Shape patterns = list(1, text(300));
    return Shape.object()
        .needs("format", oneOf("a format", List.of(FORMAT)), "the format")
        .needs("denial-before", whole(0, 20), "telling words a denial reaches forward")
        .needs("denial-after", whole(0, 20), "telling words a denial reaches back")
        .may("foreign", text(1000), "words by which a text is of another language")
        .needs("shared", text(2000), "classes whose words may serve several patterns")
        .may("closed", text(2000), "classes whose joined words say nothing but the class")
        .needs("classes", list(1, CLASS), "the word classes")
        .needs("times", list(1, TIME), "the words of time")
        .may("measures", list(1, MEASURE), "classes of numbers with a unit")
        .needs(
            "symptoms",
            list(
                1,
                Shape.object()
                    .needs("id", oneOf("a symptom", vocabulary.symptomWords()), "its id")
                    .may("present", patterns, "patterns that claim it")
                    .may("absent", patterns, "patterns that deny it")
                    .may("unsure", patterns, "patterns that leave it open")),
            "the symptoms")
        .needs("works", said("a work", vocabulary.recordedWorks()), "the works")
        .needs("events", said("an event", vocabulary.events().keySet()), "the events")
        .needs("outcomes", said("an outcome", vocabulary.outcomes().keySet()), "the outcomes")
        .needs(
            "fluids",
            said("a fluid", Arrays.stream(Fluid.values()).map(Fluid::id).toList()),
            "the fluids");
  }

  private static Shape said(String what, Collection<String> ids) {
    return list(
        1,
        Shape.object()
            .needs("id", oneOf(what, ids), "its id")
            .needs("said", list(1, text(300)), "patterns that tell of it"));
  }

  private void fill(Fields fields) {
    for (Grammar each : Grammar.values()) {
      lexicon.atom(each.name());
      classes.add(each.name());
    }
    Set<String> closed = new HashSet<>(classes);
    closed.addAll(Letters.split(fields.text("closed", ""), ' '));
    for (Fields each : fields.objects("classes")) {
      String name = each.text("name");
      classes.add(name);
      words(lexicon.atom(name), each.text("words"), closed.contains(name));
    }
    for (Fields each : fields.objects("times")) {
      Unit unit = Unit.valueOf(each.text("counts").toUpperCase(Locale.ROOT));
      int atom = lexicon.atom(unit + "=" + each.whole("number", 0));
      values.put(atom, new Value(unit, each.whole("number", 0)));
      words(atom, each.text("words"), true);
    }
    for (Fields each : fields.objects("measures")) {
      classes.add(each.text("name"));
      measures.add(
          new Measure(
              lexicon.atom(each.text("name")),
              Set.copyOf(Letters.split(each.text("unit", ""), ' ')),
              each.has("from") ? each.number("from") : 0,
              each.has("below") ? each.number("below") : Double.POSITIVE_INFINITY));
    }
    shared.addAll(Letters.split(fields.text("shared"), ' '));
    for (Fields each : fields.objects("symptoms")) {
      for (Certainty certainty : Certainty.values()) {
        String field = certainty.name().toLowerCase(Locale.ROOT);
        if (each.has(field)) {
          each.texts(field).forEach(p -> put(p, Topic.SYMPTOM, each.text("id"), certainty));
        }
      }
    }
    said(fields, "works", Topic.WORK);
    said(fields, "events", Topic.EVENT);
    said(fields, "outcomes", Topic.OUTCOME);
    said(fields, "fluids", Topic.FLUID);
  }

  private void said(Fields fields, String section, Topic topic) {
    for (Fields each : fields.objects(section)) {
      each.texts("said").forEach(p -> put(p, topic, each.text("id"), Certainty.PRESENT));
    }
  }

  private void words(int atom, String words, boolean closed) {
    for (String word : Letters.split(words, ' ')) {
      lexicon.add(atom, word, closed);
    }
  }

  private void put(String text, Topic topic, String id, Certainty certainty) {
    int mark = text.indexOf('?');
    if (mark >= 0) {
      // An element that may be missing makes two patterns.
      int from = text.lastIndexOf(' ', mark) + 1;
      put(text.substring(0, from) + text.substring(mark + 1).stripLeading(), topic, id, certainty);
      put(text.substring(0, mark) + text.substring(mark + 1), topic, id, certainty);
      return;
    }
    Pattern pattern = new Pattern(text, this);
    Meaning meaning = new Meaning(pattern, topic, id, certainty);
    for (int atom : pattern.anchors()) {
      meanings.computeIfAbsent(atom, a -> new ArrayList<>()).add(meaning);
    }
  }

  @Override
  public int atom(String name) {
    boolean single = !name.equals(name.toUpperCase(Locale.ROOT));
    if (!single && !classes.contains(name)) {
      throw new IllegalArgumentException("there is no class " + name);
    }
    boolean fresh = single && !lexicon.knows(name);
    int atom = lexicon.atom(name);
    if (fresh) {
      lexicon.add(atom, name, true);
    }
    return atom;
  }

  @Override
  public boolean shared(String name) {
    return shared.contains(name);
  }

  @Override
  public boolean denies(String name) {
    return name.equals(Grammar.NOT.name()) || name.equals(Grammar.PLUS.name());
  }
}
