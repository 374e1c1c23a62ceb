package firmlever.records.tables;

import firmlever.document.CalendarDay;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The days of a table, held against each other: one written unlike the others, or far from them, is
 * a slip to be mended where it was made.
 */
public final class TableDays {
  /** A brake is not kept longer than this, days; a day of going back beyond it is a slip. */
  private static final int KEPT = 366;

  private final CsvMapping mapping;
  private final Optional<String> opened;
  private final Optional<String> closed;
  private final String usual;
  private final long usually;
  private final PlausibleDays.Range range;

  /** The days of a table by a mapping. */
  public TableDays(Table table, CsvMapping mapping) {
    this.mapping = mapping;
    this.opened = column("opened");
    this.closed = column("outcome.closed");
    this.usual = mapping.dates().isEmpty() ? "" : mapping.dates().get(0);
    List<String> cells =
        table.rows().stream().flatMap(row -> opened.map(h -> cell(row, h)).stream()).toList();
    this.usually = cells.stream().filter(cell -> CsvMapping.day(cell, usual).isPresent()).count();
    PlausibleDays days = new PlausibleDays();
    cells.forEach(cell -> day("opened", cell).ifPresent(days::add));
    this.range = days.range();
  }

  private Optional<String> column(String field) {
    return mapping.columns().entrySet().stream()
        .filter(e -> e.getValue().equals(field))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  private static String cell(Table.Line row, String heading) {
    return row.cells().getOrDefault(heading, "").strip();
  }

  private Optional<LocalDate> day(String field, String cell) {
    String known = mapping.values().getOrDefault(field, Map.of()).getOrDefault(cell, cell);
    return CalendarDay.of(known).or(() -> mapping.day(cell));
  }

  /** Why a row is not taken for its days; empty where it is. */
  public Optional<String> refused(Table.Line row) {
    String in = opened.map(h -> cell(row, h)).orElse("");
    if (in.isEmpty()) {
      return Optional.of("the row tells no day on which the brake came in");
    }
    Optional<LocalDate> came = day("opened", in);
    if (came.isEmpty()) {
      return Optional.of(unlike("the day it came in ", in) + ": mend it");
    }
    if (!range.contains(came.get())) {
      return Optional.of(
          "the day it came in \""
              + in
              + "\" is read as "
              + came.get()
              + ", more than a year from all others ("
              + range.first()
              + " to "
              + range.last()
              + "): mend its year");
    }
    String out = closed.map(h -> cell(row, h)).orElse("");
    Optional<LocalDate> went = day("outcome.closed", out);
    return went.filter(day -> day.isBefore(came.get()))
        .map(
            day ->
                "it went back on "
                    + day
                    + " (\""
                    + out
                    + "\"), before it came in on "
                    + came.get()
                    + " (\""
                    + in
                    + "\")"
                    + odd(in, out));
  }

  /** Which of the two is written unlike most days, where only one is. */
  private String odd(String in, String out) {
    boolean oddIn = isOdd(in);
    return usual.isEmpty() || oddIn == isOdd(out)
        ? ": mend one of them"
        : ": " + unlike("", oddIn ? in : out) + ", so look at that one first";
  }

  private boolean isOdd(String cell) {
    return CsvMapping.day(cell, usual).isEmpty();
  }

  /** What is said of the day it went back, which is left out where it cannot be believed. */
  public Optional<String> remark(Table.Line row) {
    String out = closed.map(h -> cell(row, h)).orElse("");
    if (out.isEmpty()) {
      return Optional.empty();
    }
    Optional<LocalDate> went = day("outcome.closed", out);
    if (went.isPresent() && believed(went.get().toString())) {
      return Optional.empty();
    }
    return Optional.of(
        "line "
            + row.line()
            + ": "
            + went.map(
                    day ->
                        "the day it went back \""
                            + out
                            + "\", is read as "
                            + day
                            + ", more than a year after all others")
                .orElseGet(() -> unlike("the day it went back ", out))
            + "; it counts as given back on the day it came in");
  }

  /** Whether a day of going back, as case files write it, is one and is not far off. */
  public boolean believed(String day) {
    return CalendarDay.of(day)
        .filter(
            each ->
                range.last().equals(LocalDate.MAX) || !each.minusDays(KEPT).isAfter(range.last()))
        .isPresent();
  }

  private String unlike(String which, String cell) {
    String others =
        usual.isEmpty()
            ? "the others are written as 2026-05-12"
            : (usually > 1 ? "the " + usually + " others" : "the others")
                + " are written as "
                + CsvMapping.sample(usual);
    return which
        + "\""
        + cell
        + "\" "
        + ColumnGuess.writtenAs(cell)
            .filter(pattern -> !pattern.equals(usual))
            .map(pattern -> "is written as " + CsvMapping.sample(pattern))
            .orElse("is no day")
        + "; "
        + others
        + asTheyAre(cell).map(day -> " (read as they are it would be " + day + ")").orElse("");
  }

  /** The day where the figures are read as in most rows, and only the signs between them differ. */
  private Optional<LocalDate> asTheyAre(String cell) {
    String sign = usual.replaceAll("[a-zA-Z]", "");
    return sign.isEmpty()
        ? Optional.empty()
        : CsvMapping.day(cell.replaceAll("[./-]", sign.substring(0, 1)), usual);
  }
}
