package firmlever.records.tables;

import static java.util.Objects.requireNonNull;

import firmlever.document.Nearest;
import java.text.Normalizer;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Guesses what the columns of a shop's table mean, by their headings and by what stands in them.
 */
public final class ColumnGuess {
  /** Headings that shops use, in English, German and French. Common practice. */
  private static final Map<String, List<String>> HEADINGS = new LinkedHashMap<>();

  static {
    say(
        "outcome.closed",
        "closed",
        "date out",
        "out",
        "done on",
        "finished",
        "returned",
        "given back",
        "picked up",
        "pick up",
        "collected",
        "ready",
        "ausgang",
        "abholung",
        "abgeholt",
        "fertig",
        "fertig am",
        "sortie",
        "date sortie",
        "rendu",
        "rendu le");
    say(
        "opened",
        "opened",
        "date in",
        "in",
        "date",
        "received",
        "booked in",
        "arrived",
        "day",
        "eingang",
        "annahme",
        "angenommen",
        "datum",
        "entree",
        "date entree",
        "recu",
        "recu le",
        "arrivee");
    say(
        "brake.id",
        "bike",
        "bike code",
        "bike no",
        "brake",
        "bike id",
        "frame",
        "rad",
        "radnummer",
        "fahrrad",
        "fahrradnummer",
        "rad nr",
        "velo",
        "velo no");
    say(
        "brake.position",
        "wheel",
        "position",
        "front rear",
        "f r",
        "end",
        "which",
        "vr hr",
        "v h",
        "laufrad",
        "roue",
        "av ar",
        "position frein");
    say(
        "complaint",
        "complaint",
        "problem",
        "customer says",
        "customer complaint",
        "reported",
        "issue",
        "notes",
        "rider says",
        "cust says",
        "client says",
        "says",
        "what is wrong",
        "symptom",
        "symptoms",
        "kundenangabe",
        "beschwerde",
        "mangel",
        "symptome",
        "symptomes",
        "beanstandung",
        "kunde sagt",
        "problembeschreibung",
        "fehler",
        "plainte",
        "probleme",
        "panne",
        "le client dit");
    say(
        "outcome.causes",
        "cause",
        "found",
        "causes",
        "fault",
        "fault found",
        "diagnosis",
        "finding",
        "ursache",
        "befund",
        "diagnose",
        "diagnostic",
        "trouve",
        "cause trouvee");
    say(
        "outcome.works",
        "work",
        "works",
        "work done",
        "done",
        "repair",
        "action",
        "what we did",
        "we did",
        "did",
        "what was done",
        "job done",
        "was wir gemacht haben",
        "was gemacht",
        "wir haben",
        "gemacht",
        "getan",
        "durchgefuehrt",
        "ce qu on a fait",
        "on a fait",
        "nous avons fait",
        "effectue",
        "intervention",
        "arbeit",
        "arbeiten",
        "ausgefuehrt",
        "massnahme",
        "massnahmen",
        "erledigt",
        "travail",
        "travaux",
        "reparation",
        "fait");
    say(
        "outcome.by",
        "by",
        "tech",
        "technician",
        "mechanic",
        "who",
        "done by",
        "staff",
        "wer",
        "mechaniker",
        "mitarbeiter",
        "bearbeiter",
        "technicien",
        "mecanicien",
        "par");
    say(
        "outcome.site",
        "site",
        "shop",
        "branch",
        "location",
        "depot",
        "workshop",
        "filiale",
        "standort",
        "werkstatt",
        "atelier",
        "lieu");
    say(
        "brake.fluid",
        "fluid",
        "oil",
        "brake fluid",
        "fluessigkeit",
        "bremsmedium",
        "liquide",
        "huile");
    say("brake.lot", "lot", "batch", "charge", "serie", "lot no");
    say(
        "brake.fitted",
        "fitted",
        "fitted on",
        "installed",
        "in service",
        "in service since",
        "bought",
        "einbau",
        "gekauft",
        "montage",
        "monte le");
    say(
        "id",
        "id",
        "job",
        "job no",
        "job number",
        "ticket",
        "order",
        "no",
        "nr",
        "auftrag",
        "auftragsnr",
        "auftragsnummer",
        "fiche",
        "fiche no",
        "numero");
  }

