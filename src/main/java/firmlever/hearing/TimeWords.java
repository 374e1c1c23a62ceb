package firmlever.hearing;

import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Language;
import firmlever.hearing.language.Language.Unit;
import firmlever.hearing.language.Language.Value;
import firmlever.hearing.language.Word;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;

/** Days that lie behind: yesterday, two weeks ago, last Sunday, 8.5. */
final class TimeWords {
  /** Words that may stand between the parts of a time. */
  private static final int NEAR = 2;

  private static final int DAYS_IN_WEEK = 7;

  /** Where nothing nearer is told, a time this many places away still belongs to what was done. */
  private static final int REACH = 9;

  private final List<Word> words;
  private final Language language;
  private final LocalDate today;

  /** Days ago, by the word they were heard at. */
  private final Map<Integer, Integer> times = new TreeMap<>();

  TimeWords(List<Word> words, Language language, LocalDate today) {
    this.words = words;
    this.language = language;
    this.today = today;
    for (int at = 0; at < words.size(); at++) {
      int here = at;
      daysAt(at).ifPresent(days -> times.put(here, days));
    }
  }

  /** The time told nearest to these words, in their clause before all, else in their sentence. */
  OptionalInt near(int first, int last) {
    int best = Integer.MAX_VALUE;
    OptionalInt days = OptionalInt.empty();
    for (Map.Entry<Integer, Integer> each : times.entrySet()) {
      int at = each.getKey();
      Word word = words.get(at);
      if (word.sentence() != words.get(first).sentence()) {
        continue;
      }
      int distance =
          at < first
              ? words.get(first).place() - word.place()
              : at > last ? word.place() - words.get(last).place() : 0;
      boolean sameClause =
          word.clause() >= words.get(first).clause() && word.clause() <= words.get(last).clause();
      if (distance <= REACH && distance + (sameClause ? 0 : REACH) < best) {
        best = distance + (sameClause ? 0 : REACH);
        days = OptionalInt.of(each.getValue());
      }
    }
    return days;
  }

  private OptionalInt daysAt(int at) {
    OptionalInt days = value(at, Unit.DAYS);
    if (days.isPresent()) {
      return days;
    }
    OptionalInt weekday = value(at, Unit.WEEKDAY);
    if (weekday.isPresent()) {
      if (beside(at, Grammar.EVERY)) {
        return OptionalInt.empty();
      }
      // Who names the weekday of today means the one a week ago: else he says "today".
      int back = today.getDayOfWeek().getValue() - weekday.getAsInt();
      return OptionalInt.of(back <= 0 ? back + DAYS_IN_WEEK : back);
    }
    OptionalInt span = value(at, Unit.SPAN);
    if (span.isPresent()) {
      int number = -1;
      for (int before = at; before >= 0 && before >= at - NEAR; before--) {
        OptionalInt told = number(before);
        if (told.isPresent()) {
          number = told.getAsInt();
          break;
        }
      }
      boolean ago = within(at, Grammar.AGO);
      if (number >= 0 && ago) {
        return OptionalInt.of(number * span.getAsInt());
      }
      return beside(at, Grammar.LAST) ? span : OptionalInt.empty();
    }
    return date(at);
  }

  private boolean within(int at, Grammar part) {
    for (int near = Math.max(0, at - NEAR - 2); near <= at + NEAR && near < words.size(); near++) {
      if (part.in(words.get(near)) && words.get(near).sentence() == words.get(at).sentence()) {
        return true;
      }
    }
    return false;
  }

  private boolean beside(int at, Grammar part) {
    return at > 0 && part.in(words.get(at - 1))
        || at + 1 < words.size()
            && part.in(words.get(at + 1))
            && words.get(at + 1).clause() == words.get(at).clause();
  }

  /** A day and a month: {@code 8.5}, {@code 3 May}, {@code May 3}, {@code 3rd of May}. */
  private OptionalInt date(int at) {
    String[] parts = words.get(at).plain().split("\\.");
    if (parts.length >= 2 && parts.length <= 3 && digits(parts[0]) && digits(parts[1])) {
      return before(Integer.parseInt(parts[0]), Integer.parseInt(parts[1]));
    }
    OptionalInt month = value(at, Unit.MONTH);
    if (month.isPresent()) {
      int day = at - 1;
      while (day > 0 && (Grammar.FILLER.in(words.get(day)) || ordinal(words.get(day).plain()))) {
        day--;
      }
      for (int near : new int[] {day, at + 1}) {
        if (near >= 0 && near < words.size() && digits(words.get(near).plain())) {
          return before(Integer.parseInt(words.get(near).plain()), month.getAsInt());
        }
      }
    }
    return OptionalInt.empty();
  }

  /** The end of a counted day, which stands by itself: {@code 3rd}, {@code 1er}. */
  private static boolean ordinal(String plain) {
    return plain.matches("st|nd|rd|th|er");
  }

  private static boolean digits(String text) {
    return !text.isEmpty() && text.length() <= 2 && text.chars().allMatch(Character::isDigit);
  }

  private OptionalInt before(int day, int month) {
    try {
      LocalDate date = LocalDate.of(today.getYear(), month, day);
      LocalDate past = date.isAfter(today) ? date.minusYears(1) : date;
      return OptionalInt.of((int) (today.toEpochDay() - past.toEpochDay()));
    } catch (DateTimeException e) {
      return OptionalInt.empty();
    }
  }

  private OptionalInt number(int at) {
    String plain = words.get(at).plain();
    return digits(plain) ? OptionalInt.of(Integer.parseInt(plain)) : value(at, Unit.NUMBER);
  }

  private OptionalInt value(int at, Unit unit) {
    BitSet atoms = words.get(at).atoms();
    for (int atom = atoms.nextSetBit(0); atom >= 0; atom = atoms.nextSetBit(atom + 1)) {
      Value value = language.values().get(atom);
      if (value != null && value.unit() == unit) {
        return OptionalInt.of(value.number());
      }
    }
    return OptionalInt.empty();
  }
}
