package firmlever.sheet;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;

/** How results are laid out as JSON. */
public final class JsonForm {
  private JsonForm() {}

  /** The name of a constant as it is written in JSON: lower case, with hyphens. */
  public static String id(Enum<?> of) {
    return of.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Six decimals: more than the numbers mean, and fewer than a machine may differ in. */
  public static double rounded(double value) {
    return BigDecimal.valueOf(value).setScale(6, RoundingMode.HALF_EVEN).doubleValue();
  }

  /** The items, each in its form. */
  public static <T> List<Object> each(List<T> items, Function<T, Map<String, Object>> form) {
    List<Object> list = new ArrayList<>();
    items.forEach(item -> list.add(form.apply(item)));
    return list;
  }

  /** Keys, each followed by its value, in this order. */
  public static Map<String, Object> map(Object... keysAndValues) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < keysAndValues.length; i += 2) {
      map.put((String) keysAndValues[i], keysAndValues[i + 1]);
    }
    return map;
  }
}