  /** Ways to write a day; where a day fits two, the first that most days of the column fit. */
  private static final List<String> PATTERNS =
      List.of(
          "uuuu-M-d",
          "d.M.uuuu",
          "d/M/uuuu",
          "M/d/uuuu",
          "d-M-uuuu",
          "uuuu/M/d",
          "uuuuMMdd",
          "d.M.uu",
          "d/M/uu",
          "M/d/uu",
          "d-M-uu",
          "d MMM uuuu",
          "d MMMM uuuu",
          "MMM d, uuuu",
          "d-MMM-uuuu",
          "d MMM uu",
          "d-MMM-uu");

  /** Columns of words: a column of days is none of them, whatever its heading. */
  private static final Set<String> WORDS = Set.of("complaint", "outcome.causes", "outcome.works");

  /** So many cells of a column are enough to tell what it holds. */
  private static final int LOOKED_AT = 200;

  /** A way to write a day that so few cells of a column use is a slip, where others are many. */
  private static final int SLIPS = 2;

  private static final int SLIP_IN = 10;

  /** A column of days is one in which at least so many cells of ten are days. */
  private static final int DAYS_OF_TEN = 6;

  /** How the cells of a table are understood. */
  public interface Reading {
    /** The word of case files for a wheel or a fluid. */
    Optional<String> translated(String field, String cell);

    /** Whether a complaint is heard in it. */
    boolean complains(String cell);

    /** Whether it names works. */
    boolean tellsWorks(String cell);
  }

  /**
   * What the cells of a column hold.
   *
   * @param complaints cells in which a complaint is heard, and no work
   * @param works cells that name works
   * @param all cells that were looked at
   */
  public record Held(long complaints, long works, long all) {
    /** Whether it is a column of complaints, as far as its cells tell. */
    public boolean complains() {
      return complaints > works && 3 * complaints >= all;
    }

    /** Whether it is a column of works, as far as its cells tell. */
    public boolean tellsWorks() {
      return works >= complaints && works > 0 && 3 * works >= all;
    }
  }

  private final Table table;
  private final Reading reading;
  private final Map<String, Held> held = new HashMap<>();

  public ColumnGuess(Table table, Reading reading) {
    this.table = table;
    this.reading = reading;
  }

  /** What the cells of a column hold, by how they are understood. */
  public Held held(String heading) {
    return held.computeIfAbsent(
        heading,
        h -> {
          List<String> cells = cells(h).stream().limit(LOOKED_AT).toList();
          if (holdsDays(h)) {
            return new Held(0, 0, cells.size());
          }
          Map<Boolean, List<String>> byWorks =
              cells.stream().collect(Collectors.partitioningBy(reading::tellsWorks));
          long complaints =
              requireNonNull(byWorks.get(false)).stream().filter(reading::complains).count();
          return new Held(complaints, requireNonNull(byWorks.get(true)).size(), cells.size());
        });
  }

  private static void say(String field, String... headings) {
    HEADINGS.put(field, Arrays.asList(headings));
  }

  private record Match(int worth, String heading, String field) {}

  /** The mapping that fits best. */
  public CsvMapping mapping() {
    List<Match> matches = new ArrayList<>();
    for (String heading : table.headings()) {
      HEADINGS.forEach(
          (field, names) -> {
            int worth = worth(plain(heading), names);
            boolean fits =
                CsvMapping.DATES.contains(field)
                    ? holdsDays(heading)
                    : !WORDS.contains(field) || !holdsDays(heading);
            if (worth > 0 && fits) {
              matches.add(new Match(worth, heading, field));
            }
          });
    }
    matches.sort(Comparator.comparingInt(Match::worth).reversed());
    Map<String, String> columns = new LinkedHashMap<>();
    for (Match match : matches) {
      if (!columns.containsKey(match.heading) && !columns.containsValue(match.field)) {
        columns.put(match.heading, match.field);
      }
    }
    byContent(columns);
    Map<String, String> ordered = new LinkedHashMap<>();
    table.headings().stream()
        .filter(columns::containsKey)
        .forEach(heading -> ordered.put(heading, columns.get(heading)));
    return new CsvMapping(
        table.separator(),
        ";",
        dates(ordered),
        List.of("complaint", "outcome.works", "outcome.causes"),
        ordered,
        values(ordered));
  }

