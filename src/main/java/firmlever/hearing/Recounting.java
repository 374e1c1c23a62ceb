package firmlever.hearing;

import firmlever.casefile.Fluid;
import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.document.SpokenDay;
import firmlever.hearing.Heard.Person;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What was done to a brake, in the words people use, as entries of a case file's history. */
public final class Recounting {
  private static final int LONGEST = 5000;

  private static final Pattern FLUID =
      Pattern.compile("(?i)\\bdot[ -]?(?:3|4|5[.,]1|5)(?!\\d)|\\bmineral[ -]oil\\b");

  /** A comma before a year, or before who did it, belongs to what stands before it. */
  private static final Pattern PARTS =
      Pattern.compile(
          "[;\\n]|,(?!\\d)(?!\\s*\\d{4}\\b)(?!\\s*(?i:by|myself)\\b)|(?<!\\d)\\.\\s+(?=\\p{Lu}\\p{Ll})");

  private static final Set<String> NOTHING = Set.of("nothing", "none", "no", "-", "nichts", "rien");

  private static final Pattern AND = Pattern.compile("(?i)\\s+(?:and|then|und|et|&|\\+)\\s+");

  private static final Pattern BY =
      Pattern.compile(
          "(?i)[\\s,]*\\b(?:myself|by (?:(?:the |a |my |our )?(me|myself|us|owner|customer|rider)"
              + "|(?:the |a |my |our )?(shop|workshop|dealer|mechanic)|((?-i:[A-Z]{1,3}\\d{1,4}))))\\b");

  private final Vocabulary vocabulary;
  private final TradeWords trade;
  private final Hearing hearing = new Hearing();

  public Recounting(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.trade = TradeWords.of(vocabulary);
  }

  private static List<String> fluids() {
    return Arrays.stream(Fluid.values()).map(Fluid::id).toList();
  }

  /**
   * The id of a fluid.
   *
   * @throws BadInput where it is not known
   */
  public String fluid(String answer) throws BadInput {
    String given = answer.strip().replaceFirst("(?i)^dot[ -]?(?=\\d)", "dot-").replace(',', '.');
    Optional<String> id = trade.one(given, Kind.FLUID, fluids());
    if (id.isEmpty()) {
      throw refused(answer, "is not a fluid known here", trade.maybe(answer, Kind.FLUID, fluids()));
    }
    return id.get();
  }

  /**
   * What was done: entries of a history as files hold them, each heard in a part of the answer.
   *
   * @param opened the day the brake came in, which "yesterday" counts from
   * @throws BadInput where a part tells nothing known, or no certain day
   */
  public List<Map<String, Object>> entries(String answer, LocalDate opened) throws BadInput {
    if (answer.length() > LONGEST) {
      throw refused("what was done", "must be at most " + LONGEST + " characters long", "");
    }
    List<Map<String, Object>> history = new ArrayList<>();
    if (NOTHING.contains(Nearest.plain(answer))) {
      return history;
    }
    for (String part : PARTS.split(answer)) {
      Optional<String> outcome =
          trade.one(part.strip(), Kind.OUTCOME, vocabulary.outcomes().keySet());
      if (outcome.isPresent() && !history.isEmpty()) {
        history.get(history.size() - 1).put("outcome", outcome.get());
      } else if (!part.isBlank()) {
        for (String each : twoDays(part, opened) ? AND.split(part) : new String[] {part}) {
          history.addAll(together(each, opened));
        }
      }
    }
    return history;
  }

  private static boolean twoDays(String part, LocalDate opened) {
    Optional<SpokenDay.Found> first = SpokenDay.in(part, opened);
    return first.isPresent() && SpokenDay.in(part.substring(first.get().end()), opened).isPresent();
  }

