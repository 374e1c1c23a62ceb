package firmlever.bench;

import firmlever.bench.job.Effect;
import firmlever.bench.job.Sheet;
import firmlever.bench.job.Verdicts;
import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.report.FirstScreen;
import firmlever.document.BadInput;
import firmlever.store.JobStore.Change;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import firmlever.web.Request;
import firmlever.web.Session;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Makes what every page of a job has: the verdict above all, who did what meanwhile, the tabs. */
final class JobFrames {
  /** A brake that is back within so many days is said to have come back. */
  private static final int COMEBACK_DAYS = 90;

  /** The width the first screen is cut to its lines for. */
  private static final int COLUMNS = 80;

  /** So many lines of what the last entry changed are shown at once. */
  private static final int EFFECT_LINES = 3;

  /** Of a longer entry the beginning is told. */
  private static final int LONGEST_ENTRY = 80;

  private final Shop shop;
  private final FirstScreen screen;
  private final EffectLines effects;

  JobFrames(Shop shop) {
    this.shop = shop;
    this.effects = new EffectLines(shop);
    this.screen = new FirstScreen(shop.reasoning().vocabulary(), COLUMNS, false);
  }

  /** A job with all its pages are made of. */
  record Read(Job job, Verdicts.Judged judged, Sheet sheet) {
    CaseFile file() {
      return judged.file();
    }

    boolean closed() {
      return job.heading().state() == State.HANDED_BACK;
    }
  }

  Read read(Job job) throws BadInput {
    return new Read(
        job, shop.verdicts().of(job.content().caseText()), Sheet.read(job.content().sheet()));
  }

  /** What is wrong, or who was first, to be told above a page. */
  record Notice(List<String> problems, Optional<View.Clash> clash) {
    static final Notice NONE = new Notice(List.of(), Optional.empty());

    static Notice of(BadInput e) {
      return new Notice(Sentences.of(e), Optional.empty());
    }

    static Notice of(String problem) {
      return new Notice(List.of(problem), Optional.empty());
    }

    int status() {
      return clash.isPresent() ? 409 : problems.isEmpty() ? 200 : 400;
    }
  }

  /** The version of the job a form was made of, by which the later of two is told. */
  static int seen(Request request) {
    String version = request.field("version");
    return version.matches("[0-9]{1,9}") ? Integer.parseInt(version) : 0;
  }

  /** Tells the later of two what happened, and keeps what it sent. */
  Notice overtaken(Request request, List<Change> since) {
    List<View.Field> fields = new ArrayList<>();
    request
        .form()
        .forEach(
            (name, values) -> {
              if (!name.equals("version") && !name.equals("form-token")) {
                values.forEach(value -> fields.add(new View.Field(name, value)));
              }
            });
    List<String> told =
        since.stream()
            .map(
                change ->
                    shop.say(
                        "changed.by",
                        change.stamp().author(),
                        time(change.stamp()),
                        change.stamp().what()))
            .toList();
    return new Notice(
        List.of(),
        Optional.of(
            new View.Clash(told, "/" + String.join("/", request.path()), List.copyOf(fields))));
  }

  String time(Stamp stamp) {
    return DateTimeFormatter.ofPattern("d MMM HH:mm", shop.pages().words().locale())
        .format(LocalDateTime.ofInstant(stamp.moment(), shop.zone()));
  }

  View.Job frame(Session session, Read read, String tab, Notice notice) {
    Heading heading = read.job().heading();
    Optional<Diagnosis> diagnosis = read.judged().diagnosis();
    String title = heading.brake() + ": " + shop.say("tab." + tab);
    return new View.Job(
        shop.pages().frame(Optional.of(session), title, notice.problems()),
        heading.id(),
        heading.brake(),
        diagnosis.map(Diagnosis::brake).orElse(heading.brake()),
        read.job().version(),
        tab,
        heading.state().name().toLowerCase(Locale.ROOT).replace('_', '-'),
        read.closed(),
        !read.sheet().done().isEmpty(),
        banner(read),
        diagnosis.map(d -> d.ride().verdict().id()).orElse(""),
        diagnosis.map(screen::lines).orElse(List.of()),
        Effect.of(shop.store(), shop.verdicts(), read.job(), read.judged()).map(this::effect),
        read.judged().refusal(),
        cameBack(heading),
        notice.clash());
  }

  private View.Effect effect(Effect effect) {
    List<String> lines = effects.of(effect.difference(), effect.entered());
    String entry = shortened(effect.stamp().what());
    String by = effect.stamp().author() + ", " + time(effect.stamp());
    // To unfold a single line takes as much room as the line.
    int shown = lines.size() <= EFFECT_LINES + 1 ? lines.size() : EFFECT_LINES;
    return new View.Effect(
        lines.isEmpty()
            ? shop.say("effect.none", entry, by)
            : shop.say("effect.changed", entry, by),
        lines.subList(0, shown),
        lines.subList(shown, lines.size()));
  }

  private static String shortened(String words) {
    return words.codePointCount(0, words.length()) <= LONGEST_ENTRY
        ? words
        : words.substring(0, words.offsetByCodePoints(0, LONGEST_ENTRY - 1)) + "…";
  }

  private String banner(Read read) {
    if (read.closed()) {
      LocalDate day = read.job().heading().closed().orElse(read.job().heading().opened());
      String by = read.sheet().signed().map(Sheet.Signed::by).orElse("-");
      return shop.say("job.closed", shop.day(day), by);
    }
    return read.sheet().reason().isEmpty() ? "" : shop.say("job.reason", read.sheet().reason());
  }

  private Optional<View.Link> cameBack(Heading heading) {
    return shop.store().ofBrake(heading.brake(), COMEBACK_DAYS).stream()
        .filter(each -> !each.id().equals(heading.id()) && each.closed().isPresent())
        .filter(each -> !each.closed().get().isAfter(heading.opened()))
        .findFirst()
        .map(
            each ->
                new View.Link(
                    each.id(),
                    String.valueOf(ChronoUnit.DAYS.between(each.closed().get(), heading.opened()))))
        .filter(link -> Long.parseLong(link.words()) <= COMEBACK_DAYS);
  }
}
