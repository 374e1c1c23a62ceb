package firmlever.interview;

import firmlever.document.Measures;
import firmlever.document.Measures.Kind;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a person answered to a question about a symptom. */
sealed interface Answer {

  /** The symptom is {@code present}, {@code absent} or {@code not-checked}. */
  record Found(String presence) implements Answer {}

  /** A measured value: the field of {@code readings} and what is written into it. */
  record Measured(String reading, Object value) implements Answer {}

  /** Back to the question before. */
  record Back() implements Answer {}

  /** Why the question is asked. */
  record Why() implements Answer {}

  /** How the check is done. */
  record How() implements Answer {}

  /** Enough for now. */
  record Stop() implements Answer {}

  /** Nothing that can be used; {@code maybe} says what could be. */
  record Unclear(String maybe) implements Answer {}

  Set<String> PRESENT = Set.of("p", "present", "y", "yes");
  Set<String> ABSENT = Set.of("a", "absent", "n", "no");
  Set<String> OPEN =
      Set.of(
          "c",
          "?",
          "cant say",
          "can't say",
          "cannot say",
          "not checked",
          "not-checked",
          "skip",
          "dont know",
          "don't know",
          "unknown");

  /** The field of the case file's readings, by the symptom a value of it decides. */
  Map<String, List<Reading>> READINGS =
      Map.ofEntries(
          Map.entry("long-throw", List.of(new Reading("throw-firm", Kind.LENGTH, false))),
          Map.entry("lever-sinks", List.of(new Reading("creep", Kind.LENGTH, false))),
          Map.entry("pumps-up", List.of(new Reading("throw-after-five", Kind.LENGTH, false))),
          Map.entry("thin-pads", List.of(new Reading("pad-thickness", Kind.LENGTH, true))),
          Map.entry("uneven-pads", List.of(new Reading("pad-thickness", Kind.LENGTH, true))),
          Map.entry("thin-rotor-seen", List.of(new Reading("rotor-thickness", Kind.LENGTH, false))),
          Map.entry("bent-rotor-seen", List.of(new Reading("run-out", Kind.LENGTH, false))),
          Map.entry("uneven-pistons", List.of(new Reading("piston-advance", Kind.LENGTH, true))),
          Map.entry("stuck-piston", List.of(new Reading("piston-advance", Kind.LENGTH, true))),
          Map.entry("reservoir-low", List.of(new Reading("level-drop", Kind.LENGTH, false))),
          Map.entry(
              "wet-fluid-test",
              List.of(
                  new Reading("moisture", Kind.SHARE, false),
                  new Reading("boiling-point", Kind.TEMPERATURE, false))));

  /** A reading: its field, its kind, and whether there may be one value for each part. */
  record Reading(String field, Kind kind, boolean each) {}

  Pattern VALUE = Pattern.compile("[+-]?[0-9]+(?:[.,][0-9]+)?\\s*[^\\s0-9.,;]*");

  /** Reads an answer to the question about {@code symptom}. */
  static Answer read(String line, Symptom symptom) {
    String said = line.strip().toLowerCase(Locale.ROOT).replace('’', '\'');
    if (PRESENT.contains(said)) {
      return new Found("present");
    }
    if (ABSENT.contains(said)) {
      return new Found("absent");
    }
    if (OPEN.contains(said) || said.isEmpty()) {
      return said.isEmpty() ? new Unclear("nothing was said.") : new Found("not-checked");
    }
    switch (said) {
      case "b", "back" -> {
        return new Back();
      }
      case "w", "why" -> {
        return new Why();
      }
      case "h", "how" -> {
        return new How();
      }
      case "s", "stop", "q", "quit" -> {
        return new Stop();
      }
      default -> {
        return Character.isDigit(said.charAt(said.startsWith("-") ? said.length() - 1 : 0))
            ? measured(line.strip(), symptom)
            : new Unclear("\"" + shortened(line.strip()) + "\" is no answer known here.");
      }
    }
  }

  private static String shortened(String text) {
    String visible = text.replaceAll("\\p{Cntrl}", " ");
    return visible.length() > 40 ? visible.substring(0, 39) + "…" : visible;
  }

  private static Answer measured(String line, Symptom symptom) {
    List<Reading> readings = READINGS.getOrDefault(symptom.id(), List.of());
    if (readings.isEmpty()) {
      return new Unclear("no value is measured for " + symptom.name() + ".");
    }
    List<String> values = new ArrayList<>();
    Matcher matcher = VALUE.matcher(line);
    while (matcher.find()) {
      values.add(matcher.group().strip());
    }
    Optional<String> unit =
        values.stream()
            .map(value -> value.replaceFirst("^[+-]?[0-9]+(?:[.,][0-9]+)?\\s*", ""))
            .filter(text -> !text.isEmpty())
            .reduce((first, last) -> last);
    String problem = "";
    for (Reading reading : readings) {
      List<String> whole = new ArrayList<>();
      try {
        for (String value : values) {
          // "1.2 1.4 mm": the unit of the last stands for all.
          String full = value.matches(".*[0-9]") ? value + " " + unit.orElse("") : value;
          Measures.read(full.strip(), reading.kind());
          whole.add(full.strip());
        }
        if (whole.size() > 1 && !reading.each()) {
          return new Unclear("one value is wanted here, " + whole.size() + " were said.");
        }
        boolean list = whole.size() > 1 || reading.field().equals("piston-advance");
        return new Measured(reading.field(), list ? whole : whole.get(0));
      } catch (Measures.NotAMeasure e) {
        problem =
            problem.isEmpty() || !e.maybe().isEmpty()
                ? "the value " + e.getMessage() + ". " + e.maybe()
                : problem;
      }
    }
    return new Unclear(problem.strip());
  }
}