  private static int worth(String heading, List<String> names) {
    if (names.contains(heading)) {
      return 4;
    }
    String padded = " " + heading + " ";
    for (String name : names) {
      if (name.length() > 2 && padded.contains(" " + name + " ")) {
        return name.length() > 4 ? 3 : 2;
      }
    }
    return heading.length() > 4
            && names.stream().anyMatch(n -> n.length() > 4 && Nearest.edits(n, heading) == 1)
        ? 1
        : 0;
  }

  /** A heading in small plain letters, with spaces between words. */
  private static String plain(String heading) {
    return Normalizer.normalize(
            heading
                .toLowerCase(Locale.ROOT)
                .replace("ä", "ae")
                .replace("ö", "oe")
                .replace("ü", "ue")
                .replace("ß", "ss"),
            Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "")
        .replaceAll("[^a-z0-9]+", " ")
        .strip();
  }

  private List<String> cells(String heading) {
    return table.rows().stream()
        .map(row -> row.cells().get(heading))
        .filter(cell -> !cell.isBlank())
        .toList();
  }

  private boolean holdsDays(String heading) {
    List<String> cells = cells(heading);
    long days =
        cells.stream()
            .filter(cell -> PATTERNS.stream().anyMatch(p -> day(cell, p).isPresent()))
            .count();
    return !cells.isEmpty() && 10 * days >= DAYS_OF_TEN * (long) cells.size();
  }

  private static Optional<LocalDate> day(String cell, String pattern) {
    return CsvMapping.day(cell, pattern);
  }

  /** What no heading told: the first column of days, of codes, and the longest texts. */
  private void byContent(Map<String, String> columns) {
    List<String> open =
        new ArrayList<>(table.headings().stream().filter(h -> !columns.containsKey(h)).toList());
    if (!columns.containsValue("opened")) {
      open.stream()
          .filter(this::holdsDays)
          .findFirst()
          .ifPresent(h -> take(h, "opened", columns, open));
    }
    if (!columns.containsValue("brake.id")) {
      open.stream()
          .filter(this::holdsCodes)
          .findFirst()
          .ifPresent(h -> take(h, "brake.id", columns, open));
    }
    if (!columns.containsValue("outcome.closed")) {
      open.stream()
          .filter(this::holdsDays)
          .findFirst()
          .ifPresent(h -> take(h, "outcome.closed", columns, open));
    }
    if (!columns.containsValue("brake.position")) {
      open.stream()
          .filter(h -> holdsWheels(h) && words(h) <= WORDS_OF_A_WHEEL)
          .findFirst()
          .ifPresent(h -> take(h, "brake.position", columns, open));
    }
    byWords(columns, open);
  }

  /** Complaints and works by what is heard in the cells, which outweighs a heading they belie. */
  private void byWords(Map<String, String> columns, List<String> open) {
    Optional<String> complaints =
        open.stream()
            .filter(h -> held(h).complains())
            .max(Comparator.comparingLong(h -> held(h).complaints()));
    Optional<String> works =
        open.stream()
            .filter(h -> held(h).tellsWorks())
            .max(Comparator.comparingLong(h -> held(h).works()));
    complaints
        .filter(h -> vacated("complaint", columns, open, Held::complains))
        .ifPresent(h -> take(h, "complaint", columns, open));
    works
        .filter(h -> vacated("outcome.works", columns, open, Held::tellsWorks))
        .ifPresent(h -> take(h, "outcome.works", columns, open));
    if (!columns.containsValue("complaint")) {
      open.stream()
          .filter(h -> words(h) >= 2 && !held(h).tellsWorks())
          .max(Comparator.comparingDouble(this::words))
          .ifPresent(h -> take(h, "complaint", columns, open));
    }
  }

  /** Whether the field has no column, or had one whose cells hold something else. */
  private boolean vacated(
      String field, Map<String, String> columns, List<String> open, Predicate<Held> fits) {
    Optional<String> taken =
        columns.entrySet().stream()
            .filter(column -> column.getValue().equals(field))
            .map(Map.Entry::getKey)
            .findFirst();
    if (taken.isPresent() && fits.test(held(taken.get()))) {
      return false;
    }
    taken.ifPresent(
        h -> {
          columns.remove(h);
          open.add(h);
        });
    return true;
  }

