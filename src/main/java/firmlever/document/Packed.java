package firmlever.document;

import static java.util.Objects.requireNonNull;

import java.io.ByteArrayOutputStream;
import java.lang.reflect.Constructor;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Records as bytes: whole numbers in as few bytes as they need, doubles bit for bit, each text once
 * and then by its number. The declared types say what is written, so nothing else can be read, and
 * equal records give equal bytes. Only these types are known: records, texts, whole numbers,
 * doubles, truth values, days, enumerations, optional values, lists, sets of texts and maps.
 */
public final class Packed {
  private Packed() {}

  /** What is read is not what was written; the message is the end of a sentence. */
  public static final class Broken extends Exception {
    private static final long serialVersionUID = 1L;

    private Broken(String message) {
      super(message);
    }
  }

  /** What is told where values were read and do not fit together. */
  public static Broken broken(String what) {
    return new Broken(what);
  }

  /** A record type taken apart once. */
  private record Parts(RecordComponent[] components, Constructor<?> constructor) {}

  private static final Map<Class<?>, Parts> KNOWN = new ConcurrentHashMap<>();

  private static Parts parts(Class<?> type) {
    return KNOWN.computeIfAbsent(
        type,
        t -> {
          RecordComponent[] components = t.getRecordComponents();
          try {
            Constructor<?> constructor =
                t.getDeclaredConstructor(
                    Arrays.stream(components)
                        .map(RecordComponent::getType)
                        .toArray(Class<?>[]::new));
            constructor.setAccessible(true);
            for (RecordComponent each : components) {
              each.getAccessor().setAccessible(true);
            }
            return new Parts(components, constructor);
          } catch (NoSuchMethodException e) {
            throw new IllegalStateException("every record has its constructor", e);
          }
        });
  }

  /**
   * What is written of these types, in words: changes exactly where the bytes change their meaning.
   */
  public static String shape(Class<?>... records) {
    Map<String, String> shapes = new TreeMap<>();
    for (Class<?> each : records) {
      tell(each, shapes);
    }
    StringBuilder text = new StringBuilder();
    shapes.forEach((name, parts) -> text.append(name).append(' ').append(parts).append('\n'));
    return text.toString();
  }

  private static void tell(Type type, Map<String, String> shapes) {
    if (type instanceof ParameterizedType generic) {
      for (Type each : generic.getActualTypeArguments()) {
        tell(each, shapes);
      }
    } else if (type instanceof Class<?> c && c.isEnum()) {
      shapes.put(c.getSimpleName(), Arrays.toString(c.getEnumConstants()));
    } else if (type instanceof Class<?> c
        && c.isRecord()
        && shapes.putIfAbsent(name(c), "") == null) {
      List<String> parts = new ArrayList<>();
      for (RecordComponent each : c.getRecordComponents()) {
        parts.add(each.getName() + ": " + words(each.getGenericType()));
        tell(each.getGenericType(), shapes);
      }
      shapes.put(name(c), String.join(", ", parts));
    }
  }

  private static String name(Class<?> type) {
    return type.getEnclosingClass() == null
        ? type.getSimpleName()
        : name(type.getEnclosingClass()) + "." + type.getSimpleName();
  }

  private static String words(Type type) {
    if (type instanceof ParameterizedType generic) {
      return words(generic.getRawType())
          + Arrays.stream(generic.getActualTypeArguments()).map(Packed::words).toList();
    }
    return ((Class<?>) type).getSimpleName();
  }

  /** Writes values one after the other. */
  public static final class Writer {
    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private final Map<String, Integer> texts = new HashMap<>();

    /** All that was written. */
    public byte[] bytes() {
      return bytes.toByteArray();
    }

    /** A record, all its parts included. */
    public void record(Record value) {
      write(value.getClass(), value);
    }

    /** A whole number: 7 bits a byte, the lowest first, its sign in the lowest bit. */
    public void number(long value) {
      long rest = (value << 1) ^ (value >> 63);
      while ((rest & ~0x7fL) != 0) {
        bytes.write((int) (rest & 0x7f | 0x80));
        rest >>>= 7;
      }
      bytes.write((int) rest);
    }

