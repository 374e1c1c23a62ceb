package firmlever.bench;

import firmlever.document.BadInput;
import firmlever.document.Digest;
import firmlever.document.Problem;
import firmlever.interview.NewCase;
import firmlever.store.JobStore;
import firmlever.store.StoreFault;
import firmlever.web.App;
import firmlever.web.Request;
import firmlever.web.Response;
import firmlever.web.Role;
import firmlever.web.Session;
import firmlever.web.Sessions;
import firmlever.web.ShopKey;
import firmlever.web.SignInLimit;
import firmlever.web.WebServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.function.Supplier;

/** The bench: who may see what, and which page answers which address. */
public final class BenchApp implements App {
  private static final int SESSION_SECONDS = 12 * 60 * 60;

  /** The setting that holds the page of comebacks. */
  public static final String REVIEW_SETTING = "review-page";

  private static final String REVIEW = "review";

  /** Pages of a job that are for the desk. */
  private static final Set<String> DESK = Set.of("claim", "dossier", "dossier.pdf");

  /** The only files that are served, by name: no address reaches the file system. */
  private static final Map<String, String> ASSETS =
      Map.of("bench.css", "text/css; charset=utf-8", "bench.js", "text/javascript; charset=utf-8");

  private final Pages pages = new Pages(Words.in("en"), version());
  private final Sessions sessions;
  private final People people;
  private final JobStore store;
  private final SignInLimit limit;
  private final Optional<String> keyDigest;
  private final FutureTask<Inside> inside;
  private volatile String cookie = "";

  /** What one needs behind the door. */
  private record Inside(DayPages day, JobPages job) {}

  /**
   * @param reasoning is asked once, beside: the door opens while the rules are still being read
   * @param keyDigest digest of the key every tablet must know; empty where none is asked for
   * @param zone the one whose day it is in the shop
   */
  public BenchApp(
      JobStore store,
      Supplier<Reasoning> reasoning,
      Sessions sessions,
      Optional<String> keyDigest,
      InstantSource clock,
      ZoneId zone) {
    this.store = store;
    this.people = new People(store);
    this.sessions = sessions;
    this.keyDigest = keyDigest;
    this.limit = new SignInLimit(clock);
    this.inside =
        new FutureTask<>(
            () -> {
              Reasoning parts = reasoning.get();
              Verdicts verdicts = new Verdicts(parts);
              NewCase newCase = new NewCase(parts.vocabulary());
              Jobs jobs = new Jobs(store, verdicts, newCase, clock, zone);
              Shop shop = new Shop(store, parts, verdicts, jobs, pages, clock, zone);
              return new Inside(new DayPages(shop), new JobPages(shop));
            });
    Thread reading = new Thread(inside, "reads the rules");
    reading.setDaemon(true);
    reading.start();
  }

  private Inside inside() {
    try {
      return inside.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("the rules cannot be read: " + e.getCause(), e);
    }
  }

  private String say(String key, Object... values) {
    return pages.words().say(key, values);
  }

  /** Tells the app on which port it is served. */
  public void servedOn(int port) {
    cookie = WebServer.cookie(port);
  }

  private static String version() {
    return Digest.sha256(Digest.sha256(asset("bench.css")) + Digest.sha256(asset("bench.js")))
        .substring(0, 12);
  }

