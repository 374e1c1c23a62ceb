package firmlever.bench;

import static java.util.Objects.requireNonNull;

import firmlever.bench.job.Jobs;
import firmlever.bench.job.People;
import firmlever.bench.job.Reasoning;
import firmlever.bench.job.Verdicts;
import firmlever.document.BadInput;
import firmlever.document.Digest;
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
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.atomic.AtomicBoolean;
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

  private final String version = version();
  private final Map<String, Pages> pages = new ConcurrentHashMap<>();
  private final Sessions sessions;
  private final Supplier<JobStore> store;
  private final SignInLimit limit;
  private final Optional<String> keyDigest;
  private final FutureTask<Map<String, Inside>> inside;
  private final Thread reading;
  private final AtomicBoolean started = new AtomicBoolean();
  private volatile String cookie = "";

  /** What one needs behind the door. */
  private record Inside(DayPages day, JobPages job) {}

  /**
   * @param store is asked for when it is needed first: the door opens while it is being opened
   * @param reasoning is asked once, beside, from the first answer on
   * @param keyDigest digest of the key every tablet must know; empty where none is asked for
   * @param zone the one whose day it is in the shop
   */
  public BenchApp(
      Supplier<JobStore> store,
      Supplier<Reasoning> reasoning,
      Sessions sessions,
      Optional<String> keyDigest,
      InstantSource clock,
      ZoneId zone) {
    this.store = store;
    this.sessions = sessions;
    this.keyDigest = keyDigest;
    this.limit = new SignInLimit(clock);
    this.inside =
        new FutureTask<>(
            () -> {
              Reasoning parts = reasoning.get();
              Verdicts verdicts = new Verdicts(parts);
              NewCase newCase = new NewCase(parts.vocabulary());
              JobStore kept = store.get();
              Jobs jobs = new Jobs(kept, verdicts, newCase, clock, zone);
              Map<String, Inside> doors = new HashMap<>();
              for (String language : Words.LANGUAGES) {
                Shop shop = new Shop(kept, parts, verdicts, jobs, pages(language), clock, zone);
                doors.put(language, new Inside(new DayPages(shop), new JobPages(shop)));
              }
              return doors;
            });
    this.reading = new Thread(inside, "reads the rules");
    reading.setDaemon(true);
  }

  /** Reads the rules beside, from the first answer on: before, they would hold that one up. */
  private void read() {
    if (started.compareAndSet(false, true)) {
      reading.start();
    }
  }

  private People people() {
    return new People(store.get());
  }

  private Inside inside(Request request) {
    read();
    try {
      return requireNonNull(inside.get().get(language(request)));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("the rules cannot be read: " + e.getCause(), e);
    }
  }

  /** The pages of a language; its file is read when it is asked for first. */
  private Pages pages(String language) {
    return pages.computeIfAbsent(language, code -> new Pages(Words.in(code), version));
  }

  private Pages pages(Request request) {
    return pages(language(request));
  }

  /** The language the browser likes best of those there are; English where it likes none. */
  private static String language(Request request) {
    return request.languages().stream()
        .filter(Words.LANGUAGES::contains)
        .findFirst()
        .orElse(Words.LANGUAGES.get(0));
  }

  private String say(Request request, String key, Object... values) {
    return pages(request).words().say(key, values);
  }

  /** Tells the app on which port it is served. */
  void servedOn(int port) {
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
      return failure(request, 404, say(request, "error.not-found"));
    } catch (StoreFault e) {
      return failure(request, 503, String.valueOf(e.getMessage()));
    } catch (BadInput e) {
      return failure(request, 400, String.join(" ", Sentences.of(e)));
    } finally {
      read();
    }
  }

  /** Here nothing is known of the browser's language. */
  @Override
  public Response refused(int status, String why) {
    return failure(pages(Words.LANGUAGES.get(0)), Optional.empty(), status, why);
  }

  private Response failure(Request request, int status, String why) {
    return failure(pages(request), request.session(), status, why);
  }

  private static Response failure(Pages pages, Optional<Session> session, int status, String why) {
    return pages.show(
        status,
        "failure",
        new View.Failure(pages.frame(session, pages.words().say("error.title"), List.of()), why));
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
          ? signInPage(request, 401, here, List.of(say(request, "sign-in.again")))
          : Response.to("/sign-in?next=" + encoded(here));
    }
    Session session = request.session().get();
    Role needed = needed(request.path());
    if (!may(session, needed)) {
      return failure(
          request, 403, say(request, "role.not-yours", say(request, "role." + needed.id())));
    }
    if (first.equals(REVIEW)) {
      return review(request);
    }
    DayPages day = inside(request).day();
    return switch (first) {
      case "" -> day.today(session);
      case "search" -> day.search(session, request.asked("q"));
      case "brakes" -> day.brake(session, request.segment(1));
      case "new" -> request.post() ? day.begin(session, request) : day.newJob(session, request);
      case "jobs" -> inside(request).job().answer(session, request);
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
            && people().of(session.person()).filter(now -> now.role().covers(needed)).isPresent();
  }

  /** The page of comebacks as the command review has left it in the store. */
  private Response review(Request request) {
    return store
        .get()
        .setting(REVIEW_SETTING)
        .map(Sheets::page)
        .orElseGet(
            () ->
                pages(request)
                    .show(
                        404,
                        "failure",
                        new View.Failure(
                            pages(request)
                                .frame(request.session(), say(request, "review.title"), List.of()),
                            say(request, "review.none"))));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private Response signInPage(Request request, int status, List<String> problems) {
    return signInPage(request, status, request.field("next"), problems);
  }

  private Response signInPage(Request request, int status, String next, List<String> problems) {
    return pages(request)
        .show(
            status,
            "sign-in",
            new View.SignIn(
                pages(request).frame(request.session(), say(request, "sign-in.title"), problems),
                keyDigest.isPresent() && request.session().isEmpty(),
                ownKeyAsked(request),
                request.field("code"),
                next));
  }

  /** Whether the code that was typed has a key of its own. */
  private boolean ownKeyAsked(Request request) {
    return request.post()
        && people().of(request.field("code").toUpperCase(Locale.ROOT)).isPresent();
  }

  private Response signIn(Request request) {
    long waits = limit.waits(request.from());
    if (waits > 0) {
      return signInPage(request, 429, List.of(say(request, "sign-in.wait", waits)))
          .with("Retry-After", String.valueOf(waits));
    }
    boolean known =
        keyDigest.isEmpty()
            || request.session().isPresent()
            || ShopKey.fits(request.field("key"), keyDigest.get());
    if (!known) {
      limit.wasWrong(request.from());
      return signInPage(request, 403, List.of(say(request, "sign-in.wrong-key")));
    }
    String code = request.field("code").toUpperCase(Locale.ROOT);
    if (!People.CODE.matcher(code).matches()) {
      return signInPage(request, 400, List.of(say(request, "sign-in.wrong-code")));
    }
    Optional<People.Person> person = people().of(code);
    if (person.isPresent() && !ShopKey.fits(request.field("own-key"), person.get().keyDigest())) {
      boolean typed = !request.field("own-key").isEmpty();
      if (typed) {
        limit.wasWrong(request.from());
      }
      return signInPage(
          request,
          403,
          List.of(
              typed
                  ? say(request, "sign-in.wrong-own-key")
                  : say(request, "sign-in.own-key-needed")));
    }
    limit.wasRight(request.from());
    request.session().ifPresent(sessions::end);
    Session session = sessions.start(code, person.map(People.Person::role).orElse(Role.MECHANIC));
    return Response.to(within(request.field("next")))
        .with(
            "Set-Cookie",
            cookie
                + "="
                + session.token()
                + "; Path=/; HttpOnly; SameSite=Strict; Max-Age="
                + SESSION_SECONDS);
  }

  /** A page of this server to go on to; never one elsewhere. */
  private static String within(String next) {
    return next.matches("/[A-Za-z0-9._-][A-Za-z0-9._/-]*") ? next : "/";
  }
}
