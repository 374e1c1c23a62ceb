package firmlever.document;

import java.io.StringWriter;
import java.util.Map;
import tools.jackson.core.JsonGenerator;
import tools.jackson.core.ObjectWriteContext;
import tools.jackson.core.PrettyPrinter;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.util.DefaultIndenter;
import tools.jackson.core.util.DefaultPrettyPrinter;

/**
 * Writes maps, lists, texts, numbers and flags as JSON text, indented by two, lines ended by LF.
 */
public final class JsonText {
  private JsonText() {}

  private static final JsonFactory FACTORY = new JsonFactory();
  private static final DefaultIndenter TWO = new DefaultIndenter("  ", "\n");
  private static final DefaultPrettyPrinter PRETTY =
      new DefaultPrettyPrinter().withObjectIndenter(TWO).withArrayIndenter(TWO);

  /** The value as indented JSON text, without a last line end. */
  public static String of(Object value) {
    StringWriter out = new StringWriter();
    ObjectWriteContext pretty =
        new ObjectWriteContext.Base() {
          @Override
          public PrettyPrinter getPrettyPrinter() {
            return PRETTY.createInstance();
          }
        };
    try (JsonGenerator generator = FACTORY.createGenerator(pretty, out)) {
      write(generator, value);
    }
    return out.toString();
  }

  private static void write(JsonGenerator to, Object value) {
    if (value instanceof Map<?, ?> map) {
      to.writeStartObject();
      map.forEach(
          (name, each) -> {
            to.writeName((String) name);
            write(to, each);
          });
      to.writeEndObject();
    } else if (value instanceof Iterable<?> items) {
      to.writeStartArray();
      items.forEach(each -> write(to, each));
      to.writeEndArray();
    } else if (value instanceof Integer number) {
      to.writeNumber(number);
    } else if (value instanceof Long number) {
      to.writeNumber(number);
    } else if (value instanceof Double number) {
      to.writeNumber(number);
    } else if (value instanceof Boolean flag) {
      to.writeBoolean(flag);
    } else if (value instanceof String text) {
      to.writeString(text);
    } else {
      throw new IllegalArgumentException("cannot write a " + value.getClass() + " as JSON");
    }
  }
}