  /** What one day saw. */
  private List<Map<String, Object>> together(String part, LocalDate opened) throws BadInput {
    Matcher filled = FLUID.matcher(part);
    Optional<String> fluid = filled.find() ? Optional.of(fluid(filled.group())) : Optional.empty();
    // The point of 5.1 would be heard as a day.
    String plain =
        fluid.filter(id -> id.startsWith("dot")).isPresent() ? filled.replaceAll("dot") : part;
    Matcher doer = BY.matcher(plain);
    Optional<String> by = Optional.empty();
    if (doer.find()) {
      by = Optional.of(doer(doer));
      plain = doer.replaceFirst("");
    }
    Optional<LocalDate> day = Optional.empty();
    Optional<SpokenDay.Found> told = SpokenDay.in(plain, opened);
    if (told.isPresent()) {
      day = Optional.of(day(plain, told.get(), opened));
      plain =
          (plain.substring(0, told.get().start()) + " " + plain.substring(told.get().end()))
              .replaceAll("(?i)(\\s+(on|the|am|den|le))+\\s*$", "")
              .replaceAll("(?i)\\s+(on|am)\\s{2,}", " ")
              .strip();
    }
    List<Map<String, Object>> entries = new ArrayList<>();
    for (Heard.Told each : hearing.hear(plain, "unknown", opened).history()) {
      Map<String, Object> entry = entry(each, opened);
      if (!hearing.namesOwner(plain)) {
        // A customer's "bled it" is his own work; whoever writes a record may mean anybody's.
        entry.remove("by", "owner");
      }
      entries.add(said(entry, day, fluid, by));
    }
    if (entries.isEmpty()) {
      for (String each : AND.split(plain)) {
        entries.add(said(named(each.strip(), part), day, fluid, by));
      }
    }
    return entries;
  }

  /** The entry with what was said of day, fluid and doer, its fields in the order of files. */
  private static Map<String, Object> said(
      Map<String, Object> entry,
      Optional<LocalDate> day,
      Optional<String> fluid,
      Optional<String> by) {
    Map<String, Object> whole = new LinkedHashMap<>();
    day.ifPresent(date -> whole.put("date", date.toString()));
    entry.forEach(whole::putIfAbsent);
    if (entry.containsKey("work")) {
      fluid.ifPresent(name -> whole.put("fluid", name));
      by.ifPresent(who -> whole.put("by", who));
    }
    return whole;
  }

  private static String doer(Matcher by) {
    return by.group(3) != null ? by.group(3) : by.group(2) != null ? "shop" : "owner";
  }

  private static LocalDate day(String part, SpokenDay.Found told, LocalDate opened)
      throws BadInput {
    String words = part.substring(told.start(), told.end());
    if (told.days().size() > 1) {
      throw refused(words, "can be two days", "Maybe write the month as a word, as in 12 May.");
    }
    if (told.days().get(0).isAfter(opened)) {
      throw refused(
          words, "lies after the day the brake came in (" + opened + ")", "Maybe of another year.");
    }
    return told.days().get(0);
  }

  /** A work or event heard, as an entry of a history. */
  public static Map<String, Object> entry(Heard.Told told, LocalDate opened) {
    Map<String, Object> entry = new LinkedHashMap<>();
    OptionalInt ago = told.daysAgo();
    if (ago.isPresent()) {
      entry.put("date", opened.minusDays(ago.getAsInt()).toString());
    }
    boolean work = told.kind() == Heard.Kind.WORK;
    entry.put(work ? "work" : "event", told.id());
    if (work) {
      told.fluid().ifPresent(fluid -> entry.put("fluid", fluid.id()));
      if (told.by() != Person.UNKNOWN) {
        entry.put("by", told.by() == Person.OWNER ? "owner" : "shop");
      }
      told.outcome().ifPresent(outcome -> entry.put("outcome", outcome));
    }
    return entry;
  }

  /** What is not heard as a sentence may be a name, an id or a word of the trade. */
  private Map<String, Object> named(String words, String part) throws BadInput {
    String bare = FLUID.matcher(words).replaceAll("").replaceFirst("(?i)\\s+with\\s*$", "").strip();
    Optional<String> work = trade.one(bare, Kind.WORK, vocabulary.recordedWorks());
    Optional<String> event = trade.one(bare, Kind.EVENT, vocabulary.events().keySet());
    if (work.isEmpty() && event.isEmpty()) {
      throw refused(
          part.strip(),
          "tells no work or event known here",
          trade.maybe(bare, Kind.WORK, vocabulary.recordedWorks()));
    }
    Map<String, Object> entry = new LinkedHashMap<>();
    work.ifPresentOrElse(id -> entry.put("work", id), () -> entry.put("event", event.get()));
    return entry;
  }

  private static BadInput refused(String answer, String why, String maybe) {
    return new BadInput(List.of(Problem.ofFile("\"" + answer + "\"", why, maybe)));
  }
}
