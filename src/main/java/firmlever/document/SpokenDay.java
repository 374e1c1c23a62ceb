package firmlever.document;

import static java.util.Objects.requireNonNull;

import java.text.Normalizer;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.Month;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A day as people write it, in English, German or French: {@code 12.5.2026}, {@code 12 May 2026},
 * {@code yesterday}. Files hold {@code 2026-05-12} only; this reads what is typed, and guesses what
 * a file meant.
 */
public final class SpokenDay {
  private static final List<Locale> LANGUAGES =
      List.of(Locale.ENGLISH, Locale.GERMAN, Locale.FRENCH);

  private static final int SHORTEST_MONTH = 3;

  /** Leap days lie eight years apart at most. */
  private static final int YEARS_BACK = 8;

  private static final Map<String, Integer> DAYS_BACK =
      Map.ofEntries(
          Map.entry("today", 0),
          Map.entry("yesterday", 1),
          Map.entry("day before yesterday", 2),
          Map.entry("heute", 0),
          Map.entry("gestern", 1),
          Map.entry("vorgestern", 2),
          Map.entry("aujourd'hui", 0),
          Map.entry("hier", 1),
          Map.entry("avant-hier", 2));

  private static final Pattern ISO =
      Pattern.compile("(?<![\\d.])(\\d{4})-(\\d{1,2})-(\\d{1,2})(?!\\d)");

  /** Without a year a point must end it: 5.1 may be a grade of fluid, 3.5 a length. */
  private static final Pattern POINTS =
      Pattern.compile(
          "(?<![\\d.])(\\d{1,2})\\. ?(\\d{1,2})\\.(?: ?(\\d{4}|\\d{2})(?!\\d))?(?!\\d)");

  private static final Pattern STROKES =
      Pattern.compile("(?<![\\d/])(\\d{1,2})/(\\d{1,2})(?:/(\\d{4}|\\d{2}))?(?![\\d/])");

  private static final Pattern DAY_FIRST =
      Pattern.compile(
          "(?<![\\d.])(\\d{1,2})(?:st|nd|rd|th|er|\\.)? ?(?:of )?(\\p{L}{3,})\\b\\.?(?:,? ?(\\d{4})\\b)?");

  private static final Pattern MONTH_FIRST =
      Pattern.compile(
          "\\b(\\p{L}{3,})\\.? (\\d{1,2})(?:st|nd|rd|th)?(?![\\d.]*\\d)(?:,? ?(\\d{4})\\b)?");

  private static final Pattern RELATIVE =
      Pattern.compile(
          "\\b(?:(?:the )?(day before yesterday)|(today|yesterday|heute|vorgestern|gestern"
              + "|aujourd'hui|avant-hier|hier))(?![\\p{L}])");

  private static final Pattern AGO =
      Pattern.compile(
          "(?<!\\d)(?:(?:vor|il y a) )?(\\d{1,3}) (day|week|month|tag|woche|monat|jour|semaine|mois)"
              + "(?:s|e|n|en)?(?: ago)?\\b");

  private SpokenDay() {}

  /**
   * A day found in a text.
   *
   * @param days the one day, or the two it can be: {@code 3/5} is in March or in May
   * @param start where it begins
   * @param end where it ends, exclusive
   */
  public record Found(List<LocalDate> days, int start, int end) {
    public Found {
      days = List.copyOf(days);
    }
  }

  private record Reading(Found found, boolean yearTold, boolean relative) {}

  /**
   * The day a whole text names.
   *
   * @param today the day that relative words count from, and no day without a year lies after
   * @return empty where it names none, or can be two
   */
  public static Optional<LocalDate> of(String text, LocalDate today) {
    return whole(text, today)
        .filter(reading -> reading.found().days().size() == 1)
        .map(reading -> reading.found().days().get(0));
  }

  /** The day a whole text names without a today: with its year. */
  public static Optional<LocalDate> alone(String text) {
    return whole(text, LocalDate.EPOCH)
        .filter(reading -> reading.yearTold() && reading.found().days().size() == 1)
        .map(reading -> reading.found().days().get(0));
  }

  /** The first day in a text, with the same meaning of {@code today}. */
  public static Optional<Found> in(String text, LocalDate today) {
    return readings(text, today).stream()
        .map(Reading::found)
        .min(Comparator.comparingInt(Found::start).thenComparing(f -> -f.end()));
  }

  /** What a file that holds this in the place of a day may have meant; empty without a guess. */
  static String maybe(String text) {
    Optional<Reading> read = whole(text, LocalDate.EPOCH);
    if (read.isEmpty()) {
      return "";
    }
    if (read.get().relative()) {
      return "Maybe write the day itself: a file cannot tell from which day this counts.";
    }
    if (!read.get().yearTold()) {
      return "Maybe write it with its year, the month before the day: \"2026-05-12\" is 12 May.";
    }
    List<String> days =
        read.get().found().days().stream()
            .filter(day -> CalendarDay.of(day.toString()).isPresent())
            .map(day -> "\"" + day + "\"")
            .toList();
    return days.isEmpty() ? "" : "Maybe " + String.join(" or ", days) + " was meant.";
  }