    /** A text: the first time in full, then by its number. */
    public void text(String value) {
      Integer known = texts.putIfAbsent(value, texts.size());
      if (known != null) {
        number(known + 1L);
        return;
      }
      number(0);
      // Not UTF-8: a lone surrogate must come back as it was.
      byte[] content = value.getBytes(StandardCharsets.UTF_8);
      boolean whole = new String(content, StandardCharsets.UTF_8).equals(value);
      byte[] written = whole ? content : value.getBytes(StandardCharsets.UTF_16BE);
      number(whole ? written.length : -1L - written.length);
      bytes.writeBytes(written);
    }

    /** A double, bit for bit. */
    public void real(double value) {
      long bits = Double.doubleToRawLongBits(value);
      for (int shift = 56; shift >= 0; shift -= 8) {
        bytes.write((int) (bits >>> shift));
      }
    }

    private void write(Type type, Object value) {
      if (type instanceof ParameterizedType generic) {
        Type[] of = generic.getActualTypeArguments();
        if (value instanceof Optional<?> optional) {
          number(optional.isPresent() ? 1 : 0);
          optional.ifPresent(v -> write(of[0], v));
        } else if (value instanceof Map<?, ?> map) {
          number(map.size());
          map.forEach(
              (k, v) -> {
                write(of[0], k);
                write(of[1], v);
              });
        } else if (value instanceof Set<?> set) {
          // A set has no order of its own; the same set must give the same bytes.
          number(set.size());
          new TreeSet<>(set).forEach(v -> write(of[0], v));
        } else if (value instanceof Collection<?> list) {
          number(list.size());
          list.forEach(v -> write(of[0], v));
        } else {
          throw unknown(type);
        }
      } else if (value instanceof String text) {
        text(text);
      } else if (value instanceof Double number) {
        real(number);
      } else if (value instanceof Long || value instanceof Integer) {
        number(((Number) value).longValue());
      } else if (value instanceof Boolean truth) {
        number(truth ? 1 : 0);
      } else if (value instanceof LocalDate day) {
        number(day.toEpochDay());
      } else if (value instanceof Enum<?> constant) {
        text(constant.name());
      } else if (value instanceof OptionalInt optional) {
        number(optional.isPresent() ? 1 : 0);
        optional.ifPresent(this::number);
      } else if (value instanceof Record) {
        for (RecordComponent each : parts(value.getClass()).components) {
          try {
            write(each.getGenericType(), each.getAccessor().invoke(value));
          } catch (IllegalAccessException | InvocationTargetException e) {
            throw new IllegalStateException(e);
          }
        }
      } else {
        throw unknown(type);
      }
    }
  }

  private static IllegalArgumentException unknown(Type type) {
    return new IllegalArgumentException("values of " + type + " cannot be packed");
  }

  /** Reads values in the order in which they were written. */
  public static final class Reader {
    private final byte[] bytes;
    private final List<String> texts = new ArrayList<>();
    private int at;

    public Reader(byte[] bytes) {
      this.bytes = bytes.clone();
    }

    /** Ends the reading: nothing may be left. */
    public void end() throws Broken {
      if (at < bytes.length) {
        throw broken("something follows its end");
      }
    }

    /** A record of this type. */
    public <T extends Record> T record(Class<T> type) throws Broken {
      return type.cast(read(type));
    }

    /** A whole number. */
    public long number() throws Broken {
      long value = 0;
      for (int shift = 0; shift < 64; shift += 7) {
        if (at == bytes.length) {
          throw broken("it ends in the middle of a value");
        }
        byte next = bytes[at++];
        value |= (long) (next & 0x7f) << shift;
        if (next >= 0) {
          return (value >>> 1) ^ -(value & 1);
        }
      }
      throw broken("a number is too long");
    }

    /** How many values follow: each takes a byte or more, so no more than bytes are left. */
    int count() throws Broken {
      long count = number();
      if (count < 0 || count > bytes.length - at) {
        throw broken("it cannot hold so many values (" + count + ")");
      }
      return (int) count;
    }

