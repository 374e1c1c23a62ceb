package firmlever.interview;

import firmlever.document.Measures;
import firmlever.document.Measures.Kind;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a person answered to a question. */
sealed interface Answer {

  /** It is so. */
  record Yes() implements Answer {}

  /** It is not so. */
  record No() implements Answer {}

  /** Not looked, or nobody knows. */
  record Open() implements Answer {}

  /**
   * What one look showed of the things asked for; of the others it showed none.
   *
   * @param there places in the list of what was asked, from 0
   * @param open places of which nobody knows
   * @param measured what was measured, by place
   */
  record Seen(List<Integer> there, List<Integer> open, Map<Integer, Measured> measured)
      implements Answer {}

  /** A measured value: the field of {@code readings} and what is written into it. */
  record Measured(String reading, Object value) implements Answer {}

  /** Back to the question before. */
  record Back() implements Answer {}

  /** Why the question is asked. */
  record Why() implements Answer {}

  /** Enough for now. */
  record Stop() implements Answer {}

  /** Nothing that can be used; {@code maybe} says what could be. */
  record Unclear(String maybe) implements Answer {}

  /** What the letters mean, said once. */
  String LETTERS =
      "y it is so; n it is not so; ? not looked, or nobody knows, and nothing is noted;"
          + " - takes the last answer back; w why it is asked; s stop.";

  /** All words for an answer, by the letter that stands for them. */
  Map<String, Answer> WORDS =
      Map.ofEntries(
          Map.entry("y", new Yes()),
          Map.entry("yes", new Yes()),
          Map.entry("n", new No()),
          Map.entry("no", new No()),
          Map.entry("none", new No()),
          Map.entry("?", new Open()),
          Map.entry("don't know", new Open()),
          Map.entry("not looked", new Open()),
          Map.entry("-", new Back()),
          Map.entry("back", new Back()),
          Map.entry("w", new Why()),
          Map.entry("why", new Why()),
          Map.entry("s", new Stop()),
          Map.entry("stop", new Stop()));

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

  /** One thing of a list: its number, and nothing, a question mark, or a value. */
  Pattern ITEM = Pattern.compile("([0-9]{1,2})\\s*(?:(\\?)|[:=]\\s*([^,;]+))?");

  /** The letter or word for an answer, if it is one. */
  static Optional<Answer> word(String line) {
    return Optional.ofNullable(WORDS.get(line.strip().toLowerCase(Locale.ROOT).replace('’', '\'')));
  }

  /** Reads what was seen of these symptoms, one or more. */
  static Answer read(String line, List<Symptom> asked) {
    Optional<Answer> word = word(line);
    if (word.isPresent() && word.get() instanceof Yes) {
      return asked.size() == 1
          ? new Seen(List.of(0), List.of(), Map.of())
          : new Unclear("of several, say the numbers of what is there, such as 1 3.");
    }
    if (word.isPresent()) {
      return word.get() instanceof No ? new Seen(List.of(), List.of(), Map.of()) : word.get();
    }
    String said = line.strip();
    if (said.isEmpty()) {
      return new Unclear("nothing was said.");
    }
    boolean digits = Character.isDigit(said.charAt(said.startsWith("-") ? said.length() - 1 : 0));
    if (!digits) {
      return new Unclear("\"" + shortened(said) + "\" is no answer known here.");
    }
    if (asked.size() > 1) {
      return numbers(said, asked);
    }
    Answer read = measured(said, asked.get(0));
    return read instanceof Measured value ? new Seen(List.of(), List.of(), Map.of(0, value)) : read;
  }

  private static Answer numbers(String said, List<Symptom> asked) {
    List<Integer> there = new ArrayList<>();
    List<Integer> open = new ArrayList<>();
    Map<Integer, Measured> measured = new LinkedHashMap<>();
    Matcher items = ITEM.matcher(said);
    int end = 0;
    while (items.find()) {
      int place = Integer.parseInt(items.group(1)) - 1;
      boolean apart = said.substring(end, items.start()).matches("[\\s,;]*");
      if (!apart || place < 0 || place >= asked.size()) {
        return notTheNumbers(said, asked);
      }
      if (items.group(3) != null) {
        Answer value = measured(items.group(3).strip(), asked.get(place));
        if (!(value instanceof Measured of)) {
          return value;
        }
        measured.put(place, of);
      } else {
        (items.group(2) == null ? there : open).add(place);
      }
      end = items.end();
    }
    return said.substring(end).isBlank()
        ? new Seen(there, open, measured)
        : notTheNumbers(said, asked);
  }

  private static Unclear notTheNumbers(String said, List<Symptom> asked) {
    return new Unclear(
        "\"" + shortened(said) + "\" is not made of the numbers 1 to " + asked.size() + ".");
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
