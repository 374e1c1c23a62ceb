package firmlever.bench;

import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.Fields;
import firmlever.interview.NewCase;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Session;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/** The pages that are of no one job: today, the search, a brake with its time line, a new job. */
final class DayPages {
  private static final int MOST = 100;
  private static final int MOST_VISITS = 500;

  private final Shop shop;

  DayPages(Shop shop) {
    this.shop = shop;
  }

  Response today(Session session) {
    LocalDate today = shop.jobs().today();
    List<View.Group> groups =
        List.of(
            group("day.open", shop.store().in(State.OPEN, MOST)),
            group("day.waiting", shop.store().in(State.WAITING, MOST)),
            group("day.held", shop.store().in(State.HELD, MOST)),
            group("day.back", shop.store().handedBackOn(today, MOST)));
    String title = shop.say("day.title", shop.day(today));
    return shop.pages().show(200, "day", new View.Day(frame(session, title), title, groups, MOST));
  }

  private View.Frame frame(Session session, String title) {
    return shop.pages().frame(Optional.of(session), title, List.of());
  }

  private View.Group group(String key, List<Heading> headings) {
    return new View.Group(shop.say(key), headings.stream().map(this::row).toList());
  }

  private View.Row row(Heading heading) {
    Vocabulary vocabulary = shop.reasoning().vocabulary();
    return new View.Row(
        heading.id(),
        heading.brake(),
        heading.title(),
        state(heading.state()),
        shop.day(heading.opened()),
        names(heading.causes(), id -> vocabulary.cause(id).name()),
        names(heading.works(), id -> vocabulary.action(id).name()));
  }

  private static String names(List<String> ids, UnaryOperator<String> name) {
    return ids.stream().map(name).collect(Collectors.joining(", "));
  }

  String state(State state) {
    return shop.say("state." + state.name().toLowerCase(Locale.ROOT).replace('_', '-'));
  }

  Response search(Session session, String query) {
    List<View.Row> rows = shop.store().search(query, MOST).stream().map(this::row).toList();
    View.Frame plain = frame(session, shop.say("search.title", query));
    View.Frame frame =
        new View.Frame(
            plain.words(), plain.session(), plain.title(), plain.assets(), query, List.of());
    return shop.pages().show(200, "search", new View.Search(frame, rows));
  }

  Response brake(Session session, String code) throws NotFound {
    List<Heading> headings = shop.store().ofBrake(code, MOST_VISITS);
    if (headings.isEmpty()) {
      throw new NotFound();
    }
    Map<String, Integer> photos = shop.store().photosOfBrake(code);
    List<View.Visit> visits = new ArrayList<>();
    for (int i = 0; i < headings.size(); i++) {
      visits.add(
          new View.Visit(
              row(headings.get(i)),
              i + 1 < headings.size() ? gap(headings.get(i), headings.get(i + 1)) : "",
              photos.getOrDefault(headings.get(i).id(), 0)));
    }
    return shop.pages()
        .show(
            200,
            "brake",
            new View.Brake(frame(session, shop.say("brake.title", code)), code, visits));
  }

  /** How long after the job before it this one came in, where that went back. */
  private String gap(Heading later, Heading before) {
    return before
        .closed()
        .map(day -> ChronoUnit.DAYS.between(day, later.opened()))
        .filter(days -> days >= 0)
        .map(days -> shop.say("brake.returned", days))
        .orElse("");
  }

  Response newJob(Session session, Request request) {
    String code = request.asked("brake");
    Map<String, String> typed = new LinkedHashMap<>();
    typed.put("brake", code);
    typed.put("wheel", code.isEmpty() ? "" : NewCase.wheelOf(code));
    List<Heading> before = code.isEmpty() ? List.of() : shop.store().ofBrake(code, MOST_VISITS);
    before.stream()
        .findFirst()
        .flatMap(heading -> shop.store().job(heading.id()))
        .ifPresent(
            last -> {
              try {
                Fields brake =
                    Fields.of(DocumentReader.readText(last.content().caseText(), "the case"))
                        .inner("brake");
                typed.put("wheel", brake.text("position", "unknown"));
                typed.put("fluid", brake.text("fluid", "unknown"));
              } catch (BadInput e) {
                throw new IllegalStateException("a case in the store is damaged", e);
              }
            });
    return newPage(session, 200, typed, before.size(), List.of());
  }

  private Response newPage(
      Session session, int status, Map<String, String> typed, int known, List<String> problems) {
    List<View.Choice> wheels =
        List.of("rear", "front", "unknown").stream()
            .map(
                id ->
                    new View.Choice(id, shop.say("new.wheel." + id), id.equals(typed.get("wheel"))))
            .toList();
    return shop.pages()
        .show(
            status,
            "new",
            new View.NewJob(
                frame(session, shop.say("new.title")).with(problems),
                typed,
                wheels,
                Fluids.choices(typed.getOrDefault("fluid", "unknown")),
                known));
  }

  Response begin(Session session, Request request) {
    try {
      return Response.to(
          "/jobs/"
              + shop.jobs()
                  .begin(
                      session.person(),
                      request.field("brake"),
                      request.field("wheel"),
                      request.field("fluid"),
                      request.field("complaint"))
                  .heading()
                  .id());
    } catch (BadInput e) {
      Map<String, String> typed = new LinkedHashMap<>();
      for (String name : List.of("brake", "wheel", "fluid", "complaint")) {
        typed.put(name, request.field(name));
      }
      return newPage(session, 400, typed, 0, Sentences.of(e));
    }
  }
}
