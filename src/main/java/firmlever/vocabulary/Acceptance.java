package firmlever.vocabulary;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.flag;
import static firmlever.document.Shape.list;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;

import firmlever.document.Shape;
import java.util.List;

/**
 * One thing a brake must show before it goes back.
 *
 * @param want what must be seen; figures of the brake in braces: {@code {throw}}, {@code {pads}},
 *     {@code {rotor}}, {@code {run-out}}
 * @param how how to find out
 * @param failsOn symptoms any of which fails it; kinds of a coarse one among them
 * @param clear it is passed where all of these are absent
 * @param after it is asked for only after one of these works; always where there are none
 * @param works it is passed by one of these works done
 * @param torque whether a torque must be on record for works that tighten something
 * @param road whether it is made riding; nobody rides before the others are passed
 */
public record Acceptance(
    String id,
    String name,
    String want,
    String how,
    List<String> failsOn,
    List<String> clear,
    List<String> after,
    List<String> works,
    boolean torque,
    boolean road) {

  /** All acceptance checks, in the order in which they are made. */
  public static List<Acceptance> builtIn(Vocabulary vocabulary) {
    Shape symptoms = list(0, oneOf("a symptom", vocabulary.symptoms().keySet()));
    Shape actions = list(0, oneOf("an action", vocabulary.actions().keySet()));
    Shape entry =
        Shape.object()
            .needs("id", code(), "its id")
            .needs("name", text(80), "its spoken name")
            .needs("want", text(200), "what must be seen")
            .needs("how", text(300), "how to find out")
            .needs("fails-on", symptoms, "symptoms that fail it")
            .needs("clear", symptoms, "symptoms whose absence passes it")
            .needs("after", actions, "works it is asked for after")
            .needs("works", actions, "works that pass it")
            .needs("torque", flag(), "whether a torque must be on record")
            .needs("road", flag(), "whether it is made riding");
    return VocabularyReader.entries("acceptance.json", entry, "acceptance").stream()
        .map(
            f ->
                new Acceptance(
                    f.text("id"),
                    f.text("name"),
                    f.text("want"),
                    f.text("how"),
                    vocabulary.withKinds(f.texts("fails-on")),
                    f.texts("clear"),
                    f.texts("after"),
                    f.texts("works"),
                    f.flag("torque").orElse(false),
                    f.flag("road").orElse(false)))
        .toList();
  }
}
