package firmlever.document;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Changes one value in JSON text and leaves every other character as it is: order, layout and the
 * spelling of numbers.
 */
public final class JsonEdit {
  private JsonEdit() {}

  private static final Pattern LINE_END = Pattern.compile("\r\n|\r|\n");

  /**
   * The text with the value at a path set; members that are missing are added at the end of their
   * object.
   *
   * @param text a JSON object that {@link DocumentReader} reads
   * @param path names of members, outermost first
   * @param value a text, number, flag, or list of them
   * @throws BadInput where the text is no JSON, or something other than an object lies on the path
   */
  public static String set(String text, List<String> path, Object value) throws BadInput {
    Node node = DocumentReader.readText(text, "the case");
    for (int depth = 0; depth < path.size(); depth++) {
      if (!(node instanceof Node.Object object)) {
        throw new BadInput(
            List.of(
                Problem.ofFile(node.place().pointer(), "must be an object in curly brackets", "")));
      }
      Node inner = object.members().get(path.get(depth));
      if (inner == null) {
        String wrapped = oneLine(value);
        for (int below = path.size() - 1; below > depth; below--) {
          wrapped = "{ " + JsonText.of(path.get(below)) + ": " + wrapped + " }";
        }
        return added(text, object, path.get(depth), wrapped);
      }
      node = inner;
    }
    int start = offset(text, node.place());
    return text.substring(0, start) + oneLine(value) + text.substring(end(text, start));
  }

  /**
   * The text with a value added at the end of a list, a member of the whole.
   *
   * @throws BadInput where the text is no JSON object, or the member is something other than a list
   */
  public static String add(String text, String list, Object value) throws BadInput {
    Node.Object whole = (Node.Object) DocumentReader.readText(text, "the case");
    Node there = whole.members().get(list);
    if (there == null) {
      return set(text, List.of(list), List.of(value));
    }
    if (!(there instanceof Node.Array array)) {
      throw new BadInput(
          List.of(
              Problem.ofFile(there.place().pointer(), "must be a list in square brackets", "")));
    }
    if (array.items().isEmpty()) {
      return set(text, List.of(list), List.of(value));
    }
    Node last = array.items().get(array.items().size() - 1);
    int after = end(text, offset(text, last.place()));
    return text.substring(0, after) + ", " + oneLine(value) + text.substring(after);
  }

  /**
   * The text without the member at a path; the same text where there is none.
   *
   * @throws BadInput where the text is no JSON, or something other than an object lies on the path
   */
  public static String remove(String text, List<String> path) throws BadInput {
    Node node = DocumentReader.readText(text, "the case");
    for (int depth = 0; ; depth++) {
      if (!(node instanceof Node.Object object)) {
        throw new BadInput(
            List.of(
                Problem.ofFile(node.place().pointer(), "must be an object in curly brackets", "")));
      }
      String name = path.get(depth);
      Node inner = object.members().get(name);
      if (inner == null) {
        return text;
      }
      if (depth == path.size() - 1) {
        return without(text, object, name, inner);
      }
      node = inner;
    }
  }

  private static String without(String text, Node.Object holder, String name, Node value) {
    List<String> names = List.copyOf(holder.members().keySet());
    int at = names.indexOf(name);
    int end = end(text, offset(text, value.place()));
    if (at > 0) {
      // Everything after the value before it goes, its comma included.
      int from = end(text, offset(text, holder.get(names.get(at - 1)).orElseThrow().place()));
      return text.substring(0, from) + text.substring(end);
    }
    int from = offset(text, holder.nameOf(name));
    int to =
        names.size() > 1
            ? offset(text, holder.nameOf(names.get(1)))
            : end(text, offset(text, holder.place())) - 1;
    return text.substring(0, from) + text.substring(to);
  }

  private static String added(String text, Node.Object object, String name, String value) {
    int open = offset(text, object.place());
    int close = end(text, open) - 1;
    String member = JsonText.of(name) + ": " + value;
    if (object.members().isEmpty()) {
      return text.substring(0, open) + "{ " + member + " }" + text.substring(close + 1);
    }
    String last = "";
    for (String each : object.members().keySet()) {
      last = each;
    }
    int nameAt = offset(text, object.nameOf(last));
    int after = end(text, offset(text, object.get(last).orElseThrow().place()));
    String lineBefore = text.substring(0, nameAt);
    int lineStart = Math.max(lineBefore.lastIndexOf('\n'), lineBefore.lastIndexOf('\r')) + 1;
    String indent = lineBefore.substring(lineStart);
    // A member that begins its line is followed by one that does, as far in as itself.
    boolean ownLine = lineStart > 0 && indent.isBlank();
    String lineEnd = text.contains("\r\n") ? "\r\n" : "\n";
    return text.substring(0, after)
        + ","
        + (ownLine ? lineEnd + indent : " ")
        + member
        + text.substring(after);
  }

  private static String oneLine(Object value) {
    // Line ends within texts are written \n, so those that are left are layout.
    return JsonText.of(value).replaceAll("\n *", " ");
  }

  private static int offset(String text, Node.Place place) {
    Matcher lineEnd = LINE_END.matcher(text);
    int start = 0;
    for (int line = 1; line < place.line(); line++) {
      lineEnd.find();
      start = lineEnd.end();
    }
    return start + place.column() - 1;
  }

  /** Where the value that begins at {@code start} ends. */
  private static int end(String text, int start) {
    int depth = 0;
    boolean quoted = false;
    for (int at = start; at < text.length(); at++) {
      char c = text.charAt(at);
      if (quoted) {
        if (c == '\\') {
          at++;
        } else if (c == '"') {
          quoted = false;
          if (depth == 0) {
            return at + 1;
          }
        }
      } else if (c == '"') {
        quoted = true;
      } else if (c == '{' || c == '[') {
        depth++;
      } else if (c == '}' || c == ']') {
        if (depth == 0) {
          return at;
        }
        depth--;
        if (depth == 0) {
          return at + 1;
        }
      } else if (depth == 0 && (c == ',' || Character.isWhitespace(c))) {
        return at;
      }
    }
    return text.length();
  }
}
