package firmlever.vocabulary;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Shape;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which fault brings which other: what a leak soaks, what thin pads let out. Read from {@code
 * rules/vocabulary/brings.json}; no fault brings itself, however many steps between.
 */
public final class Brings {
  private static final Shape SHAPE =
      Shape.object()
          .needs("format", oneOf("a format", List.of(VocabularyReader.FORMAT)), "the format")
          .needs(
              "brings",
              list(
                  1,
                  Shape.object()
                      .needs("causes", list(1, code()), "the faults that bring others")
                      .needs("bring", list(1, code()), "what they bring")
                      .needs("why", text(200), "how")
                      .needs("source", text(200), "where that is known from")),
              "the links");

  private final Map<String, Map<String, String>> whyByBringerByBrought = new HashMap<>();

  private Brings() {}

  /** The links built into the program. */
  public static Brings builtIn() {
    Brings brings = new Brings();
    VocabularyReader.document("brings.json", SHAPE)
        .objects("brings")
        .forEach(
            link ->
                link.texts("bring")
                    .forEach(
                        brought ->
                            link.texts("causes")
                                .forEach(
                                    by ->
                                        brings
                                            .whyByBringerByBrought
                                            .computeIfAbsent(brought, b -> new LinkedHashMap<>())
                                            .put(by, link.text("why")))));
    return brings;
  }

  /** What brings the cause, in the order of the file. */
  public List<String> bringersOf(String cause) {
    return new ArrayList<>(whyByBringerByBrought.getOrDefault(cause, Map.of()).keySet());
  }

  /** How one fault brings another, in words; empty where it does not. */
  public String why(String by, String brought) {
    return whyByBringerByBrought.getOrDefault(brought, Map.of()).getOrDefault(by, "");
  }
}
