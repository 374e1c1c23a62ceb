package firmlever.vocabulary;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.list;
import static firmlever.document.Shape.number;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;
import static firmlever.document.Shape.whole;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.document.Shape;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Cause;
import firmlever.vocabulary.Vocabulary.Caution;
import firmlever.vocabulary.Vocabulary.CheckKind;
import firmlever.vocabulary.Vocabulary.Does;
import firmlever.vocabulary.Vocabulary.Look;
import firmlever.vocabulary.Vocabulary.Opposite;
import firmlever.vocabulary.Vocabulary.Symptom;
import firmlever.vocabulary.Vocabulary.Term;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Reads the vocabulary files laid into the program from {@code rules/vocabulary/}. */
public final class VocabularyReader {
  private VocabularyReader() {}

  static final String FORMAT = "firmlever-vocabulary/1";

  private static final Shape SYMPTOM =
      named()
          .needs("group", code(), "its group")
          .needs("definition", text(500), "what it is")
          .needs("check", text(800), "how to check")
          .needs("minutes", whole(0, 240), "minutes to find out")
          .needs("kind", oneOf("a kind of check", kinds()), "how one finds out")
          .needs("told-falsely", number(0, 1), "how often riders say it without its being there")
          .needs("overlooked", number(0, 1), "how often who looks overlooks it")
          .needs("needs", list(0, code()), "set-ups it needs")
          .may("look", code(), "the look that shows it together with others")
          .may("height", whole(1, 9), "how high the place lies on the brake")
          .may("presupposes", list(1, code()), "symptoms one of which must be present first")
          .may("kind-of", list(1, code()), "coarser symptoms that are there whenever it is")
          .may("opposite", named(), "how its absence is called")
          .may("denied", text(80), "how its absence is said");

  private static final Shape LOOK = named().needs("check", text(800), "how the look is made");

  private static final Shape CAUSE =
      named()
          .needs("group", code(), "its group")
          .needs("part", code(), "the part it sits in")
          .needs("hazards", list(1, code()), "how it endangers the rider")
          .needs("definition", text(500), "what it is");

  private static final Shape ACTION =
      named()
          .needs("group", code(), "its group")
          .needs("done", text(80), "what one did who did it")
          .needs("definition", text(500), "what is done")
          .needs("minutes", whole(0, 600), "minutes of work")
          .needs("needs", list(0, code()), "set-ups it needs")
          .needs("parts", list(0, code()), "parts it uses up")
          .may("does", list(1, oneOf("what works do", does())), "what it does to the hydraulics");

  private static final Shape TERM =
      named()
          .needs("definition", text(500), "what it is")
          .may("done", text(80), "what was done, or what happened")
          .may(
              "does",
              list(1, oneOf("what works do", does())),
              "what a work does to the hydraulics");

  private static final Shape CAUTION =
      Shape.object()
          .needs("id", code(), "its id")
          .needs("short", text(60), "the caution in a few words")
          .needs("text", text(500), "the caution");

  private static Shape.Fields named() {
    return Shape.object().needs("id", code(), "its id").needs("name", text(80), "its spoken name");
  }

  private static List<String> kinds() {
    return Arrays.stream(CheckKind.values()).map(k -> k.name().toLowerCase(Locale.ROOT)).toList();
  }

  private static List<String> does() {
    return Arrays.stream(Does.values()).map(Does::id).toList();
  }

  /** For each: actions first, then works told of, in the order of their files. */
  private static Map<Does, Set<String>> does(Fields actions, Fields history) {
    Map<Does, Set<String>> all = new EnumMap<>(Does.class);
    for (Does does : Does.values()) {
      all.put(
          does,
          Stream.concat(actions.objects("actions").stream(), history.objects("works").stream())
              .filter(work -> work.has("does") && work.texts("does").contains(does.id()))
              .map(work -> work.text("id"))
              .collect(Collectors.toCollection(LinkedHashSet::new)));
    }
    return all;
  }

  /** Reads the vocabulary built into the program. */
  public static Vocabulary builtIn() {
    try {
      Fields actions = file("actions.json", ACTION, "actions");
      Fields history =
          file("history.json", TERM, "works", "events", "circumstances", "parts", "outcomes");
      return new Vocabulary(
          Vocabulary.byId(
              file("symptoms.json", SYMPTOM, "symptoms").objects("symptoms").stream()
                  .map(VocabularyReader::symptom)
                  .toList(),
              Symptom::id),
          Vocabulary.byId(
              file("looks.json", LOOK, "looks").objects("looks").stream()
                  .map(f -> new Look(f.text("id"), f.text("name"), f.text("check")))
                  .toList(),
              Look::id),
          Vocabulary.byId(
              file("causes.json", CAUSE, "causes").objects("causes").stream()
                  .map(VocabularyReader::cause)
                  .toList(),
              Cause::id),
          Vocabulary.byId(
              actions.objects("actions").stream().map(VocabularyReader::action).toList(),
              Action::id),
          terms(history, "works"),
          terms(history, "events"),
          terms(history, "circumstances"),
          terms(history, "parts"),
          terms(history, "outcomes"),
          Vocabulary.byId(
              file("cautions.json", CAUTION, "cautions").objects("cautions").stream()
                  .map(f -> new Caution(f.text("id"), f.text("text"), f.text("short")))
                  .toList(),
              Caution::id),
          does(actions, history));
    } catch (BadInput e) {
      throw new IllegalStateException("the vocabulary of this build is wrong:\n" + e.getMessage());
    }
  }

