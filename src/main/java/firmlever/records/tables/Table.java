package firmlever.records.tables;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Limit;
import firmlever.document.Node;
import firmlever.document.Problem;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;

/**
 * A table as a shop keeps it: CSV in any usual form, the first filled sheet of an xlsx file, or one
 * JSON object a line.
 *
 * @param headings of the columns, no two alike
 * @param rows with their line in the file
 * @param remarks on how it was read: letters, separator, what stood above the heading
 */
public record Table(List<String> headings, List<Line> rows, char separator, List<String> remarks) {
  private static final char[] SEPARATORS = {',', ';', '\t', '|'};
  private static final int LOOKED_AT = 200;

  /** One row: its cells by heading, empty where nothing stands; extra cells behind the last. */
  public record Line(long line, Map<String, String> cells, int extra) {
    public boolean isBlank() {
      return extra == 0 && cells.values().stream().allMatch(String::isBlank);
    }
  }

  private record Raw(long line, List<String> cells) {
    long filled() {
      return cells.stream().filter(cell -> !cell.isBlank()).count();
    }
  }

  /** Reads a file by its ending. */
  public static Table read(Path path, String name) throws BadInput {
    String lower = name.toLowerCase(Locale.ROOT);
    try {
      if (lower.endsWith(".xlsx")) {
        return workbook(path, name);
      }
      byte[] bytes = DocumentReader.bytes(path, name);
      List<String> remarks = new ArrayList<>();
      String text = text(bytes, remarks);
      if (lower.endsWith(".ndjson") || lower.endsWith(".jsonl")) {
        return lines(text, remarks);
      }
      return csv(text, name, remarks);
    } catch (IOException | UncheckedIOException e) {
      throw refused(name, "cannot be read: " + e.getMessage(), "");
    }
  }

  private static BadInput refused(String name, String message, String maybe) {
    return new BadInput(List.of(Problem.ofFile(name, message, maybe)));
  }

