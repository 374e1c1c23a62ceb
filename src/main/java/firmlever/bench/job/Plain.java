package firmlever.bench.job;

import firmlever.document.Node;
import java.util.LinkedHashMap;
import java.util.Map;

/** Turns what was read as JSON into what is written as JSON. */
public final class Plain {
  private static final int DIGITS_OF_WHOLE = 9;

  private Plain() {}

  /** A map, list, text, number or flag. */
  static Object of(Node node) {
    if (node instanceof Node.Object object) {
      return map(object);
    }
    if (node instanceof Node.Array array) {
      return array.items().stream().map(Plain::of).toList();
    }
    if (node instanceof Node.Number number) {
      boolean whole = number.value().scale() <= 0 && number.value().precision() <= DIGITS_OF_WHOLE;
      return whole
          ? (Object) number.value().intValueExact()
          : (Object) number.value().doubleValue();
    }
    if (node instanceof Node.Flag flag) {
      return flag.value();
    }
    return ((Node.Text) node).value();
  }

  public static Map<String, Object> map(Node.Object object) {
    Map<String, Object> map = new LinkedHashMap<>();
    object.members().forEach((name, each) -> map.put(name, of(each)));
    return map;
  }
}
