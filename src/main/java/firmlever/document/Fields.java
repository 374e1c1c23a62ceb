package firmlever.document;

import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Takes values out of a document that its {@link Shape} has found right, so that no look-up here
 * can fail for the user's fault.
 */
public record Fields(Node.Object object) {
  private static final Node.Object EMPTY =
      new Node.Object(new LinkedHashMap<>(), Map.of(), new Node.Place(1, 1, ""));

  public static Fields of(Node node) {
    return new Fields((Node.Object) node);
  }

  public boolean has(String name) {
    return object.members().containsKey(name);
  }

  /** The text of that name, or an empty one. */
  public String text(String name) {
    return object.get(name).map(Fields::textOf).orElse("");
  }

  /** The text of that name, or {@code fallback}. */
  public String text(String name, String fallback) {
    return object.get(name).map(Fields::textOf).orElse(fallback);
  }

  public Optional<LocalDate> date(String name) {
    return object.get(name).map(node -> LocalDate.parse(textOf(node)));
  }

  /** The measure of that name in the kind's base unit, or NaN. */
  public double measure(String name, Measures.Kind kind) {
    return object.get(name).map(node -> measureOf(node, kind)).orElse(Double.NaN);
  }

  /** The measures of that name, one or many, in the kind's base unit. */
  public List<Double> measures(String name, Measures.Kind kind) {
    return many(name).stream().map(node -> measureOf(node, kind)).toList();
  }

  /** The number of that name, or NaN. */
  public double number(String name) {
    return object.get(name).map(n -> ((Node.Number) n).value().doubleValue()).orElse(Double.NaN);
  }

  /** The amount of money of that name. */
  public Optional<Money> money(String name) {
    return object.get(name).map(node -> Money.read(textOf(node)));
  }

  /** The whole number of that name, or {@code fallback}. */
  public int whole(String name, int fallback) {
    return object.get(name).map(n -> ((Node.Number) n).value().intValueExact()).orElse(fallback);
  }

  public Optional<Boolean> flag(String name) {
    return object.get(name).map(node -> ((Node.Flag) node).value());
  }

  /** The fields of the nested object of that name; none where it is missing. */
  public Fields inner(String name) {
    return object.get(name).map(Fields::of).orElse(new Fields(EMPTY));
  }

  /** The texts of that name: a list, a single one, or none. */
  public List<String> texts(String name) {
    return many(name).stream().map(Fields::textOf).toList();
  }

  /** The nested objects of the list of that name. */
  public List<Fields> objects(String name) {
    return many(name).stream().map(Fields::of).toList();
  }

  /**
   * The nested objects of that name, one or many; a plain value stands for an object that has it as
   * {@code field} and nothing else.
   */
  public List<Fields> plainOrObjects(String name, String field) {
    return many(name).stream()
        .map(node -> node instanceof Node.Object object ? new Fields(object) : only(field, node))
        .toList();
  }

  private static Fields only(String field, Node value) {
    return new Fields(
        new Node.Object(
            new LinkedHashMap<>(Map.of(field, value)),
            Map.of(field, value.place()),
            value.place()));
  }

  private List<Node> many(String name) {
    return object
        .get(name)
        .map(node -> node instanceof Node.Array array ? array.items() : List.of(node))
        .orElse(List.of());
  }

  private static String textOf(Node node) {
    return ((Node.Text) node).value();
  }

  private static double measureOf(Node node, Measures.Kind kind) {
    try {
      return Measures.read(textOf(node), kind);
    } catch (Measures.NotAMeasure e) {
      throw new IllegalStateException("the shape lets only measures through", e);
    }
  }
}
