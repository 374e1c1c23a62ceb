package firmlever.document;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A JSON value that remembers where in its file it stands. */
public sealed interface Node {

  Place place();

  /**
   * Where a value starts.
   *
   * @param line from 1
   * @param column from 1, counted in characters
   * @param pointer JSON Pointer (RFC 6901) from the top of the file
   */
  record Place(int line, int column, String pointer) {
    /** The place a nested value would have that is not there: this one, pointing further down. */
    Place missing(String name) {
      return new Place(line, column, pointer + "/" + escaped(name));
    }

    static String escaped(String name) {
      return name.replace("~", "~0").replace("/", "~1");
    }
  }

  record Text(String value, Place place) implements Node {}

  record Number(BigDecimal value, Place place) implements Node {}

  record Flag(boolean value, Place place) implements Node {}

  record Null(Place place) implements Node {}

  record Array(List<Node> items, Place place) implements Node {}

  record Object(LinkedHashMap<String, Node> members, Map<String, Place> names, Place place)
      implements Node {

    /** The member of that name, if the object has it. */
    public Optional<Node> get(String name) {
      return Optional.ofNullable(members.get(name));
    }

    /** Where the member's name stands. */
    public Place nameOf(String member) {
      return requireNonNull(names.get(member));
    }
  }

  /** How the value is spoken of in a message: shortened, in JSON's own notation. */
  default String spoken() {
    if (this instanceof Text text) {
      String value = text.value();
      return '"' + (value.length() > 60 ? value.substring(0, 57) + "…" : value) + '"';
    }
    if (this instanceof Number number) {
      String value = number.value().toString();
      return value.length() > 30 ? value.substring(0, 27) + "…" : value;
    }
    if (this instanceof Flag flag) {
      return String.valueOf(flag.value());
    }
    if (this instanceof Array array) {
      return "a list of " + array.items().size();
    }
    return this instanceof Object ? "an object" : "null";
  }
}
