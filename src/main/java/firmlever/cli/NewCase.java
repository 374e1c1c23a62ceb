package firmlever.cli;

import firmlever.casefile.CaseFormat;
import firmlever.casefile.Fluid;
import firmlever.document.BadInput;
import firmlever.document.Nearest;
import firmlever.document.Problem;
import firmlever.document.SpokenDay;
import firmlever.hearing.Heard;
import firmlever.hearing.Hearing;
import firmlever.vocabulary.TradeWords;
import firmlever.vocabulary.TradeWords.Kind;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Turns five answers, in the words people use, into a case as files hold it. */
final class NewCase {
  private static final List<String> WHEELS = List.of("front", "rear", "unknown");
  private static final Map<String, String> WHEEL_WORDS =
      Map.of("f", "front", "fore", "front", "r", "rear", "back", "rear", "?", "unknown");
  private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,79}");
  private static final int LONGEST_COMPLAINT = 2000;
  private static final int LONGEST_DONE = 5000;

  private static final Pattern FLUID =
      Pattern.compile("(?i)\\bdot[ -]?(?:3|4|5[.,]1|5)(?!\\d)|\\bmineral[ -]oil\\b");

  /** A comma before a year belongs to the day. */
  private static final Pattern PARTS =
      Pattern.compile("[;\\n]|,(?!\\d)(?!\\s*\\d{4}\\b)|(?<!\\d)\\.\\s+(?=\\p{Lu}\\p{Ll})");

  private static final Set<String> NOTHING = Set.of("nothing", "none", "no", "-", "nichts", "rien");

  private static final Pattern AND = Pattern.compile("(?i)\\s+(?:and|then|und|et|&|\\+)\\s+");

  private final Vocabulary vocabulary;
  private final TradeWords trade;
  private final Hearing hearing;
  private final LocalDate opened;

  /**
   * @param opened the day the brake came in, which "yesterday" counts from
   */
  NewCase(Vocabulary vocabulary, LocalDate opened) {
    this.vocabulary = vocabulary;
    this.trade = TradeWords.of(vocabulary);
    this.hearing = new Hearing();
    this.opened = opened;
  }

  static List<String> fluids() {
    return Arrays.stream(Fluid.values()).map(Fluid::id).toList();
  }

  /** The code of a brake. */
  String brake(String answer) throws BadInput {
    if (!CODE.matcher(answer).matches()) {
      String guess = answer.strip().replaceAll("[^A-Za-z0-9._-]+", "-").replaceAll("^[-._]+", "");
      throw refused(
          answer,
          "must be a code of at most 80 letters, digits, points, hyphens or underscores",
          CODE.matcher(guess).matches() ? "Maybe \"" + guess + "\" was meant." : "");
    }
    return answer;
  }

  /** The wheel: {@code front}, {@code rear} or {@code unknown}. */
  String wheel(String answer) throws BadInput {
    String plain = Nearest.plain(answer);
    String wheel = WHEEL_WORDS.getOrDefault(plain, plain.replaceFirst("-(wheel|brake)$", ""));
    if (!WHEELS.contains(wheel)) {
      throw refused(answer, "is not a wheel known here", Nearest.maybe(answer, WHEELS));
    }
    return wheel;
  }

  /** The id of a fluid. */
  String fluid(String answer) throws BadInput {
    String given = answer.strip().replaceFirst("(?i)^dot[ -]?(?=\\d)", "dot-").replace(',', '.');
    Optional<String> id = trade.one(given, Kind.FLUID, fluids());
    if (id.isEmpty()) {
      throw refused(answer, "is not a fluid known here", trade.maybe(answer, Kind.FLUID, fluids()));
    }
    return id.get();
  }

  String complaint(String answer) throws BadInput {
    if (answer.codePointCount(0, answer.length()) > LONGEST_COMPLAINT) {
      throw refused(
          "the complaint", "must be at most " + LONGEST_COMPLAINT + " characters long", "");
    }
    return answer;
  }

  /** What was done: entries of a history, each heard in a part of the answer. */
  List<Map<String, Object>> done(String answer) throws BadInput {
    if (answer.length() > LONGEST_DONE) {
      throw refused("what was done", "must be at most " + LONGEST_DONE + " characters long", "");
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
        history.addAll(twoDays(part) ? apart(part) : together(part));
      }
    }
    return history;
  }

  private boolean twoDays(String part) {
    Optional<SpokenDay.Found> first = SpokenDay.in(part, opened);
    return first.isPresent() && SpokenDay.in(part.substring(first.get().end()), opened).isPresent();
  }

  private List<Map<String, Object>> apart(String part) throws BadInput {
    List<Map<String, Object>> entries = new ArrayList<>();
    for (String each : AND.split(part)) {
      entries.addAll(together(each));
    }
    return entries;
  }

  /** What one day saw. */
  private List<Map<String, Object>> together(String part) throws BadInput {
    Matcher filled = FLUID.matcher(part);
    Optional<String> fluid = filled.find() ? Optional.of(fluid(filled.group())) : Optional.empty();
    // The point of 5.1 would be heard as a day.
    String plain =
        fluid.filter(id -> id.startsWith("dot")).isPresent() ? filled.replaceAll("dot") : part;
    Optional<LocalDate> day = Optional.empty();
    Optional<SpokenDay.Found> told = SpokenDay.in(plain, opened);
    if (told.isPresent()) {
      day = Optional.of(day(plain, told.get()));
      plain =
          (plain.substring(0, told.get().start()) + " " + plain.substring(told.get().end()))
              .replaceAll("(?i)(\\s+(on|the|am|den|le))+\\s*$", "")
              .replaceAll("(?i)\\s+(on|am)\\s{2,}", " ")
              .strip();
    }
    List<Heard.Told> heard = hearing.hear(plain, "unknown", opened).history();
    List<Map<String, Object>> entries = new ArrayList<>();
    for (Heard.Told each : heard) {
      Optional<LocalDate> when =
          day.isPresent() || each.daysAgo().isEmpty()
              ? day
              : Optional.of(opened.minusDays(each.daysAgo().getAsInt()));
      boolean work = each.kind() == Heard.Kind.WORK;
      entries.add(
          entry(
              work ? "work" : "event",
              each.id(),
              when,
              work ? fluid.or(() -> each.fluid().map(Fluid::id)) : Optional.empty(),
              each.outcome()));
    }
    if (!entries.isEmpty()) {
      return entries;
    }
    for (String each : AND.split(plain)) {
      entries.add(named(each.strip(), part, day, fluid));
    }
    return entries;
  }

  private LocalDate day(String part, SpokenDay.Found told) throws BadInput {
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

  /** What is not heard as a sentence may be a name, an id or a word of the trade. */
  private Map<String, Object> named(
      String words, String part, Optional<LocalDate> day, Optional<String> fluid) throws BadInput {
    String bare = FLUID.matcher(words).replaceAll("").replaceFirst("(?i)\\s+with\\s*$", "").strip();
    Optional<String> work = trade.one(bare, Kind.WORK, vocabulary.recordedWorks());
    if (work.isPresent()) {
      return entry("work", work.get(), day, fluid, Optional.empty());
    }
    Optional<String> event = trade.one(bare, Kind.EVENT, vocabulary.events().keySet());
    if (event.isPresent()) {
      return entry("event", event.get(), day, Optional.empty(), Optional.empty());
    }
    throw refused(
        part.strip(),
        "tells no work or event known here",
        trade.maybe(bare, Kind.WORK, vocabulary.recordedWorks()));
  }

  private static Map<String, Object> entry(
      String kind,
      String id,
      Optional<LocalDate> day,
      Optional<String> fluid,
      Optional<String> outcome) {
    Map<String, Object> entry = new LinkedHashMap<>();
    day.ifPresent(date -> entry.put("date", date.toString()));
    entry.put(kind, id);
    fluid.ifPresent(name -> entry.put("fluid", name));
    outcome.ifPresent(name -> entry.put("outcome", name));
    return entry;
  }

  /** The case with all answers, in the order of fields that case files have. */
  Map<String, Object> with(
      String brake,
      String wheel,
      String fluid,
      String complaint,
      List<Map<String, Object>> history) {
    Map<String, Object> file = new LinkedHashMap<>();
    file.put("format", CaseFormat.FORMAT);
    String day = "-" + opened;
    file.put("id", brake.substring(0, Math.min(brake.length(), 80 - day.length())) + day);
    file.put("opened", opened.toString());
    Map<String, Object> about = new LinkedHashMap<>();
    about.put("id", brake);
    about.put("position", wheel);
    about.put("fluid", fluid);
    file.put("brake", about);
    if (!complaint.isEmpty()) {
      file.put("complaint", complaint);
    }
    file.put("symptoms", Map.of());
    if (!history.isEmpty()) {
      file.put("history", history);
    }
    return file;
  }

  /** The wheel that a code of a brake names, else unknown. */
  static String wheelOf(String brake) {
    String small = brake.toLowerCase(Locale.ROOT);
    boolean front = small.contains("front");
    boolean rear = small.contains("rear");
    return front == rear ? "unknown" : front ? "front" : "rear";
  }

  private static BadInput refused(String answer, String why, String maybe) {
    return new BadInput(List.of(Problem.ofFile("\"" + answer + "\"", why, maybe)));
  }
}
