package firmlever.bench.job;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.Measures.Kind;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;

/**
 * A place of the brake one looks at.
 *
 * @param symptoms ids of what may be found there, each at one place only
 * @param readings names of what may be measured there
 * @param works ids of the works that are done there
 */
public record Place(String id, List<String> symptoms, List<String> readings, List<String> works) {
  /** The kind of each reading a case may hold. */
  public static final Map<String, Kind> KINDS =
      Map.ofEntries(
          Map.entry("throw-light", Kind.LENGTH),
          Map.entry("throw-firm", Kind.LENGTH),
          Map.entry("throw-after-five", Kind.LENGTH),
          Map.entry("creep", Kind.LENGTH),
          Map.entry("level-drop", Kind.LENGTH),
          Map.entry("moisture", Kind.SHARE),
          Map.entry("boiling-point", Kind.TEMPERATURE),
          Map.entry("piston-advance", Kind.LENGTH),
          Map.entry("pad-thickness", Kind.LENGTH),
          Map.entry("rotor-thickness", Kind.LENGTH),
          Map.entry("run-out", Kind.LENGTH));

  /** All places, in the order in which one goes along a brake. */
  public static List<Place> all() {
    try (InputStream in = Place.class.getResourceAsStream("places.json")) {
      return Fields.of(DocumentReader.read(in.readAllBytes(), "places.json"))
          .objects("places")
          .stream()
          .map(
              f ->
                  new Place(
                      f.text("id"), f.texts("symptoms"), f.texts("readings"), f.texts("works")))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (BadInput e) {
      throw new IllegalStateException("the places do not fit this program", e);
    }
  }
}
