package firmlever.document;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What a value in an input file must look like. One description serves twice: {@link #check} finds
 * everything wrong with a document, and {@link #schema} is its JSON Schema.
 */
public abstract class Shape {

  /** Adds everything that is wrong with {@code node} to {@code problems}. */
  public abstract void check(Node node, Problems problems);

  /** The JSON Schema (draft 2020-12) of this shape, as maps, lists, texts and numbers. */
  public abstract Map<String, Object> schema();

  private static Map<String, Object> schemaOf(Object... keysAndValues) {
    Map<String, Object> schema = new LinkedHashMap<>();
    for (int i = 0; i < keysAndValues.length; i += 2) {
      schema.put((String) keysAndValues[i], keysAndValues[i + 1]);
    }
    return schema;
  }

  private static void mustBe(Node node, String what, Problems problems) {
    problems.add(node.place(), node.spoken() + " stands here; it must be " + what);
  }

  /** Free text of 1 to {@code longest} characters. */
  public static Shape text(int longest) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text)) {
          mustBe(node, "a text in quotes", problems);
        } else if (text.value().isBlank() || characters(text.value()) > longest) {
          mustBe(node, "a text of 1 to " + longest + " characters", problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "string", "pattern", "\\S", "maxLength", longest);
      }
    };
  }

  /** JSON Schema counts a character beyond the sixteen-bit range as one. */
  private static int characters(String text) {
    return text.codePointCount(0, text.length());
  }

  /** A code such as {@code B-0417-rear-3}: letters, digits, points, hyphens and underscores. */
  public static Shape code() {
    Pattern form = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,79}");
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text) || !form.matcher(text.value()).matches()) {
          mustBe(
              node,
              "a code of at most 80 letters, digits, points, hyphens or underscores",
              problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "string", "pattern", "^" + form.pattern() + "$");
      }
    };
  }

  /** One of a fixed set of names; {@code what} says of what kind, with its article. */
  public static Shape oneOf(String what, Collection<String> names) {
    return oneOf(what, names, given -> Nearest.maybe(given, names));
  }

  /**
   * The same; {@code guess} makes a suggestion out of a name that is not known, or an empty one.
   */
  public static Shape oneOf(String what, Collection<String> names, UnaryOperator<String> guess) {
    Set<String> known = new LinkedHashSet<>(names);
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text)) {
          mustBe(node, what, problems);
        } else if (!known.contains(text.value())) {
          problems.add(
              node.place(),
              node.spoken() + " is not " + what + " known here",
              guess.apply(text.value()));
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("enum", List.copyOf(known));
      }
    };
  }

  /** A calendar day, {@code yyyy-mm-dd}, of 1990 to 2199. */
  public static Shape date() {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text day) || CalendarDay.of(day.value()).isEmpty()) {
          problems.add(
              node.place(),
              node.spoken()
                  + " stands here; it must be a day of the calendar such as \"2026-05-12\"",
              node instanceof Node.Text text ? SpokenDay.maybe(text.value()) : "");
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf(
            "type",
            "string",
            "format",
            "date",
            "pattern",
            "^(199[0-9]|2[01][0-9]{2})-[0-9]{2}-[0-9]{2}$");
      }
    };
  }

  /** A whole number from {@code least} to {@code most}. */
  public static Shape whole(int least, int most) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Number number)
            || number.value().stripTrailingZeros().scale() > 0
            || outside(number.value(), least, most)) {
          mustBe(node, "a whole number from " + least + " to " + most, problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "integer", "minimum", least, "maximum", most);
      }
    };
  }

  /** A number from {@code least} to {@code most}. */
  public static Shape number(double least, double most) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Number number) || outside(number.value(), least, most)) {
          mustBe(node, "a number from " + plain(least) + " to " + plain(most), problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "number", "minimum", least, "maximum", most);
      }
    };
  }

  private static boolean outside(BigDecimal value, double least, double most) {
    return value.compareTo(BigDecimal.valueOf(least)) < 0
        || value.compareTo(BigDecimal.valueOf(most)) > 0;
  }

  /** An amount of money with its currency, such as {@code 38.50 EUR}. */
  public static Shape money() {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text)) {
          mustBe(node, "a text with amount and currency, such as \"38.50 EUR\"", problems);
          return;
        }
        try {
          Money.read(text.value());
        } catch (IllegalArgumentException e) {
          problems.add(node.place(), node.spoken() + " " + e.getMessage());
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "string", "pattern", Money.PATTERN);
      }
    };
  }

  /** A SHA-256 in hexadecimal, small letters. */
  public static Shape sha256() {
    Pattern form = Pattern.compile("[0-9a-f]{64}");
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text) || !form.matcher(text.value()).matches()) {
          mustBe(node, "a SHA-256: 64 digits and small letters a to f", problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "string", "pattern", "^" + form.pattern() + "$");
      }
    };
  }

  /** {@code true} or {@code false}. */
  public static Shape flag() {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Flag)) {
          mustBe(node, "true or false", problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("type", "boolean");
      }
    };
  }

  /**
   * A quantity with its unit in a text, from {@code least} to {@code most} of the kind's base unit.
   */
  public static Shape measure(Measures.Kind kind, double least, double most) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text)) {
          problems.add(
              node.place(),
              node.spoken()
                  + " stands here; it must be "
                  + kind.spoken()
                  + ": a text with number and unit, such as \"12 "
                  + kind.base()
                  + "\"");
          return;
        }
        try {
          double value = Measures.read(text.value(), kind);
          if (value < least || value > most) {
            problems.add(
                node.place(),
                node.spoken()
                    + " cannot be: it must lie between "
                    + plain(least)
                    + " and "
                    + plain(most)
                    + " "
                    + kind.base());
          }
        } catch (Measures.NotAMeasure e) {
          problems.add(
              node.place(), node.spoken() + " stands here; it " + e.getMessage(), e.maybe());
        }
      }

      @Override
      public Map<String, Object> schema() {
        String symbols =
            kind.symbols().stream().map(Shape::quoted).collect(Collectors.joining("|"));
        return schemaOf(
            "type",
            "string",
            "pattern",
            "^\\s*" + Measures.NUMBER + "\\s*(" + symbols + ")\\s*$",
            "description",
            "a quantity from " + plain(least) + " to " + plain(most) + " " + kind.base());
      }
    };
  }

  private static String quoted(String symbol) {
    return symbol.replace(".", "\\.");
  }

  private static String plain(double number) {
    return number == Math.rint(number) && Math.abs(number) < 1e9
        ? String.valueOf((long) number)
        : String.format(Locale.ROOT, "%s", number);
  }

  /** A list of {@code fewest} or more values of one shape. */
  public static Shape list(int fewest, Shape item) {
    return list(fewest, Integer.MAX_VALUE, item);
  }

  /** A list of {@code fewest} to {@code most} values of one shape. */
  public static Shape list(int fewest, int most, Shape item) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Array array)) {
          mustBe(node, "a list in square brackets", problems);
        } else if (array.items().size() < fewest) {
          mustBe(node, "a list of at least " + fewest, problems);
        } else if (array.items().size() > most) {
          mustBe(node, "a list of at most " + most, problems);
        } else {
          array.items().forEach(each -> item.check(each, problems));
        }
      }

      @Override
      public Map<String, Object> schema() {
        Map<String, Object> schema = schemaOf("type", "array", "minItems", fewest);
        if (most < Integer.MAX_VALUE) {
          schema.put("maxItems", most);
        }
        schema.put("items", item.schema());
        return schema;
      }
    };
  }

  /** One value, or a list of at least one of them. */
  public static Shape oneOrList(Shape item) {
    Shape list = list(1, item);
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        (node instanceof Node.Array ? list : item).check(node, problems);
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("anyOf", List.of(item.schema(), list.schema()));
      }
    };
  }

  /** A plain value, or an object that says more about it. */
  public static Shape plainOrObject(Shape plain, Shape object) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        (node instanceof Node.Object ? object : plain).check(node, problems);
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf("anyOf", List.of(plain.schema(), object.schema()));
      }
    };
  }

  /** An object whose names are out of a fixed set, each with a value of the same shape. */
  public static Shape table(String what, Collection<String> names, Shape value) {
    return table(what, names, value, given -> Nearest.maybe(given, names));
  }

  /**
   * The same; {@code guess} makes a suggestion out of a name that is not known, or an empty one.
   */
  public static Shape table(
      String what, Collection<String> names, Shape value, UnaryOperator<String> guess) {
    Set<String> known = new LinkedHashSet<>(names);
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Object object)) {
          mustBe(node, "an object in curly brackets", problems);
          return;
        }
        object
            .members()
            .forEach(
                (name, each) -> {
                  if (known.contains(name)) {
                    value.check(each, problems);
                  } else {
                    problems.add(
                        object.nameOf(name),
                        "\"" + name + "\" is not " + what + " known here",
                        guess.apply(name));
                  }
                });
      }

      @Override
      public Map<String, Object> schema() {
        return schemaOf(
            "type", "object",
            "propertyNames", schemaOf("enum", List.copyOf(known)),
            "additionalProperties", value.schema());
      }
    };
  }

  /** An object of one of several kinds, told apart by the text of its field {@code field}. */
  public static Shape kinds(String field, String what, Map<String, Fields> shapes) {
    Map<String, Fields> known = new LinkedHashMap<>();
    Shape which = oneOf(what, shapes.keySet());
    shapes.forEach((kind, shape) -> known.put(kind, shape.needs(field, which, what)));
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Object object)) {
          mustBe(node, "an object in curly brackets", problems);
        } else if (object.get(field).isEmpty()) {
          problems.add(
              node.place().missing(field),
              "\"" + field + "\" is missing: " + what + " must stand here");
        } else if (object.get(field).orElseThrow() instanceof Node.Text text
            && known.containsKey(text.value())) {
          known.get(text.value()).check(node, problems);
        } else {
          which.check(object.get(field).orElseThrow(), problems);
        }
      }

      @Override
      public Map<String, Object> schema() {
        List<Object> each = new ArrayList<>();
        known.forEach(
            (kind, shape) -> {
              Map<String, Object> schema = shape.schema();
              each.add(
                  schemaOf(
                      "allOf",
                      List.of(
                          schemaOf("properties", schemaOf(field, schemaOf("const", kind))),
                          schema)));
            });
        return schemaOf("oneOf", each);
      }
    };
  }

  /** Begins the description of an object with named fields. */
  public static Fields object() {
    return new Fields();
  }

  /** An object with named fields; any other name is an error. */
  public static final class Fields extends Shape {
    private final Map<String, Shape> fields = new LinkedHashMap<>();
    private final Map<String, String> meanings = new LinkedHashMap<>();
    private final List<String> required = new ArrayList<>();
    private final List<List<String>> exactlyOne = new ArrayList<>();
    private final List<List<String>> atMostOne = new ArrayList<>();
    private final List<List<String>> atLeastOne = new ArrayList<>();

    private Fields() {}

    /** A field that must be there. */
    public Fields needs(String name, Shape shape, String meaning) {
      required.add(name);
      return may(name, shape, meaning);
    }

    /** A field that may be missing. */
    public Fields may(String name, Shape shape, String meaning) {
      fields.put(name, shape);
      meanings.put(name, meaning);
      return this;
    }

    public Fields exactlyOneOf(String... names) {
      exactlyOne.add(List.of(names));
      return this;
    }

    public Fields atMostOneOf(String... names) {
      atMostOne.add(List.of(names));
      return this;
    }

    public Fields atLeastOneOf(String... names) {
      atLeastOne.add(List.of(names));
      return this;
    }

    @Override
    public void check(Node node, Problems problems) {
      if (!(node instanceof Node.Object object)) {
        mustBe(node, "an object in curly brackets", problems);
        return;
      }
      object
          .members()
          .forEach(
              (name, value) -> {
                Shape shape = fields.get(name);
                if (shape == null) {
                  problems.add(
                      object.nameOf(name),
                      "no field \"" + name + "\" is known here",
                      Nearest.maybe(name, fields.keySet()));
                } else {
                  shape.check(value, problems);
                }
              });
      Set<String> there = object.members().keySet();
      for (String name : required) {
        if (!there.contains(name)) {
          problems.add(
              node.place().missing(name),
              "\"" + name + "\" is missing: " + meanings.get(name) + " must stand here");
        }
      }
      for (List<String> names : exactlyOne) {
        long count = names.stream().filter(there::contains).count();
        if (count != 1) {
          problems.add(
              node.place(), "exactly one of " + String.join(", ", names) + " must stand here");
        }
      }
      for (List<String> names : atMostOne) {
        if (names.stream().filter(there::contains).count() > 1) {
          problems.add(node.place(), "only one of " + String.join(", ", names) + " may stand here");
        }
      }
      for (List<String> names : atLeastOne) {
        if (names.stream().noneMatch(there::contains)) {
          problems.add(
              node.place(), "at least one of " + String.join(", ", names) + " must stand here");
        }
      }
    }

    @Override
    public Map<String, Object> schema() {
      Map<String, Object> properties = new LinkedHashMap<>();
      fields.forEach(
          (name, shape) -> {
            Map<String, Object> schema = new LinkedHashMap<>();
            schema.put("description", meanings.get(name));
            schema.putAll(shape.schema());
            properties.put(name, schema);
          });
      Map<String, Object> schema =
          schemaOf("type", "object", "properties", properties, "additionalProperties", false);
      if (!required.isEmpty()) {
        schema.put("required", List.copyOf(required));
      }
      List<Object> all = new ArrayList<>();
      exactlyOne.forEach(names -> all.add(schemaOf("oneOf", anyRequired(names))));
      atLeastOne.forEach(names -> all.add(schemaOf("anyOf", anyRequired(names))));
      for (List<String> names : atMostOne) {
        all.add(schemaOf("not", schemaOf("required", names)));
      }
      if (!all.isEmpty()) {
        schema.put("allOf", all);
      }
      return schema;
    }

    private static List<Object> anyRequired(List<String> names) {
      return names.stream().map(name -> (Object) schemaOf("required", List.of(name))).toList();
    }
  }
}
