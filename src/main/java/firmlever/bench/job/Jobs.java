package firmlever.bench.job;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.Fluid;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Measures.Kind;
import firmlever.document.Node;
import firmlever.document.Problem;
import firmlever.interview.NewCase;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Change;
import firmlever.store.JobStore.Changed;
import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import java.math.BigDecimal;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Begins jobs and changes them, each change signed with who made it and when. */
public final class Jobs {
  /** Earlier jobs of a brake whose record comes along; older ones say nothing any more. */
  private static final int EARLIER = 50;

  /** Entries of that record; a case file may hold a thousand. */
  private static final int ENTRIES = 300;

  private static final int LONGEST_TITLE = 80;

  /** Jobs of one brake on one day. */
  private static final int MOST_A_DAY = 50;

  /** A code with such a number behind it is still one. */
  private static final int LONGEST_FIRST = 76;

  /** Members of a case that are of one visit, and not of the brake. */
  private static final Set<String> OF_THE_VISIT =
      Set.of(
          "complaint",
          "misheard",
          "symptoms",
          "only-told",
          "readings",
          "history",
          "outcome",
          "claim",
          "source",
          "why",
          "known-miss",
          "expect");

  private final JobStore store;
  private final Verdicts verdicts;
  private final NewCase newCase;
  private final InstantSource clock;
  private final ZoneId zone;

  public Jobs(
      JobStore store, Verdicts verdicts, NewCase newCase, InstantSource clock, ZoneId zone) {
    this.store = store;
    this.verdicts = verdicts;
    this.newCase = newCase;
    this.clock = clock;
    this.zone = zone;
  }

  /** Somebody else changed the job since the page was shown. */
  public static final class Overtaken extends Exception {
    private static final long serialVersionUID = 1L;
    private final transient List<Change> since;

    Overtaken(List<Change> since) {
      this.since = since;
    }

    public List<Change> since() {
      return since;
    }
  }

  /** Makes of a job as it stands what it is to be. */
  public interface Edit {
    Content of(Job job) throws BadInput;
  }

  public LocalDate today() {
    return LocalDate.ofInstant(clock.instant(), zone);
  }

  private Stamp stamp(String person, String what) {
    return new Stamp(clock.instant(), person, what);
  }

  /**
   * Takes a brake in. What earlier jobs of it tell is the record of this one.
   *
   * @throws BadInput with what was typed amiss
   */
  public Job begin(String person, String brake, String wheel, String fluid, String complaint)
      throws BadInput {
    List<Problem> problems = new ArrayList<>();
    String code = tried(problems, () -> newCase.brake(brake));
    String position = tried(problems, () -> newCase.wheel(wheel));
    String builtFor = tried(problems, () -> newCase.fluid(fluid));
    String words = tried(problems, () -> newCase.complaint(complaint));
    if (!problems.isEmpty()) {
      throw new BadInput(problems);
    }
    LocalDate day = today();
    List<Job> earlier = earlier(code);
    Map<String, Object> file =
        new LinkedHashMap<>(
            NewCase.with(day, code, position, builtFor, words, history(earlier, day)));
    earlier.stream().findFirst().ifPresent(last -> known(last, file, position, builtFor));
    String first = (String) requireNonNull(file.get("id"));
    for (int number = 1; ; number++) {
      String id =
          number == 1
              ? first
              : first.substring(0, Math.min(first.length(), LONGEST_FIRST)) + "-" + number;
      file.put("id", id);
      String text = JsonText.of(file) + "\n";
      CaseFile read = verdicts.read(text);
      try {
        return store.add(
            new Content(heading(read, State.OPEN), text, Sheet.EMPTY.json()),
            stamp(person, "came in"));
      } catch (Changed e) {
        if (number > MOST_A_DAY) {
          throw new BadInput(
              List.of(Problem.ofFile(id, "has more jobs today than a day has room for", "")));
        }
      }
    }
  }

  /** Asks for one of several answers, all of which are checked. */
  private interface Answer {
    String read() throws BadInput;
  }

  private static String tried(List<Problem> problems, Answer answer) {
    try {
      return answer.read();
    } catch (BadInput e) {
      problems.addAll(e.problems());
      return "";
    }
  }

  private List<Job> earlier(String brake) {
    return store.ofBrake(brake, EARLIER).stream()
        .flatMap(heading -> store.job(heading.id()).stream())
        .toList();
  }

  /** What the last job knew of the brake itself: its hose, its pistons, the maker's figures. */
  private static void known(Job last, Map<String, Object> file, String position, String builtFor) {
    try {
      if (DocumentReader.readText(last.content().caseText(), "the case")
          instanceof Node.Object before) {
        before
            .members()
            .forEach(
                (name, node) -> {
                  if (!OF_THE_VISIT.contains(name)) {
                    file.putIfAbsent(name, Plain.of(node));
                  }
                });
        if (before.members().get("brake") instanceof Node.Object brake) {
          Map<String, Object> about = new LinkedHashMap<>();
          brake.members().forEach((name, node) -> about.put(name, Plain.of(node)));
          about.put("position", position);
          about.put("fluid", builtFor);
          file.put("brake", about);
        }
      }
    } catch (BadInput e) {
      throw new IllegalStateException("a case in the store is damaged", e);
    }
  }

  /** The records of earlier jobs and what was done in them, each entry once, the oldest first. */
  private List<Map<String, Object>> history(List<Job> earlier, LocalDate today) throws BadInput {
    Set<Map<String, Object>> entries = new LinkedHashSet<>();
    for (int i = earlier.size() - 1; i >= 0; i--) {
      Job job = earlier.get(i);
      CaseFile file = verdicts.read(job.content().caseText());
      for (Entry entry : file.history()) {
        entries.add(written(entry, file.opened(), today));
      }
      entries.addAll(worked(job, file, today));
    }
    List<Map<String, Object>> all = new ArrayList<>(entries);
    return all.subList(Math.max(0, all.size() - ENTRIES), all.size());
  }