  private static Optional<Reading> whole(String text, LocalDate today) {
    String stripped = text.strip();
    return readings(stripped, today).stream()
        .filter(r -> r.found().start() == 0 && r.found().end() == stripped.length())
        .findFirst();
  }

  private static List<Reading> readings(String text, LocalDate today) {
    String plain = text.toLowerCase(Locale.ROOT).replace('’', '\'');
    List<Reading> found = new ArrayList<>();
    if (plain.length() != text.length()) {
      return found;
    }
    for (Matcher m = ISO.matcher(plain); m.find(); ) {
      add(found, m, days(m.group(3), m.group(2), m.group(1), today), true);
    }
    for (Matcher m = POINTS.matcher(plain); m.find(); ) {
      add(found, m, days(m.group(1), m.group(2), m.group(3), today), m.group(3) != null);
    }
    for (Matcher m = STROKES.matcher(plain); m.find(); ) {
      Set<LocalDate> either = new LinkedHashSet<>();
      either.addAll(days(m.group(1), m.group(2), m.group(3), today));
      either.addAll(days(m.group(2), m.group(1), m.group(3), today));
      add(found, m, List.copyOf(either), m.group(3) != null);
    }
    for (Matcher m = DAY_FIRST.matcher(plain); m.find(); ) {
      add(found, m, named(m.group(1), m.group(2), m.group(3), today), m.group(3) != null);
    }
    for (Matcher m = MONTH_FIRST.matcher(plain); m.find(); ) {
      add(found, m, named(m.group(2), m.group(1), m.group(3), today), m.group(3) != null);
    }
    for (Matcher m = RELATIVE.matcher(plain); m.find(); ) {
      String word = m.group(1) != null ? m.group(1) : m.group(2);
      found.add(relative(m, today.minusDays(requireNonNull(DAYS_BACK.get(word)))));
    }
    for (Matcher m = AGO.matcher(plain); m.find(); ) {
      if (m.group().endsWith("ago") || m.group().matches("(vor|il y a) .*")) {
        found.add(relative(m, back(today, Integer.parseInt(m.group(1)), m.group(2))));
      }
    }
    return found;
  }

  private static LocalDate back(LocalDate today, int number, String unit) {
    return switch (unit) {
      case "week", "woche", "semaine" -> today.minusWeeks(number);
      case "month", "monat", "mois" -> today.minusMonths(number);
      default -> today.minusDays(number);
    };
  }

  private static Reading relative(Matcher m, LocalDate day) {
    return new Reading(new Found(List.of(day), m.start(), m.end()), false, true);
  }

  private static void add(List<Reading> found, Matcher m, List<LocalDate> days, boolean yearTold) {
    if (!days.isEmpty()) {
      found.add(new Reading(new Found(days, m.start(), m.end()), yearTold, false));
    }
  }

  private static List<LocalDate> named(String day, String month, String year, LocalDate today) {
    OptionalInt number = month(month);
    return number.isEmpty() ? List.of() : days(day, String.valueOf(number.getAsInt()), year, today);
  }

  /** The day; without a year the latest that does not lie after today. */
  private static List<LocalDate> days(String day, String month, String year, LocalDate today) {
    int last = today.getYear();
    if (year != null) {
      return day(Integer.parseInt(year) + (year.length() == 2 ? 2000 : 0), month, day)
          .map(List::of)
          .orElse(List.of());
    }
    for (int back = 0; back <= YEARS_BACK; back++) {
      Optional<LocalDate> found = day(last - back, month, day).filter(d -> !d.isAfter(today));
      if (found.isPresent()) {
        return List.of(found.get());
      }
    }
    return List.of();
  }

  private static Optional<LocalDate> day(int year, String month, String day) {
    try {
      return Optional.of(LocalDate.of(year, Integer.parseInt(month), Integer.parseInt(day)));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /** The month whose name begins so in one of the languages, and no other month's does. */
  private static OptionalInt month(String word) {
    String begins = folded(word);
    Set<Integer> months = new LinkedHashSet<>();
    for (Locale language : LANGUAGES) {
      for (Month month : Month.values()) {
        if (begins.length() >= SHORTEST_MONTH
            && folded(month.getDisplayName(TextStyle.FULL, language)).startsWith(begins)) {
          months.add(month.getValue());
        }
      }
    }
    return months.size() == 1 ? OptionalInt.of(months.iterator().next()) : OptionalInt.empty();
  }

  private static String folded(String word) {
    return Normalizer.normalize(word.toLowerCase(Locale.ROOT), Normalizer.Form.NFD)
        .replaceAll("\\p{M}", "");
  }
}
