package firmlever.vocabulary;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;
import static firmlever.document.Shape.whole;

import firmlever.document.Shape;
import java.util.List;
import java.util.Map;

/**
 * How a cause endangers the rider, and from what chance on it forbids riding.
 *
 * <p>The limit comes from a stated loss: not to ride costs a walk to the shop; to ride with such a
 * cause present costs as much as {@code harm} such walks. Riding is worth it while chance × harm is
 * less than one walk.
 *
 * @param harm in walks to the shop; 0 for none
 * @param above what is said of the brake above the limit: {@code stop}, {@code not-cleared} or
 *     {@code fine}
 * @param atRear the same of a rear brake, where the front one carries the stop
 */
public record HazardKind(
    String id,
    String name,
    String definition,
    int harm,
    String above,
    String atRear,
    String source) {

  private static final List<String> ANSWERS = List.of("stop", "not-cleared", "fine");

  /** The chance above which it counts, 0 to 1; never reached where there is no harm. */
  public double limit() {
    return harm == 0 ? 1 : 1.0 / harm;
  }

  /** All kinds by id, the worst first. */
  public static Map<String, HazardKind> builtIn() {
    Shape entry =
        Shape.object()
            .needs("id", code(), "its id")
            .needs("name", text(80), "what it does, spoken after \"it\"")
            .needs("definition", text(500), "what it is")
            .needs("harm", whole(0, 1000), "the harm in walks to the shop")
            .needs("above", oneOf("an answer", ANSWERS), "what is said above the limit")
            .may(
                "at-rear", oneOf("an answer", ANSWERS), "the same where the front carries the stop")
            .needs("source", text(300), "where the harm is from");
    return Vocabulary.byId(
        VocabularyReader.entries("ride.json", entry, "kinds").stream()
            .map(
                f ->
                    new HazardKind(
                        f.text("id"),
                        f.text("name"),
                        f.text("definition"),
                        f.whole("harm", 0),
                        f.text("above"),
                        f.text("at-rear", f.text("above")),
                        f.text("source")))
            .toList(),
        HazardKind::id);
  }
}
