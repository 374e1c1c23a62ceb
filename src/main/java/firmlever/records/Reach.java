package firmlever.records;

import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.CalendarDay;
import firmlever.document.Node;
import firmlever.document.Packed;
import firmlever.records.tables.PlausibleDays;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * How far records reach: the days they were opened on, and the last day that any good record of
 * each such day speaks of. Its size is the number of days. Mergeable, in any order.
 */
public final class Reach {
  /** A brake that stays longer in the shop was not written down rightly, in days. */
  static final int LONGEST_STAY = 366;

  private final Optional<CaseReader> reader;
  private PlausibleDays days = new PlausibleDays();
  private final TreeMap<LocalDate, LocalDate> lastDays = new TreeMap<>();

  public Reach(CaseReader reader) {
    this.reader = Optional.of(reader);
  }

  /** Reads no records, only what others have packed. */
  public Reach() {
    this.reader = Optional.empty();
  }

  /** Takes in a record. */
  public void add(Node node) {
    text(node, "opened").flatMap(CalendarDay::of).ifPresent(day -> seen(day, node));
  }

  /** Only a record that adds a later day is read whole: most add none. */
  private void seen(LocalDate opened, Node node) {
    days.add(opened);
    LocalDate last =
        inner(node, "outcome")
            .flatMap(outcome -> text(outcome, "closed"))
            .flatMap(CalendarDay::of)
            .filter(closed -> closed.isAfter(opened))
            .filter(closed -> closed.isBefore(opened.plusDays(LONGEST_STAY)))
            .orElse(opened);
    LocalDate known = lastDays.get(opened);
    if ((known == null || last.isAfter(known)) && isCase(node)) {
      lastDays.put(opened, last);
    }
  }

  /** A record that will be rejected says nothing of how far the data reach. */
  private boolean isCase(Node node) {
    try {
      reader.orElseThrow().read(node, "");
      return true;
    } catch (BadInput e) {
      return false;
    }
  }

  private void later(LocalDate day, LocalDate last) {
    lastDays.merge(day, last, (a, b) -> a.isAfter(b) ? a : b);
  }

  /** From when to when the records reach that are to be believed. */
  public PlausibleDays.Range range() {
    return days.range();
  }

  /** The latest day any good record speaks of; {@code LocalDate.MIN} without any. */
  public LocalDate end() {
    PlausibleDays.Range range = range();
    return lastDays.entrySet().stream()
        .filter(day -> range.contains(day.getKey()))
        .map(Map.Entry::getValue)
        .max(Comparator.naturalOrder())
        .orElse(LocalDate.MIN);
  }

  private record Flat(Map<LocalDate, Long> days, Map<LocalDate, LocalDate> lastDays) {}

  public byte[] packed() {
    Packed.Writer out = new Packed.Writer();
    out.record(new Flat(days.counts(), lastDays));
    return out.bytes();
  }

  /** Takes in what another one packed. */
  public void merge(byte[] packed) throws Packed.Broken {
    Flat flat = new Packed.Reader(packed).record(Flat.class);
    days = days.plus(new PlausibleDays(flat.days));
    flat.lastDays.forEach(this::later);
  }

  private static Optional<Node> inner(Node node, String name) {
    return node instanceof Node.Object object ? object.get(name) : Optional.empty();
  }

  private static Optional<String> text(Node node, String name) {
    return node instanceof Node.Object object
        ? object
            .get(name)
            .filter(Node.Text.class::isInstance)
            .map(text -> ((Node.Text) text).value())
        : Optional.empty();
  }

  /** No code is as long; what is longer is rejected when the case is read. */
  private static final int LONGEST_ID = 1000;

  /** The code of the record's brake; empty where it names none. */
  public static String brake(Node node) {
    return inner(node, "brake")
        .flatMap(brake -> text(brake, "id"))
        .filter(id -> id.length() <= LONGEST_ID)
        .orElse("");
  }
}