  private static Map<String, Term> terms(Fields history, String section) {
    return Vocabulary.byId(
        history.objects(section).stream()
            .map(
                f ->
                    new Term(
                        f.text("id"),
                        f.text("name"),
                        f.text("definition"),
                        f.has("done") ? f.text("done") : ""))
            .toList(),
        Term::id);
  }

  private static Symptom symptom(Fields f) {
    return new Symptom(
        f.text("id"),
        f.text("name"),
        f.text("group"),
        f.text("definition"),
        f.text("check"),
        f.whole("minutes", 0),
        CheckKind.valueOf(f.text("kind").toUpperCase(Locale.ROOT)),
        f.number("told-falsely"),
        f.number("overlooked"),
        f.has("look") ? f.text("look") : "",
        f.whole("height", 0),
        new LinkedHashSet<>(f.texts("needs")),
        new LinkedHashSet<>(f.texts("presupposes")),
        new LinkedHashSet<>(f.texts("kind-of")),
        f.has("opposite") ? Optional.of(opposite(f.inner("opposite"))) : Optional.empty(),
        f.has("denied") ? f.text("denied") : "");
  }

  private static Opposite opposite(Fields f) {
    return new Opposite(f.text("id"), f.text("name"));
  }

  private static Cause cause(Fields f) {
    return new Cause(
        f.text("id"),
        f.text("name"),
        f.text("group"),
        f.text("part"),
        f.texts("hazards"),
        f.text("definition"));
  }

  private static Action action(Fields f) {
    return new Action(
        f.text("id"),
        f.text("name"),
        f.text("group"),
        f.text("definition"),
        f.whole("minutes", 0),
        new LinkedHashSet<>(f.texts("needs")),
        f.texts("parts"),
        f.text("done"));
  }

  /** The entries of a vocabulary file with one section, in its order. */
  static List<Fields> entries(String name, Shape entry, String section) {
    try {
      return file(name, entry, section).objects(section);
    } catch (BadInput e) {
      throw new IllegalStateException("the vocabulary of this build is wrong:\n" + e.getMessage());
    }
  }

  /**
   * A vocabulary file of a form of its own, which a test of the build holds to its shape.
   *
   * @param name its path below {@code rules/vocabulary/}
   */
  public static Fields document(String name) {
    try {
      return Fields.of(node(name));
    } catch (BadInput e) {
      throw new IllegalStateException("the vocabulary of this build is wrong:\n" + e.getMessage());
    }
  }

  /** Reads a vocabulary file of its own shape, and checks that. */
  static Fields document(String name, Shape shape) {
    try {
      return read(name, shape);
    } catch (BadInput e) {
      throw new IllegalStateException("the vocabulary of this build is wrong:\n" + e.getMessage());
    }
  }

  private static Fields file(String name, Shape entry, String... sections) throws BadInput {
    Shape.Fields shape =
        Shape.object().needs("format", oneOf("a format", List.of(FORMAT)), "the format");
    for (String section : sections) {
      shape.needs(section, list(1, entry), "the entries");
    }
    return read(name, shape, sections);
  }

  private static Node node(String name) throws BadInput {
    try (InputStream in = VocabularyReader.class.getResourceAsStream("/rules/vocabulary/" + name)) {
      if (in == null) {
        throw new IllegalStateException("no vocabulary file " + name + " in this build");
      }
      return DocumentReader.read(in.readAllBytes(), name);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Fields read(String name, Shape shape, String... sections) throws BadInput {
    Node document = node(name);
    Problems problems = new Problems(name);
    shape.check(document, problems);
    problems.throwIfAny();
    Fields fields = Fields.of(document);
    for (String section : sections) {
      Set<String> seen = new HashSet<>();
      for (Fields entry : fields.objects(section)) {
        if (!seen.add(entry.text("id"))) {
          problems.add(entry.object().place(), "\"" + entry.text("id") + "\" is listed twice");
        }
      }
    }
    problems.throwIfAny();
    return fields;
  }
}
