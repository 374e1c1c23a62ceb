package firmlever.bench;

import firmlever.bench.job.Carried;
import firmlever.bench.job.People;
import firmlever.store.JobStore;
import firmlever.store.SqliteStore;
import firmlever.web.Response;
import firmlever.web.Role;
import firmlever.web.Session;
import firmlever.web.Sessions;
import firmlever.web.Unplugged;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Requests as text, answered one after the other by a bench with one job in its store: the address
 * in a line, the form in the next where one is sent, and an empty line. Who asks has signed in, and
 * the form carries its token and the newest version of the job.
 */
public final class Requests {
  /** The job in the store. */
  public static final String JOB = "/jobs/B-0340-rear-6";

  private static final Set<Integer> DOCUMENTED =
      Set.of(200, 303, 400, 401, 403, 404, 405, 409, 413, 414, 415, 422, 429);

  private final Path folder;
  private final Path given;

  /** A new store in that folder. */
  public Requests(Path folder) {
    this.folder = folder;
    this.given = folder.resolve("given.db");
    try (JobStore store = SqliteStore.open(given)) {
      Path file = Path.of("cases", "claims", "weep-and-worn-pads.json");
      new Carried(store, Reasons.ALL.reader(), Requests::clock)
          .take(Files.readString(file), file.toString());
      new People(store).enrol("O1", Role.OWNER);
    } catch (IOException | firmlever.document.BadInput e) {
      throw new IllegalStateException(e);
    }
  }

  private static Instant clock() {
    return Instant.parse("2026-05-12T08:00:00Z");
  }

  /** Answers them all; anything but a documented status is an error. */
  public void answer(byte[] bytes) {
    Path file = folder.resolve("shop.db");
    try {
      Files.copy(given, file, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
    try (JobStore store = SqliteStore.open(file)) {
      InstantSource clock = Requests::clock;
      Sessions sessions = new Sessions(clock);
      BenchApp app =
          new BenchApp(
              () -> store, () -> Reasons.ALL, sessions, Optional.empty(), clock, ZoneOffset.UTC);
      Session session = sessions.start("O1", Role.OWNER);
      for (String each : new String(bytes, StandardCharsets.UTF_8).split("\n\n")) {
        ask(app, sessions, session, store, each);
      }
    }
  }

  private static void ask(
      BenchApp app, Sessions sessions, Session session, JobStore store, String text) {
    String[] lines = text.split("\n", 2);
    URI address;
    try {
      // What is no address comes to nobody: the server of the JDK refuses it.
      address = new URI(lines[0]);
    } catch (java.net.URISyntaxException e) {
      return;
    }
    if (address.getRawPath() == null) {
      return;
    }
    int version = store.job(JOB.substring("/jobs/".length())).map(JobStore.Job::version).orElse(0);
    String form =
        lines.length == 1
            ? ""
            : lines[1] + "&form-token=" + session.formToken() + "&version=" + version;
    try {
      Response response =
          Unplugged.answer(
              app,
              sessions,
              lines.length == 1 ? "GET" : "POST",
              address,
              List.of(
                  "Host: " + Unplugged.HOST,
                  "Origin: http://" + Unplugged.HOST,
                  "Content-Type: application/x-www-form-urlencoded",
                  "Cookie: firmlever-1=" + session.token()),
              form.getBytes(StandardCharsets.UTF_8));
      if (!DOCUMENTED.contains(response.status())) {
        throw new AssertionError(response.status() + ": " + text);
      }
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
