package firmlever.records.tables;

import static java.util.Objects.requireNonNull;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.document.JsonText;
import firmlever.document.Limit;
import firmlever.document.Node;
import firmlever.document.Problems;
import firmlever.document.Shape;
import java.io.FilterReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeFormatterBuilder;
import java.time.format.ResolverStyle;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * What the columns of a table mean: each is a field of the case file, {@code brake.id} or {@code
 * outcome.causes}; the words of a column can be translated, and a cell can hold a list.
 *
 * @param dates patterns of days, tried in order; none where days are written 2026-05-12
 * @param heard fields that hold words to be heard: the import turns them into names
 * @param columns from the heading of a column to the field it fills
 * @param values by field: from the word in the table to the word of the case file
 */
public record CsvMapping(
    char separator,
    String listSeparator,
    List<String> dates,
    List<String> heard,
    Map<String, String> columns,
    Map<String, Map<String, String>> values) {
  private static final Set<String> LISTS =
      Set.of("outcome.causes", "outcome.works", "readings.pad-thickness");
  static final Set<String> DATES = Set.of("opened", "brake.fitted", "outcome.closed");
  private static final Set<String> WHOLE = Set.of("brake.caliper.pistons");
  private static final Set<String> NUMBERS = Set.of("brake.lever.ratio");

  private static final Shape SHAPE =
      Shape.object()
          .needs(
              "format",
              Shape.oneOf("a format", List.of("firmlever-mapping/1")),
              "the format of the file")
          .may("separator", separating(), "what parts the columns; a comma if not told")
          .may("list-separator", Shape.text(3), "what parts a list in a cell; a semicolon")
          .may("dates", Shape.list(0, Shape.text(30)), "patterns of days, such as d.M.uuuu")
          .may("heard", Shape.list(0, field()), "fields whose words are to be heard")
          .needs("columns", free(field()), "the field each column fills")
          .may("values", free(free(Shape.text(80))), "translations, by field");

  /** What may part columns: a comma, a semicolon, a tab, but nothing that stands in a cell. */
  private static Shape separating() {
    Pattern form = Pattern.compile("[^\"\\r\\n\\p{Alnum}]");
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text) || !form.matcher(text.value()).matches()) {
          problems.add(
              node.place(),
              node.spoken()
                  + " stands here; it must be one character such as , ; or a tab (\\t), and no"
                  + " quote, letter or figure");
        }
      }

      @Override
      public Map<String, Object> schema() {
        return Map.of("type", "string", "pattern", "^" + form.pattern() + "$");
      }
    };
  }

  /** The place of a field in the case file. */
  private static Shape field() {
    Pattern form = Pattern.compile("[a-z0-9-]+(\\.[a-z0-9-]+){0,5}");
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (!(node instanceof Node.Text text) || !form.matcher(text.value()).matches()) {
          problems.add(
              node.place(),
              node.spoken()
                  + " stands here; it must be a field of the case file, such as \"brake.id\"");
        }
      }

      @Override
      public Map<String, Object> schema() {
        return Map.of("type", "string", "pattern", "^" + form.pattern() + "$");
      }
    };
  }

  /** An object with any names. */
  private static Shape free(Shape value) {
    return new Shape() {
      @Override
      public void check(Node node, Problems problems) {
        if (node instanceof Node.Object object) {
          object.members().values().forEach(each -> value.check(each, problems));
        } else {
          problems.add(node.place(), node.spoken() + " stands here; it must be an object");
        }
      }

      @Override
      public Map<String, Object> schema() {
        return Map.of("type", "object", "additionalProperties", value.schema());
      }
    };
  }

  /**
   * Reads a mapping file.
   *
   * @param names what it may name
   * @throws BadInput where it has not the form, or names a field or a word of case files that there
   *     is not
   */
  public static CsvMapping read(Path path, String name, CaseNames names) throws BadInput {
    Node node = DocumentReader.read(path, name);
    Problems problems = new Problems(name);
    SHAPE.check(node, problems);
    problems.throwIfAny();
    Fields f = Fields.of(node);
    names.check(f, problems);
    problems.throwIfAny();
    Map<String, String> columns = texts(f.inner("columns"));
    Map<String, Map<String, String>> values = new LinkedHashMap<>();
    Fields given = f.inner("values");
    given
        .object()
        .members()
        .keySet()
        .forEach(field -> values.put(field, texts(given.inner(field))));
    return new CsvMapping(
        f.text("separator", ",").charAt(0),
        f.text("list-separator", ";"),
        f.texts("dates"),
        f.texts("heard"),
        columns,
        values);
  }

  private static Map<String, String> texts(Fields f) {
    Map<String, String> texts = new LinkedHashMap<>();
    f.object().members().keySet().forEach(key -> texts.put(key, f.text(key)));
    return texts;
  }

  /** Takes a record or a reason with its line. */
  public interface Taker {
    void take(String text, long line) throws IOException;
  }

  /** Turns every row into the text of a case file. */
  public void read(InputStream in, Taker rows, Taker rejected) throws IOException {
    Rows reader =
        new Rows(
            new InputStreamReader(
                in,
                StandardCharsets.UTF_8.newDecoder().onMalformedInput(CodingErrorAction.REPORT)));
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(separator)
            .setHeader()
            .setSkipHeaderRecord(true)
            .setIgnoreSurroundingSpaces(true)
            .get();
    long line = 1;
    try (CSVParser parser = CSVParser.parse(reader, format)) {
      for (String column : columns.keySet()) {
        if (!parser.getHeaderMap().containsKey(column)) {
          rejected.take("the table has no column \"" + column + "\"", 1);
          return;
        }
      }
      Iterator<CSVRecord> records = parser.iterator();
      // Asking for a next record reads it already, so the line is asked for first.
      line = parser.getCurrentLineNumber() + 1;
      while (records.hasNext()) {
        CSVRecord row = records.next();
        reader.rowIsRead();
        if (row.isConsistent()) {
          rows.take(JsonText.of(document(row::get)), line);
        } else {
          rejected.take(
              "the row has "
                  + row.size()
                  + " cells and the heading "
                  + parser.getHeaderMap().size(),
              line);
        }
        line = parser.getCurrentLineNumber() + 1;
      }
    } catch (IOException e) {
      rejected.take(broken(e), line);
    } catch (UncheckedIOException e) {
      rejected.take(broken(requireNonNull(e.getCause())), line);
    } catch (IllegalArgumentException | IllegalStateException e) {
      rejected.take("the table cannot be read on: " + e.getMessage(), line);
    }
  }

  private static String broken(IOException e) {
    return e instanceof CharacterCodingException
        ? "the table cannot be read on: here or further down a letter is not UTF-8. Maybe save the"
            + " table again as \"CSV UTF-8\""
        : "the table cannot be read on: " + e.getMessage();
  }

  /** The text of a table, without a byte-order mark; a row that never ends is cut off. */
  private static final class Rows extends FilterReader {
    private boolean begun;
    private long sinceRow;

    Rows(Reader reader) {
      super(reader);
    }

    void rowIsRead() {
      sinceRow = 0;
    }

    @Override
    public int read() throws IOException {
      char[] one = new char[1];
      return read(one, 0, 1) < 0 ? -1 : one[0];
    }

    @Override
    public int read(char[] into, int from, int count) throws IOException {
      int got = super.read(into, from, count);
      if (got > 0 && !begun) {
        begun = true;
        if (into[from] == '\uFEFF') {
          System.arraycopy(into, from + 1, into, from, got - 1);
          return got == 1 ? read(into, from, count) : got - 1;
        }
      }
      sinceRow += got;
      if (sinceRow > Limit.RECORD_BYTES.most()) {
        throw new IOException("a row is longer than a million characters; maybe a quote is open");
      }
      return got;
    }
  }

  /** The text of the mapping file. */
  public String text() {
    Map<String, Object> file = new LinkedHashMap<>();
    file.put("format", "firmlever-mapping/1");
    file.put("separator", String.valueOf(separator));
    file.put("list-separator", listSeparator);
    file.put("dates", dates);
    file.put("heard", heard);
    file.put("columns", columns);
    file.put("values", values);
    return JsonText.of(file) + "\n";
  }

  /** A row as the document of a case; what a cell does not say is left out. */
  public Map<String, Object> document(UnaryOperator<String> cells) {
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("format", "firmlever-case/1");
    columns.forEach(
        (column, field) -> {
          String cell = cells.apply(column).strip();
          if (!cell.isEmpty()) {
            put(document, field, value(field, cell));
          }
        });
    return document;
  }

  private Object value(String field, String cell) {
    Map<String, String> words = values.getOrDefault(field, Map.of());
    if (DATES.contains(field)) {
      return words.getOrDefault(cell, day(cell).map(LocalDate::toString).orElse(cell));
    }
    if (heard.contains(field)) {
      return words.getOrDefault(cell, cell);
    }
    if (LISTS.contains(field)) {
      List<Object> list = new ArrayList<>();
      for (String each : cell.split(Pattern.quote(listSeparator))) {
        if (!each.isBlank()) {
          list.add(words.getOrDefault(each.strip(), each.strip()));
        }
      }
      return list;
    }
    String word = words.getOrDefault(cell, cell);
    // What is no number is left as it is; the case reader says so with its place.
    if (WHOLE.contains(field) && word.matches("[0-9]{1,4}")) {
      return Integer.valueOf(word);
    }
    if (NUMBERS.contains(field) && word.matches("[0-9]{1,4}(\\.[0-9]{1,6})?")) {
      return Double.valueOf(word);
    }
    return word;
  }

  /** The day a cell tells; a time of day behind it is left out. */
  public Optional<LocalDate> day(String cell) {
    return dates.stream().flatMap(pattern -> day(cell, pattern).stream()).findFirst();
  }

  /** The last day of a year as the pattern writes it, which nobody reads the other way round. */
  public static String sample(String pattern) {
    return DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH).format(LocalDate.of(2025, 12, 31));
  }

  public static Optional<LocalDate> day(String cell, String pattern) {
    String day = cell.strip().replaceFirst("(?<=\\d)(T|,?\\s+)\\d{1,2}[:.h]\\d{2}.*$", "");
    try {
      return Optional.of(
          LocalDate.parse(
              day,
              new DateTimeFormatterBuilder()
                  .parseCaseInsensitive()
                  .appendPattern(pattern)
                  .toFormatter(Locale.ENGLISH)
                  .withResolverStyle(ResolverStyle.STRICT)));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  @SuppressWarnings("unchecked")
  static void put(Map<String, Object> document, String field, Object value) {
    String[] names = field.split("\\.");
    Map<String, Object> at = document;
    for (int i = 0; i < names.length - 1; i++) {
      Object inner = at.computeIfAbsent(names[i], n -> new LinkedHashMap<String, Object>());
      if (!(inner instanceof Map)) {
        return;
      }
      at = (Map<String, Object>) inner;
    }
    at.put(names[names.length - 1], value);
  }
}
