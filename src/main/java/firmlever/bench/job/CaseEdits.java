package firmlever.bench.job;

import firmlever.casefile.CaseFile.Presence;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonEdit;
import firmlever.document.Measures;
import firmlever.document.Measures.Kind;
import firmlever.document.Problem;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Writes what was tapped and typed into the text of a case, and leaves the rest as it is. */
public final class CaseEdits {
  private static final String ONLY_TOLD = "only-told";
  private static final List<String> LISTS = List.of("pad-thickness", "piston-advance");

  private final Vocabulary vocabulary;

  public CaseEdits(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /** The case with a finding; one that nobody looked for is taken out again. */
  public String found(String text, String symptom, Presence presence) throws BadInput {
    String edited = text;
    // The same may stand there under the name of its opposite, or as told and not looked for.
    Optional<Vocabulary.Opposite> opposite = vocabulary.symptom(symptom).opposite();
    List<String> names = new ArrayList<>(List.of(symptom));
    opposite.ifPresent(other -> names.add(other.id()));
    for (String name : names) {
      edited = notOnlyTold(edited, name);
    }
    if (opposite.isPresent()) {
      edited = JsonEdit.remove(edited, List.of("symptoms", opposite.get().id()));
    }
    return presence == Presence.NOT_CHECKED
        ? JsonEdit.remove(edited, List.of("symptoms", symptom))
        : JsonEdit.set(
            edited, List.of("symptoms", symptom), presence.name().toLowerCase(Locale.ROOT));
  }

  private static String notOnlyTold(String text, String symptom) throws BadInput {
    List<String> told =
        new ArrayList<>(Fields.of(DocumentReader.readText(text, "the case")).texts(ONLY_TOLD));
    if (!told.remove(symptom)) {
      return text;
    }
    return told.isEmpty()
        ? JsonEdit.remove(text, List.of(ONLY_TOLD))
        : JsonEdit.set(text, List.of(ONLY_TOLD), told);
  }

  /**
   * The case with these readings.
   *
   * @param typed what was typed, by name; an empty text takes the reading out
   * @throws BadInput with everything that is no such measure
   */
  public String measured(String text, Map<String, String> typed) throws BadInput {
    Map<String, Object> values = readings(typed);
    String edited = text;
    for (String name : typed.keySet()) {
      if (Place.KINDS.containsKey(name)) {
        List<String> path = List.of("readings", name);
        edited =
            values.containsKey(name)
                ? JsonEdit.set(edited, path, values.get(name))
                : JsonEdit.remove(edited, path);
      }
    }
    return edited;
  }

  /** The readings as files hold them, by name; none for what was left empty. */
  public Map<String, Object> readings(Map<String, String> typed) throws BadInput {
    List<Problem> problems = new ArrayList<>();
    Map<String, Object> values = new LinkedHashMap<>();
    typed.forEach(
        (name, words) -> {
          Kind kind = Place.KINDS.get(name);
          if (kind != null && !words.isBlank()) {
            value(name, words, kind, problems).ifPresent(value -> values.put(name, value));
          }
        });
    String force = typed.getOrDefault("throw-firm-force", "");
    if (!force.isBlank() && values.containsKey("throw-firm")) {
      value("throw-firm-force", force, Kind.FORCE, problems)
          .ifPresent(
              newton -> {
                Map<String, Object> pull = new LinkedHashMap<>();
                pull.put("value", values.get("throw-firm"));
                pull.put("force", newton);
                values.put("throw-firm", pull);
              });
    }
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
    return values;
  }

  private static Optional<Object> value(
      String name, String words, Kind kind, List<Problem> problems) {
    List<String> each = new ArrayList<>();
    boolean list = LISTS.contains(name);
    // Of several values the blanks part them; a comma is a decimal sign.
    for (String one : list ? words.strip().split("[\\s;/]+") : new String[] {words.strip()}) {
      String plain = one.replace(',', '.');
      String whole = plain.matches(".*[0-9]") ? plain + " " + kind.base() : plain;
      try {
        Measures.read(whole, kind);
        each.add(whole);
      } catch (Measures.NotAMeasure e) {
        problems.add(Problem.ofFile(name, String.valueOf(e.getMessage()), e.maybe()));
      }
    }
    return Optional.of(list ? each : each.isEmpty() ? "" : each.get(0));
  }

  /** A measure without a unit that is the usual one of its field. */
  public static String bare(String measure) {
    return measure.replaceFirst("\\s*(mm|N|%|°C)$", "");
  }

  /** The case with an entry of its history. */
  public static String told(String text, Map<String, Object> entry) throws BadInput {
    return JsonEdit.add(text, "history", entry);
  }

  /** The case with a work or event that its complaint does not tell of. */
  public static String misheard(String text, String id) throws BadInput {
    return JsonEdit.add(text, "misheard", id);
  }
}