  private static byte[] asset(String name) {
    try (InputStream in = BenchApp.class.getResourceAsStream(name)) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public Response answer(Request request) {
    try {
      return routed(request);
    } catch (NotFound e) {
      return failure(request.session(), 404, say("error.not-found"));
    } catch (StoreFault e) {
      return failure(request.session(), 503, e.getMessage());
    } catch (BadInput e) {
      return failure(
          request.session(),
          400,
          String.join(" ", e.problems().stream().map(BenchApp::spoken).toList()));
    }
  }

  /** A problem as a sentence on a page. */
  static String spoken(Problem problem) {
    return problem.spoken().replace("\n    ", ". ");
  }

  @Override
  public Response refused(int status, String why) {
    return failure(Optional.empty(), status, why);
  }

  private Response failure(Optional<Session> session, int status, String why) {
    return pages.show(
        status,
        "failure",
        new View.Failure(pages.frame(session, say("error.title"), List.of()), why));
  }

  private Response routed(Request request) throws BadInput, NotFound {
    String first = request.segment(0);
    if (first.equals("static") && ASSETS.containsKey(request.segment(1))) {
      return Response.lasting(ASSETS.get(request.segment(1)), asset(request.segment(1)));
    }
    if (first.equals("sign-in")) {
      return request.post()
          ? signIn(request)
          : signInPage(request, 200, request.asked("next"), List.of());
    }
    if (request.session().isEmpty()) {
      String here = "/" + String.join("/", request.path());
      return request.post()
          ? signInPage(request, 401, here, List.of(say("sign-in.again")))
          : Response.to("/sign-in?next=" + encoded(here));
    }
    Session session = request.session().get();
    Role needed = needed(request.path());
    if (!may(session, needed)) {
      return failure(request.session(), 403, say("role.not-yours", say("role." + needed.id())));
    }
    if (first.equals(REVIEW)) {
      return review(session);
    }
    DayPages day = inside().day();
    return switch (first) {
      case "" -> day.today(session);
      case "search" -> day.search(session, request.asked("q"));
      case "brakes" -> day.brake(session, request.segment(1));
      case "new" -> request.post() ? day.begin(session, request) : day.newJob(session, request);
      case "jobs" -> inside().job().answer(session, request);
      case "sign-out" -> {
        if (request.post()) {
          sessions.end(session);
        }
        yield Response.to("/sign-in");
      }
      default -> throw new NotFound();
    };
  }

  /** The role a page is for. Figures of persons stand on the page of comebacks alone. */
  static Role needed(List<String> path) {
    if (!path.isEmpty() && path.get(0).equals(REVIEW)) {
      return Role.OWNER;
    }
    boolean desk = path.size() > 2 && path.get(0).equals("jobs") && DESK.contains(path.get(2));
    return desk ? Role.DESK : Role.MECHANIC;
  }

  /** A role taken away since the sign-in counts no more. */
  private boolean may(Session session, Role needed) {
    return needed == Role.MECHANIC
        || session.role().covers(needed)
            && people.of(session.person()).filter(now -> now.role().covers(needed)).isPresent();
  }

  /** The page of comebacks as the command review has left it in the store. */
  private Response review(Session session) {
    return store
        .setting(REVIEW_SETTING)
        .map(Sheets::page)
        .orElseGet(
            () ->
                pages.show(
                    404,
                    "failure",
                    new View.Failure(
                        pages.frame(Optional.of(session), say("review.title"), List.of()),
                        say("review.none"))));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private Response signInPage(Request request, int status, List<String> problems) {
    return signInPage(request, status, request.field("next"), problems);
  }

  private Response signInPage(Request request, int status, String next, List<String> problems) {
    return pages.show(
        status,
        "sign-in",
        new View.SignIn(
            pages.frame(request.session(), say("sign-in.title"), problems),
            keyDigest.isPresent() && request.session().isEmpty(),
            ownKeyAsked(request),
            request.field("code"),
            next));
  }

  /** Whether the code that was typed has a key of its own. */
  private boolean ownKeyAsked(Request request) {
    return request.post() && people.of(request.field("code").toUpperCase(Locale.ROOT)).isPresent();
  }

  private Response signIn(Request request) {
    long waits = limit.waits(request.from());
    if (waits > 0) {
      return signInPage(request, 429, List.of(say("sign-in.wait", waits)))
          .with("Retry-After", String.valueOf(waits));
    }
    boolean known =
        keyDigest.isEmpty()
            || request.session().isPresent()
            || ShopKey.fits(request.field("key"), keyDigest.get());
    if (!known) {
      limit.wasWrong(request.from());
      return signInPage(request, 403, List.of(say("sign-in.wrong-key")));
    }
    String code = request.field("code").toUpperCase(Locale.ROOT);
    if (!People.CODE.matcher(code).matches()) {
      return signInPage(request, 400, List.of(say("sign-in.wrong-code")));
    }
    Optional<People.Person> person = people.of(code);
    if (person.isPresent() && !ShopKey.fits(request.field("own-key"), person.get().keyDigest())) {
      boolean typed = !request.field("own-key").isEmpty();
      if (typed) {
        limit.wasWrong(request.from());
      }
      return signInPage(
          request,
          403,
          List.of(typed ? say("sign-in.wrong-own-key") : say("sign-in.own-key-needed")));
    }
    limit.wasRight(request.from());
    request.session().ifPresent(sessions::end);
    Session session = sessions.start(code, person.map(People.Person::role).orElse(Role.MECHANIC));
    return Response.to(inside(request.field("next")))
        .with(
            "Set-Cookie",
            cookie
                + "="
                + session.token()
                + "; Path=/; HttpOnly; SameSite=Strict; Max-Age="
                + SESSION_SECONDS);
  }

  /** A page of this server to go on to; never one elsewhere. */
  private static String inside(String next) {
    return next.matches("/[A-Za-z0-9._-][A-Za-z0-9._/-]*") ? next : "/";
  }
}