  /** UTF-8 where it is, else what a mark at the beginning says, else the letters of old Windows. */
  private static String text(byte[] bytes, List<String> remarks) {
    if (bytes.length > 1 && (bytes[0] & 0xff) + (bytes[1] & 0xff) == 0xff + 0xfe) {
      remarks.add("the letters are UTF-16");
      return new String(bytes, StandardCharsets.UTF_16);
    }
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes))
              .toString();
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      remarks.add("the letters are not UTF-8 and were taken for Windows-1252");
      return new String(bytes, Charset.forName("windows-1252"));
    }
  }

  private static Table csv(String text, String name, List<String> remarks)
      throws IOException, BadInput {
    char best = ',';
    long most = -1;
    for (char separator : SEPARATORS) {
      List<Raw> raws = records(text, separator, LOOKED_AT);
      long widest = raws.stream().mapToLong(Raw::filled).max().orElse(0);
      // Rows of one width, and wide ones: that is the right separator.
      long alike =
          raws.stream()
              .filter(r -> r.cells.size() == raws.get(raws.size() - 1).cells.size())
              .count();
      if (widest > 1 && alike * widest > most) {
        most = alike * widest;
        best = separator;
      }
    }
    remarks.add(
        "the columns are separated by "
            + (best == '\t'
                ? "tabs"
                : best == ',' ? "commas" : best == ';' ? "semicolons" : "bars"));
    return headed(records(text, best, Limit.TABLE_ROWS.most() + 1), best, name, remarks);
  }

  private static List<Raw> records(String text, char separator, int most) throws IOException {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(separator)
            .setIgnoreSurroundingSpaces(true)
            .setLenientEof(true)
            .setTrailingData(true)
            .get();
    List<Raw> raws = new ArrayList<>();
    try (CSVParser parser = CSVParser.parse(new StringReader(text), format)) {
      long line = 1;
      Iterator<CSVRecord> records = parser.iterator();
      while (raws.size() < most && records.hasNext()) {
        raws.add(new Raw(line, records.next().toList()));
        line = parser.getCurrentLineNumber() + 1;
      }
    }
    return raws;
  }

  /** How much the parts of a packed file come to, by what it says of them, bytes. */
  private static long unpacked(Path path) throws IOException {
    try (ZipFile zip = new ZipFile(path.toFile())) {
      return zip.stream().mapToLong(ZipEntry::getSize).filter(size -> size > 0).sum();
    }
  }

  /** What reads the workbook stops at a damaged one with failures of many kinds. */
  private static Table workbook(Path path, String name) throws IOException, BadInput {
    try {
      return sheet(path, name);
    } catch (RuntimeException e) {
      throw refused(
          name,
          "is damaged, or no workbook: " + e.getMessage(),
          "Maybe open it where it comes from and save it anew, or save the one sheet as CSV.");
    }
  }

  private static Table sheet(Path path, String name) throws IOException, BadInput {
    List<String> remarks = new ArrayList<>();
    if (unpacked(path) > Limit.TABLE_UNPACKED_BYTES.most()) {
      throw refused(name, "unpacks to more than 256 MB", "Maybe save the one sheet as CSV.");
    }
    try (InputStream in = Files.newInputStream(path);
        ReadableWorkbook book = new ReadableWorkbook(in, new ReadingOptions(true, true))) {
      List<Sheet> sheets = book.getSheets().toList();
      for (Sheet sheet : sheets) {
        List<Raw> raws = new ArrayList<>();
        try (Stream<Row> rows = sheet.openStream()) {
          rows.limit(Limit.TABLE_ROWS.most() + 1L)
              .forEach(row -> raws.add(new Raw(row.getRowNum(), cells(row))));
        }
        if (raws.stream().anyMatch(raw -> raw.filled() > 1)) {
          remarks.add("sheet \"" + sheet.getName() + "\" was read, of " + sheets.size());
          return headed(raws, ',', name, remarks);
        }
      }
    }
    throw refused(name, "has no sheet with a table", "");
  }

  private static List<String> cells(Row row) {
    List<String> cells = new ArrayList<>();
    for (int i = 0; i < row.getCellCount(); i++) {
      cells.add(row.getOptionalCell(i).map(Table::text).orElse(""));
    }
    return cells;
  }

  /** Days stand in a sheet as numbers, and only their format tells that they are days. */
  private static String text(Cell cell) {
    String format = Optional.ofNullable(cell.getDataFormatString()).orElse("");
    if (cell.getType() == CellType.NUMBER && format.toLowerCase(Locale.ROOT).contains("y")) {
      LocalDate day = cell.asDate().toLocalDate();
      return day.toString();
    }
    String text = Optional.ofNullable(cell.getText()).orElse("");
    return cell.getType() == CellType.NUMBER ? text.replaceFirst("\\.0+$", "") : text;
  }

  /** The first row with two filled cells or more is the heading. */
  private static Table headed(List<Raw> raws, char separator, String name, List<String> remarks)
      throws BadInput {
    if (raws.size() > Limit.TABLE_ROWS.most()) {
      throw refused(
          name, "has more than " + Limit.TABLE_ROWS.most() + " rows", "Maybe cut it by years.");
    }
    int at = 0;
    while (at < raws.size() && raws.get(at).filled() < 2) {
      at++;
    }
    if (at >= raws.size() - 1) {
      throw refused(name, "has no heading with rows below it", "Maybe it is no table.");
    }
    if (at > 0) {
      remarks.add("what stands above the heading in line " + raws.get(at).line + " was left out");
    }
    List<String> headings = new ArrayList<>();
    Set<String> taken = new LinkedHashSet<>();
    for (String cell : raws.get(at).cells) {
      String heading = cell.strip().isEmpty() ? "column " + (headings.size() + 1) : cell.strip();
      while (!taken.add(heading)) {
        heading += " again";
      }
      headings.add(heading);
    }
    List<Line> rows = new ArrayList<>();
    for (Raw raw : raws.subList(at + 1, raws.size())) {
      Map<String, String> cells = new LinkedHashMap<>();
      for (int i = 0; i < headings.size(); i++) {
        cells.put(headings.get(i), i < raw.cells.size() ? raw.cells.get(i).strip() : "");
      }
      long extra = raw.cells.stream().skip(headings.size()).filter(cell -> !cell.isBlank()).count();
      rows.add(new Line(raw.line, cells, (int) extra));
    }
    return new Table(List.copyOf(headings), List.copyOf(rows), separator, List.copyOf(remarks));
  }

  private static Table lines(String text, List<String> remarks) throws BadInput {
    Set<String> headings = new LinkedHashSet<>();
    List<Map<String, String>> all = new ArrayList<>();
    List<Long> numbers = new ArrayList<>();
    long number = 0;
    for (String line : text.split("\\R", -1)) {
      number++;
      if (!line.isBlank()) {
        Map<String, String> cells = new LinkedHashMap<>();
        flatten("", DocumentReader.readText(line, "line " + number), cells);
        headings.addAll(cells.keySet());
        all.add(cells);
        numbers.add(number);
      }
    }
    List<Line> rows = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      Map<String, String> cells = new LinkedHashMap<>();
      for (String heading : headings) {
        cells.put(heading, all.get(i).getOrDefault(heading, ""));
      }
      rows.add(new Line(numbers.get(i), cells, 0));
    }
    return new Table(List.copyOf(headings), List.copyOf(rows), ',', List.copyOf(remarks));
  }

  private static void flatten(String name, Node node, Map<String, String> into) {
    if (node instanceof Node.Object object) {
      object
          .members()
          .forEach((key, value) -> flatten(name.isEmpty() ? key : name + "." + key, value, into));
    } else if (node instanceof Node.Array list) {
      list.items().forEach(item -> flatten(name, item, into));
    } else {
      String text =
          node instanceof Node.Text words
              ? words.value()
              : node instanceof Node.Null ? "" : node.spoken();
      into.merge(name, text.strip(), (one, other) -> one + "; " + other);
    }
  }
}