  private static List<Map<String, Object>> worked(Job job, CaseFile file, LocalDate today) {
    Sheet sheet = Sheet.read(job.content().sheet());
    List<Map<String, Object>> works = new ArrayList<>();
    for (Sheet.Done done : sheet.done()) {
      Map<String, Object> entry = done.entry(day(done.day(), today));
      // Not handed back is not known to have helped.
      if (job.heading().state() == State.HANDED_BACK) {
        entry.put("outcome", "mended");
      }
      works.add(entry);
    }
    if (sheet.done().isEmpty() && file.outcome().isPresent()) {
      LocalDate closed = file.outcome().get().closed().orElse(file.opened());
      for (String work : file.outcome().get().works()) {
        Map<String, Object> entry = day(closed, today);
        entry.put("work", work);
        if (!file.outcome().get().by().isEmpty()) {
          entry.put("by", file.outcome().get().by());
        }
        entry.put("outcome", "mended");
        works.add(entry);
      }
    }
    return works;
  }

  /** A day as a history holds it; with the clock set back, no day after today. */
  private static Map<String, Object> day(LocalDate day, LocalDate today) {
    Map<String, Object> entry = new LinkedHashMap<>();
    entry.put("date", (day.isAfter(today) ? today : day).toString());
    return entry;
  }

  private static Map<String, Object> written(Entry entry, LocalDate opened, LocalDate today) {
    Map<String, Object> map =
        entry.daysAgo().isPresent()
            ? day(opened.minusDays(entry.daysAgo().getAsInt()), today)
            : new LinkedHashMap<>();
    put(map, "work", entry.work());
    put(map, "event", entry.event());
    put(map, "fluid", entry.fluid() == Fluid.UNKNOWN ? "" : entry.fluid().id());
    put(map, "by", entry.by());
    if (!Double.isNaN(entry.torqueNm())) {
      map.put("torque", number(entry.torqueNm()) + " " + Kind.TORQUE.base());
    }
    if (!entry.parts().isEmpty()) {
      map.put("parts", entry.parts());
    }
    put(map, "lot", entry.lot());
    put(map, "outcome", entry.outcome().equals("unknown") ? "" : entry.outcome());
    if (!entry.circumstances().isEmpty()) {
      map.put("circumstances", List.copyOf(entry.circumstances()));
    }
    put(map, "note", entry.note());
    return map;
  }

  private static String number(double value) {
    return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }

  private static void put(Map<String, Object> map, String name, String value) {
    if (!value.isEmpty()) {
      map.put(name, value);
    }
  }

  /** The heading of a case in a state. */
  static Heading heading(CaseFile file, State state) {
    Optional<CaseFile.Outcome> outcome = file.outcome();
    return new Heading(
        file.id(),
        file.brake().id(),
        file.opened(),
        state == State.HANDED_BACK
            ? Optional.of(outcome.flatMap(CaseFile.Outcome::closed).orElse(file.opened()))
            : Optional.empty(),
        state,
        shortened(file.complaint().strip(), LONGEST_TITLE),
        outcome.map(CaseFile.Outcome::causes).orElse(List.of()),
        outcome.map(CaseFile.Outcome::works).orElse(List.of()));
  }

  private static String shortened(String text, int most) {
    return text.codePointCount(0, text.length()) <= most
        ? text
        : text.substring(0, text.offsetByCodePoints(0, most - 1)) + "…";
  }

  /**
   * Changes a job.
   *
   * @param seen the version that was on the page
   * @param what in words, for the log
   * @throws Overtaken where somebody else has changed it since; nothing is written then
   * @throws BadInput where it cannot be changed like this
   */
  public Job change(String id, int seen, String person, String what, Edit edit)
      throws BadInput, Overtaken {
    Job now = store.job(id).orElseThrow();
    checkOpen(now);
    Content after = edit.of(now);
    if (after.equals(now.content())) {
      return now; // A second tap on the same: it is as it should be.
    }
    if (now.version() != seen) {
      throw new Overtaken(store.changesAfter(id, seen));
    }
    CaseFile file = verdicts.read(after.caseText());
    Content whole =
        new Content(heading(file, after.heading().state()), after.caseText(), after.sheet());
    try {
      return store.change(whole, seen, stamp(person, what));
    } catch (Changed e) {
      throw new Overtaken(store.changesAfter(id, seen));
    }
  }

  /**
   * Lets only a job through that is not handed back.
   *
   * @throws BadInput where it is
   */
  public static void checkOpen(Job job) throws BadInput {
    if (job.heading().state() == State.HANDED_BACK) {
      throw new BadInput(
          List.of(
              Problem.ofFile(
                  job.heading().id(),
                  "is handed back, and nothing of it can be changed",
                  "Maybe open a new job for this brake.")));
    }
  }

  /** The job with another case text. */
  public static Content withCase(Job job, String text) {
    return new Content(job.heading(), text, job.content().sheet());
  }

  /** The job with another sheet. */
  public static Content withSheet(Job job, Sheet sheet) {
    return new Content(job.heading(), job.content().caseText(), sheet.json());
  }

  /** The job in another state, with another case and sheet. */
  public static Content with(Job job, State state, String text, Sheet sheet) {
    Heading h = job.heading();
    return new Content(
        new Heading(
            h.id(), h.brake(), h.opened(), h.closed(), state, h.title(), h.causes(), h.works()),
        text,
        sheet.json());
  }
}