    /** A text. */
    public String text() throws Broken {
      long known = number();
      if (known < 0 || known > texts.size()) {
        throw broken("it names a text that was not told");
      }
      if (known > 0) {
        return texts.get((int) known - 1);
      }
      long told = number();
      long length = told < 0 ? -1 - told : told;
      if (length > bytes.length - at) {
        throw broken("a text is longer than what is left");
      }
      String text =
          new String(
              bytes,
              at,
              (int) length,
              told < 0 ? StandardCharsets.UTF_16BE : StandardCharsets.UTF_8);
      at += (int) length;
      texts.add(text);
      return text;
    }

    /** A double, bit for bit. */
    public double real() throws Broken {
      if (bytes.length - at < Long.BYTES) {
        throw broken("it ends in the middle of a value");
      }
      long bits = 0;
      for (int i = 0; i < Long.BYTES; i++) {
        bits = bits << 8 | (bytes[at++] & 0xff);
      }
      return Double.longBitsToDouble(bits);
    }

    private boolean truth() throws Broken {
      long value = number();
      if (value != 0 && value != 1) {
        throw broken("a truth value is " + value);
      }
      return value == 1;
    }

    private int small() throws Broken {
      long value = number();
      if ((int) value != value) {
        throw broken("a number is too large (" + value + ")");
      }
      return (int) value;
    }

    private Object read(Type type) throws Broken {
      if (type instanceof ParameterizedType generic) {
        return many((Class<?>) generic.getRawType(), generic.getActualTypeArguments());
      }
      Class<?> plain = (Class<?>) type;
      if (plain == String.class) {
        return text();
      } else if (plain == double.class || plain == Double.class) {
        return real();
      } else if (plain == long.class || plain == Long.class) {
        return number();
      } else if (plain == int.class || plain == Integer.class) {
        return small();
      } else if (plain == boolean.class || plain == Boolean.class) {
        return truth();
      } else if (plain == LocalDate.class) {
        return day();
      } else if (plain == OptionalInt.class) {
        return truth() ? OptionalInt.of(small()) : OptionalInt.empty();
      } else if (plain.isEnum()) {
        return constant(plain);
      } else if (plain.isRecord()) {
        return whole(plain);
      }
      throw unknown(type);
    }

    private LocalDate day() throws Broken {
      try {
        return LocalDate.ofEpochDay(number());
      } catch (java.time.DateTimeException e) {
        throw broken("a day is none of the calendar");
      }
    }

    private Object constant(Class<?> type) throws Broken {
      String name = text();
      for (Object each : type.getEnumConstants()) {
        if (((Enum<?>) each).name().equals(name)) {
          return each;
        }
      }
      throw broken("\"" + name + "\" is no " + type.getSimpleName());
    }

    private Object whole(Class<?> type) throws Broken {
      Parts parts = parts(type);
      Object[] values = new Object[parts.components.length];
      for (int i = 0; i < values.length; i++) {
        values[i] = read(parts.components[i].getGenericType());
      }
      try {
        return parts.constructor.newInstance(values);
      } catch (InvocationTargetException e) {
        throw broken(String.valueOf(requireNonNull(e.getCause()).getMessage()));
      } catch (ReflectiveOperationException e) {
        throw new IllegalStateException(e);
      }
    }

    private Object many(Class<?> raw, Type[] of) throws Broken {
      if (raw == Optional.class) {
        return truth() ? Optional.of(read(of[0])) : Optional.empty();
      }
      int count = count();
      if (Map.class.isAssignableFrom(raw)) {
        Map<Object, Object> map =
            raw == NavigableMap.class ? new TreeMap<>() : new LinkedHashMap<>();
        for (int i = 0; i < count; i++) {
          map.put(read(of[0]), read(of[1]));
        }
        return raw == NavigableMap.class ? map : Collections.unmodifiableMap(map);
      }
      Collection<Object> all = raw == Set.class ? new LinkedHashSet<>() : new ArrayList<>();
      for (int i = 0; i < count; i++) {
        all.add(read(of[0]));
      }
      return raw == Set.class
          ? Collections.unmodifiableSet((Set<?>) all)
          : Collections.unmodifiableList((List<?>) all);
    }

    private Broken broken(String what) {
      return Packed.broken(what + " at byte " + at);
    }
  }
}
