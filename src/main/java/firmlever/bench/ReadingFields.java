package firmlever.bench;

import firmlever.bench.job.CaseEdits;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** The fields readings are typed into, before the work and after it. */
final class ReadingFields {
  /** The one reading that is asked for with its force. */
  private static final String FIRM = "throw-firm";

  private static final String FORCE = "throw-firm-force";

  private final Shop shop;

  ReadingFields(Shop shop) {
    this.shop = shop;
  }

  /** The fields for these readings, with what stands in them. */
  List<View.Reading> of(List<String> names, Map<String, String> values) {
    List<View.Reading> fields = new ArrayList<>();
    for (String name : names) {
      fields.add(field(name, values));
      if (name.equals(FIRM)) {
        fields.add(field(FORCE, values));
      }
    }
    return fields;
  }

  private View.Reading field(String name, Map<String, String> values) {
    return new View.Reading(name, shop.say("reading." + name), values.getOrDefault(name, ""));
  }

  /** What a case holds of these readings, as it would be typed. */
  static Map<String, String> inCase(String text, List<String> names) {
    Map<String, String> values = new LinkedHashMap<>();
    try {
      Fields readings = Fields.of(DocumentReader.readText(text, "the case")).inner("readings");
      for (String name : names) {
        if (readings.has(name)) {
          List<Fields> pulls = readings.plainOrObjects(name, "value");
          values.put(
              name,
              pulls.stream()
                  .map(pull -> CaseEdits.bare(pull.text("value")))
                  .collect(Collectors.joining(" ")));
          if (name.equals(FIRM) && pulls.get(0).has("force")) {
            values.put(FORCE, CaseEdits.bare(pulls.get(0).text("force")));
          }
        }
      }
    } catch (BadInput e) {
      throw new IllegalStateException("a case in the store is damaged", e);
    }
    return values;
  }
}
