package firmlever.cli;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Node;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Documents that are JSON and yet not what is wanted: good ones with a few edits, which bytes say.
 * Random bytes are hardly ever JSON; these reach what lies behind the parser.
 */
final class Malformed {
  /** Bytes that begin with this say edits; all others are the text itself. */
  static final byte EDITS = (byte) 0xFF;

  private static final int MOST_EDITS = 12;
  private static final int DEEPEST = 8;

  /** Values in a document that is not edited further: each edit may double it. */
  private static final int MOST_VALUES = 20_000;

  private static final List<Object> VALUES =
      List.of(
          "",
          " ",
          "x",
          "-1",
          "2026-02-30",
          "0001-01-01",
          "9999-12-31",
          "2026-05-12",
          "=1+1",
          "\u001b[2J",
          "\u202e",
          "\ud83d\ude00",
          "<script>",
          "../../etc/passwd",
          "x".repeat(10_000),
          0,
          -1,
          1e-300,
          1e300,
          Integer.MAX_VALUE,
          Long.MIN_VALUE,
          true,
          List.of(),
          Map.of());

  private final List<Object> good = new ArrayList<>();
  private final List<String> names = new ArrayList<>();

  /** Edits of good documents. */
  Malformed(List<byte[]> documents) {
    for (byte[] each : documents) {
      try {
        good.add(plain(DocumentReader.read(each, "seed")));
      } catch (BadInput e) {
        throw new IllegalArgumentException(e.getMessage(), e);
      }
    }
    good.forEach(this::collect);
  }

  /** What the bytes say: themselves, or a good document as they edit it. */
  byte[] of(byte[] bytes) {
    if (bytes.length < 2 || bytes[0] != EDITS) {
      return bytes;
    }
    Dice dice = new Dice(bytes);
    Object document = copy(dice.one(good));
    for (int edit = 1 + dice.upTo(MOST_EDITS); edit > 0 && values(document) < MOST_VALUES; edit--) {
      document = edited(document, dice, 0);
    }
    return JsonText.of(document).getBytes(StandardCharsets.UTF_8);
  }

  private static int values(Object at) {
    int values = 1;
    if (at instanceof Map<?, ?> map) {
      values += map.values().stream().mapToInt(Malformed::values).sum();
    } else if (at instanceof List<?> list) {
      values += list.stream().mapToInt(Malformed::values).sum();
    }
    return values;
  }

  private Object edited(Object at, Dice dice, int depth) {
    boolean inner =
        at instanceof Map<?, ?> map && !map.isEmpty()
            || at instanceof List<?> list && !list.isEmpty();
    if (inner && depth < DEEPEST && dice.upTo(4) > 0) {
      return within(at, dice, depth);
    }
    return switch (dice.upTo(5)) {
      case 0 -> copy(dice.one(good));
      case 1 -> new ArrayList<>(List.of(at, at));
      case 2 -> new LinkedHashMap<>(Map.of(dice.one(names), at));
      default -> dice.one(VALUES);
    };
  }

  @SuppressWarnings("unchecked")
  private Object within(Object at, Dice dice, int depth) {
    if (at instanceof List<?>) {
      List<Object> list = (List<Object>) at;
      int index = dice.upTo(list.size());
      switch (dice.upTo(6)) {
        case 0 -> list.remove(index);
        case 1 -> list.add(copy(list.get(index)));
        default -> list.set(index, edited(list.get(index), dice, depth + 1));
      }
      return list;
    }
    Map<String, Object> map = (Map<String, Object>) at;
    String name = dice.one(List.copyOf(map.keySet()));
    switch (dice.upTo(8)) {
      case 0 -> map.remove(name);
      case 1 -> map.put(dice.one(names), map.remove(name));
      case 2 -> map.put(dice.one(names), dice.one(VALUES));
      case 3 -> map.put(name, copy(dice.one(List.copyOf(map.values()))));
      default -> map.put(name, edited(map.get(name), dice, depth + 1));
    }
    return map;
  }

  private void collect(Object at) {
    if (at instanceof Map<?, ?> map) {
      map.forEach(
          (name, value) -> {
            if (!names.contains(name)) {
              names.add((String) name);
            }
            collect(value);
          });
    } else if (at instanceof List<?> list) {
      list.forEach(this::collect);
    }
  }

  private static Object plain(Node node) {
    if (node instanceof Node.Object object) {
      Map<String, Object> map = new LinkedHashMap<>();
      object.members().forEach((name, value) -> map.put(name, plain(value)));
      return map;
    }
    if (node instanceof Node.Array array) {
      return new ArrayList<>(array.items().stream().map(Malformed::plain).toList());
    }
    if (node instanceof Node.Text text) {
      return text.value();
    }
    if (node instanceof Node.Number number) {
      return number.value().doubleValue();
    }
    return node instanceof Node.Flag flag ? (Object) flag.value() : "null";
  }

  private static Object copy(Object at) {
    if (at instanceof Map<?, ?> map) {
      Map<Object, Object> copy = new LinkedHashMap<>();
      map.forEach((name, value) -> copy.put(name, copy(value)));
      return copy;
    }
    return at instanceof List<?> list
        ? new ArrayList<>(list.stream().map(Malformed::copy).toList())
        : at;
  }

  /** Choices out of bytes; the first of each where they have run out. */
  private static final class Dice {
    private final byte[] bytes;
    private int at = 1;

    Dice(byte[] bytes) {
      this.bytes = bytes;
    }

    int upTo(int bound) {
      int drawn = next();
      return (bound > 256 ? drawn << 8 | next() : drawn) % bound;
    }

    private int next() {
      return at < bytes.length ? bytes[at++] & 0xff : 0;
    }

    <T> T one(List<T> all) {
      return all.get(upTo(all.size()));
    }
  }
}