  private static void take(
      String heading, String field, Map<String, String> columns, List<String> open) {
    columns.put(heading, field);
    open.remove(heading);
  }

  /** Codes of bikes come again: the same bike is in more than one row. */
  private boolean holdsCodes(String heading) {
    List<String> cells = cells(heading);
    long codes = cells.stream().filter(c -> c.matches("(?i)[a-z]{1,4}[ -]?\\d{2,6}.{0,6}")).count();
    return !cells.isEmpty()
        && 10 * codes >= 8L * cells.size()
        && Set.copyOf(cells).size() < cells.size();
  }

  /** "The front one"; a sentence that tells the wheel besides is none. */
  private static final int WORDS_OF_A_WHEEL = 3;

  private boolean holdsWheels(String heading) {
    List<String> cells = cells(heading);
    long wheels =
        cells.stream()
            .filter(cell -> reading.translated("brake.position", cell).isPresent())
            .count();
    return !cells.isEmpty() && 10 * wheels >= 8L * cells.size();
  }

  private double words(String heading) {
    return cells(heading).stream().mapToInt(cell -> cell.split("\\s+").length).average().orElse(0);
  }

  /** The patterns of all columns of days together, the commonest first. */
  private List<String> dates(Map<String, String> columns) {
    List<String> left = new ArrayList<>();
    columns.forEach(
        (heading, field) -> {
          if (CsvMapping.DATES.contains(field)) {
            left.addAll(cells(heading));
          }
        });
    List<String> patterns = new ArrayList<>();
    while (!left.isEmpty()) {
      String best =
          PATTERNS.stream()
              .filter(p -> !patterns.contains(p))
              .max(
                  Comparator.comparingLong((String p) -> count(left, p))
                      .thenComparing(p -> widensYear(p, patterns))
                      .thenComparing(p -> -PATTERNS.indexOf(p)))
              .orElseThrow();
      if (count(left, best) == 0) {
        break;
      }
      patterns.add(best);
      left.removeIf(cell -> day(cell, best).isPresent());
    }
    return patterns.stream().filter(p -> !isSlip(p, patterns, columns)).toList();
  }

  /** Whether only the figures of the year are more or fewer than in one that is in use. */
  private static boolean widensYear(String pattern, List<String> used) {
    return used.stream().anyMatch(p -> plainYear(p).equals(plainYear(pattern)));
  }

  /** Whether nowhere more than a slip or two are written so, and the day might be another. */
  private boolean isSlip(String pattern, List<String> patterns, Map<String, String> columns) {
    int at = patterns.indexOf(pattern);
    List<String> before = patterns.subList(0, at);
    if (widensYear(pattern, before)) {
      return false;
    }
    return columns.entrySet().stream()
        .filter(e -> CsvMapping.DATES.contains(e.getValue()))
        .map(e -> cells(e.getKey()))
        .allMatch(
            cells -> {
              long so =
                  cells.stream()
                      .filter(cell -> before.stream().noneMatch(p -> day(cell, p).isPresent()))
                      .filter(cell -> day(cell, pattern).isPresent())
                      .count();
              return so <= SLIPS && SLIP_IN * so <= cells.size();
            });
  }

  private static String plainYear(String pattern) {
    return pattern.replaceAll("u+", "u");
  }

  /** How a day is written; empty where it is none. */
  public static Optional<String> writtenAs(String cell) {
    return PATTERNS.stream().filter(p -> day(cell, p).isPresent()).findFirst();
  }

  private static long count(List<String> cells, String pattern) {
    return cells.stream().filter(cell -> day(cell, pattern).isPresent()).count();
  }

  /** Of the fields with few words of their own, what each word of the table stands for. */
  private Map<String, Map<String, String>> values(Map<String, String> columns) {
    Map<String, Map<String, String>> values = new LinkedHashMap<>();
    columns.forEach(
        (heading, field) -> {
          if (field.equals("brake.position") || field.equals("brake.fluid")) {
            Map<String, String> words = new TreeMap<>();
            cells(heading)
                .forEach(
                    cell ->
                        words.computeIfAbsent(
                            cell, c -> reading.translated(field, c).orElse("unknown")));
            values.put(field, words);
          }
        });
    return values;
  }
}
