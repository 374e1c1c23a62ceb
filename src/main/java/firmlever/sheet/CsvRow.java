package firmlever.sheet;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.csv.CSVFormat;

/** A row of a table for a spreadsheet: RFC 4180, lines ended by a line feed. */
public final class CsvRow {
  private static final CSVFormat FORM = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

  private CsvRow() {}

  /** One row of any table. */
  public static String of(Object... cells) {
    List<Object> safe = new ArrayList<>();
    Arrays.stream(cells).map(CsvRow::harmless).forEach(safe::add);
    StringBuilder text = new StringBuilder();
    try {
      FORM.printRecord(text, safe.toArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  /** A spreadsheet would run a text that begins like a formula. */
  public static Object harmless(Object cell) {
    return cell instanceof String text && !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0
        ? "'" + text
        : cell;
  }
}
