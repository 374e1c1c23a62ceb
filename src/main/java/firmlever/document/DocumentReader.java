package firmlever.document;

import static java.util.Objects.requireNonNull;

import firmlever.document.Node.Place;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.StreamReadConstraints;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.json.JsonFactory;

/**
 * Reads JSON text into {@link Node}s. Strict JSON (RFC 8259) in UTF-8, with or without a byte-order
 * mark; UTF-16 is read where a byte-order mark says so.
 */
public final class DocumentReader {
  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(Limit.NESTING.most())
                  .maxNumberLength(Limit.NUMBER_DIGITS.most())
                  .maxNameLength(1_000)
                  .maxStringLength(Limit.TEXT_LETTERS.most())
                  .build())
          .build();

  /** Where the parser's messages begin to speak of its own settings and buffers. */
  private static final Pattern OF_JAVA =
      Pattern.compile("(?s)(\n| \\(for |: enable `|: maybe a \\(non-standard).*");

  private final String file;
  private final Problems problems;

  private DocumentReader(String file) {
    this.file = file;
    this.problems = new Problems(file);
  }

  /** Reads a file whole; every failure is told as a {@link Problem} of that file. */
  public static Node read(Path path, String name) throws BadInput {
    return read(bytes(path, name), name);
  }

  /** The bytes of a file that is to be read whole; failures as for {@link #read(Path, String)}. */
  public static byte[] bytes(Path path, String name) throws BadInput {
    try {
      if (Files.isDirectory(path)) {
        throw whole(name, "is a directory, not a file", "Maybe name a file inside it.");
      }
      byte[] bytes;
      try (InputStream in = Files.newInputStream(path)) {
        // The size a file tells says nothing of a pipe or a device, so the bytes are counted.
        bytes = in.readNBytes(Limit.FILE_BYTES.most() + 1);
      }
      if (bytes.length > Limit.FILE_BYTES.most()) {
        throw whole(name, "is larger than 64 MB; no case file is", "");
      }
      return bytes;
    } catch (NoSuchFileException e) {
      throw whole(name, "there is no such file", sibling(path));
    } catch (AccessDeniedException e) {
      throw whole(name, "may not be read by this user", "");
    } catch (IOException e) {
      throw whole(name, "cannot be read: " + e.getMessage(), "");
    }
  }

  /** Reads JSON from bytes. */
  public static Node read(byte[] bytes, String name) throws BadInput {
    return readText(decoded(bytes, name), name);
  }

  /** Reads JSON from text. */
  public static Node readText(String text, String name) throws BadInput {
    if (text.isBlank()) {
      throw whole(name, "is empty; a JSON object must stand here", "");
    }
    return new DocumentReader(name).document(text);
  }

  private Node document(String text) throws BadInput {
    try (JsonParser parser = FACTORY.createParser(ObjectReadContext.empty(), text)) {
      parser.nextToken();
      Node top = value(parser, "");
      if (parser.nextToken() != null) {
        problems.add(
            place(parser.currentTokenLocation(), ""),
            "text follows the end of the document; one JSON value must stand here alone");
      }
      problems.throwIfAny();
      return top;
    } catch (JacksonException e) {
      problems.add(place(e.getLocation(), ""), explained(e));
      problems.throwIfAny();
      throw new IllegalStateException(e);
    }
  }

  private Node value(JsonParser parser, String pointer) {
    Place place = place(parser.currentTokenLocation(), pointer);
    JsonToken token = parser.currentToken();
    return switch (token) {
      case START_OBJECT -> object(parser, place);
      case START_ARRAY -> {
        List<Node> items = new ArrayList<>();
        while (parser.nextToken() != JsonToken.END_ARRAY) {
          items.add(value(parser, pointer + "/" + items.size()));
        }
        yield new Node.Array(items, place);
      }
      case VALUE_STRING -> new Node.Text(parser.getString(), place);
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> new Node.Number(decimal(parser, place), place);
      case VALUE_TRUE, VALUE_FALSE -> new Node.Flag(token == JsonToken.VALUE_TRUE, place);
      default -> new Node.Null(place);
    };
  }

  private BigDecimal decimal(JsonParser parser, Place place) {
    try {
      return parser.getDecimalValue();
    } catch (NumberFormatException e) {
      problems.add(place, "the exponent of this number is beyond all counting");
      return BigDecimal.ZERO;
    }
  }

  private Node object(JsonParser parser, Place place) {
    LinkedHashMap<String, Node> members = new LinkedHashMap<>();
    Map<String, Place> names = new HashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String name = parser.currentName();
      String pointer = place.pointer() + "/" + Place.escaped(name);
      Place nameAt = place(parser.currentTokenLocation(), pointer);
      parser.nextToken();
      Node value = value(parser, pointer);
      if (members.putIfAbsent(name, value) == null) {
        names.put(name, nameAt);
      } else {
        problems.add(
            nameAt,
            "\""
                + name
                + "\" stands here a second time, first in line "
                + requireNonNull(names.get(name)).line()
                + "; each name may stand once");
      }
    }
    return new Node.Object(members, names, place);
  }

  private static Place place(TokenStreamLocation location, String pointer) {
    return location == null
        ? new Place(1, 1, pointer)
        : new Place(
            Math.max(1, location.getLineNr()), Math.max(1, location.getColumnNr()), pointer);
  }

  /** The parser's own words, without the parts that speak of Java. */
  private static String explained(JacksonException e) {
    String message = e.getOriginalMessage();
    if (message.contains("nesting depth")) {
      return "is nested deeper than " + Limit.NESTING.most() + " levels; no case file is";
    }
    if (message.contains("Number value length") || message.contains("Number lexeme")) {
      return "holds a number of more than 400 digits";
    }
    if (message.contains("Name length")) {
      return "holds a name of more than a thousand characters";
    }
    if (message.contains("String value length")) {
      return "holds a text of more than a million characters";
    }
    if (message.contains("end-of-input")) {
      return "the file ends in the middle of a value; it seems to be cut off";
    }
    return "is not JSON: " + OF_JAVA.matcher(message).replaceFirst("").strip();
  }

  private static String decoded(byte[] bytes, String name) throws BadInput {
    Charset charset = StandardCharsets.UTF_8;
    int skip = 0;
    if (startsWith(bytes, 0xEF, 0xBB, 0xBF)) {
      skip = 3;
    } else if (startsWith(bytes, 0xFE, 0xFF) || startsWith(bytes, 0xFF, 0xFE)) {
      charset = StandardCharsets.UTF_16;
    }
    ByteBuffer input = ByteBuffer.wrap(bytes, skip, bytes.length - skip);
    CharBuffer output = CharBuffer.allocate(bytes.length + 1);
    var decoder =
        charset
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    var result = decoder.decode(input, output, true);
    if (result.isError()) {
      output.flip();
      String before = output.toString();
      int line = (int) before.chars().filter(c -> c == '\n').count() + 1;
      int column = before.length() - before.lastIndexOf('\n');
      throw new BadInput(
          List.of(
              Problem.at(
                  name,
                  new Place(line, column, ""),
                  "a byte here is not " + charset.name() + " text; case files are UTF-8",
                  java.util.Optional.of("Maybe save the file again as UTF-8."))));
    }
    try {
      decoder.flush(output);
      output.flip();
      return output.toString();
    } catch (IllegalStateException e) {
      throw whole(name, "cannot be decoded", "");
    }
  }

  private static boolean startsWith(byte[] bytes, int... start) {
    if (bytes.length < start.length) {
      return false;
    }
    for (int i = 0; i < start.length; i++) {
      if ((bytes[i] & 0xFF) != start[i]) {
        return false;
      }
    }
    return true;
  }

  private static String sibling(Path path) {
    Path folder = path.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      return "";
    }
    try (var files = Files.list(folder)) {
      List<String> names = files.map(f -> f.getFileName().toString()).sorted().toList();
      return Nearest.to(path.getFileName().toString(), names)
          .map(near -> "Maybe " + folder.resolve(near) + " was meant.")
          .orElse("");
    } catch (IOException e) {
      return "";
    }
  }

  private static BadInput whole(String file, String message, String maybe) {
    return new BadInput(List.of(Problem.ofFile(file, message, maybe)));
  }
}
