package firmlever.benchmark;

import firmlever.bench.Bench;
import firmlever.bench.job.Reasoning;
import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCards;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.store.JobStore;
import firmlever.store.JobStore.Content;
import firmlever.store.JobStore.Heading;
import firmlever.store.JobStore.Stamp;
import firmlever.store.JobStore.State;
import firmlever.store.SqliteStore;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * From a tap to the page with the new verdict, at the server: many tablets, each with a job of its
 * own, each tap a second after the last, over a store of many jobs. Prints figures, asserts
 * nothing.
 */
final class BenchBenchmark {
  private static final String[] SYMPTOMS = {
    "lever-sinks", "pumps-up", "no-hard-stop", "slow-return", "gritty-lever", "lever-play"
  };
  private static final Pattern TOKEN = Pattern.compile("name=\"form-token\" value=\"([^\"]+)\"");
  private static final Pattern VERSION = Pattern.compile("name=\"version\" value=\"([^\"]+)\"");

  private BenchBenchmark() {}

  public static void main(String[] args) throws Exception {
    int jobs = args.length > 0 ? Integer.parseInt(args[0]) : 100_000;
    int tablets = args.length > 1 ? Integer.parseInt(args[1]) : 20;
    int taps = args.length > 2 ? Integer.parseInt(args[2]) : 40;
    Path folder = Files.createTempDirectory("bench-benchmark");
    Path file = folder.resolve("shop.db");
    try (JobStore store = SqliteStore.open(file)) {
      fill(file, jobs);
      System.out.printf(
          Locale.ROOT, "%d jobs in the store, %.0f MB%n", jobs, Files.size(file) / 1e6);
      for (int i = 0; i < 200; i++) {
        store.add(content("V-" + i, "B-VISITED", LocalDate.of(2020, 1, 1).plusDays(i)), stamp());
      }
      try (Bench bench =
          Bench.serve(
              () -> store,
              BenchBenchmark::reasoning,
              InetAddress.getLoopbackAddress(),
              0,
              List.of(),
              Optional.empty(),
              InstantSource.system(),
              ZoneOffset.UTC,
              System.err::println)) {
        String address = "http://127.0.0.1:" + bench.port();
        tapAll(address, 4, 60, 0); // Warms up.
        report("one tablet alone", tapAll(address, 1, taps, 0));
        long before = processor();
        List<Double> times = tapAll(address, tablets, taps, 1000);
        report(tablets + " tablets", times);
        System.out.printf(
            Locale.ROOT,
            "%-20s %.1f ms of a processor, the tablets' own work in it%n",
            "each tap takes",
            (processor() - before) / 1e6 / times.size());
        Tablet tablet = new Tablet(address, "T1");
        report("brake of 200 visits", tablet.times("/brakes/B-VISITED", 200));
        report("today", tablet.times("/", 100));
        report("search", tablet.times("/search?q=B-0417", 100));
      }
    } finally {
      try (var files = Files.list(folder)) {
        for (Path each : files.toList()) {
          Files.delete(each);
        }
      }
      Files.delete(folder);
    }
    Runtime runtime = Runtime.getRuntime();
    System.out.printf(Locale.ROOT, "heap allowed %.0f MB%n", runtime.maxMemory() / 1024.0 / 1024.0);
  }

  private static long processor() {
    return ((com.sun.management.OperatingSystemMXBean)
            java.lang.management.ManagementFactory.getOperatingSystemMXBean())
        .getProcessCpuTime();
  }

  private static Reasoning reasoning() {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    RuleBase rules = RuleBase.builtIn(vocabulary);
    Diagnostician diagnostician = new Diagnostician(rules);
    JobCards cards = new JobCards(vocabulary, JobCardRules.builtIn(vocabulary));
    return new Reasoning(
        vocabulary,
        rules,
        new CaseReader(vocabulary),
        new Heeding(vocabulary, new Hearing()),
        diagnostician,
        cards,
        new Acceptor(vocabulary, rules, diagnostician, cards),
        Optional.empty());
  }

  private static Stamp stamp() {
    return new Stamp(Instant.parse("2026-05-12T08:00:00Z"), "T1", "came in");
  }

  private static String text(String id, String brake, LocalDate day) {
    return "{ \"format\": \"firmlever-case/1\", \"id\": \""
        + id
        + "\", \"opened\": \""
        + day
        + "\", \"brake\": { \"id\": \""
        + brake
        + "\", \"fluid\": \"mineral-oil\" }, \"complaint\": \"goes soft, fine after pumping\","
        + " \"symptoms\": { \"pumps-up\": \"present\" }, \"outcome\": { \"causes\":"
        + " [\"air-at-lever\"], \"works\": [\"lever-end-bleed\"], \"closed\": \""
        + day
        + "\" } }";
  }

  private static Content content(String id, String brake, LocalDate day) {
    return new Content(
        new Heading(
            id,
            brake,
            day,
            Optional.of(day),
            State.HANDED_BACK,
            "goes soft, fine after pumping",
            List.of("air-at-lever"),
            List.of("lever-end-bleed")),
        text(id, brake, day),
        "{}");
  }

  /** Fills the store by its tables: one job after the other, as the bench does, takes long. */
  private static void fill(Path file, int jobs) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        PreparedStatement job =
            connection.prepareStatement(
                "insert into job values (?, ?, ?, ?, 'handed-back', 'goes soft', 'air-at-lever',"
                    + " 'lever-end-bleed', 1)");
        PreparedStatement change =
            connection.prepareStatement(
                "insert into change values (?, 1, '2026-05-12T08:00:00Z', 'T1', 'in', ?, '{}')")) {
      connection.setAutoCommit(false);
      for (int i = 0; i < jobs; i++) {
        String id = "J-" + i;
        LocalDate day = LocalDate.of(2016, 1, 1).plusDays(i % 3650);
        String brake = String.format(Locale.ROOT, "B-%04d-rear", i % 9000);
        job.setString(1, id);
        job.setString(2, brake);
        job.setString(3, day.toString());
        job.setString(4, day.toString());
        job.executeUpdate();
        change.setString(1, id);
        change.setString(2, text(id, brake, day));
        change.executeUpdate();
      }
      connection.commit();
    }
  }

  private static List<Double> tapAll(String address, int tablets, int taps, int restMillis)
      throws InterruptedException {
    List<Double> times = Collections.synchronizedList(new ArrayList<>());
    ExecutorService hands = Executors.newFixedThreadPool(tablets);
    for (int i = 0; i < tablets; i++) {
      int number = i;
      hands.submit(
          () -> {
            try {
              Tablet tablet = new Tablet(address, "T" + (number + 1));
              String job = tablet.takeIn("B-T" + number + "-rear");
              for (int tap = 0; tap < taps; tap++) {
                // The tablets do not tap in step.
                Thread.sleep(
                    restMillis == 0 ? 0 : restMillis / 2 + (number * 53L + tap * 97L) % restMillis);
                // Gray's code: each tap turns one finding, and no case comes twice.
                int turned = Integer.numberOfTrailingZeros(tap + 1) % SYMPTOMS.length;
                boolean there = (tap + 1 >> turned + 1) % 2 == 0;
                times.add(
                    tablet.tap(
                        job + "/places/lever",
                        SYMPTOMS[turned] + (there ? "=present" : "=absent")));
              }
            } catch (IOException | InterruptedException e) {
              System.err.println(e);
            }
          });
    }
    hands.shutdown();
    hands.awaitTermination(20, TimeUnit.MINUTES);
    return times;
  }

  private static void report(String what, List<Double> times) {
    List<Double> sorted = times.stream().sorted().toList();
    System.out.printf(
        Locale.ROOT,
        "%-20s %5d: median %.1f ms, 95 %% within %.1f ms, longest %.1f ms%n",
        what,
        sorted.size(),
        sorted.get(sorted.size() / 2),
        sorted.get((int) (0.95 * sorted.size())),
        sorted.get(sorted.size() - 1));
  }

  /** A tablet: taps, and takes the page that follows. */
  private static final class Tablet {
    private final HttpClient client = HttpClient.newHttpClient();
    private final String address;
    private String cookie = "";
    private String page = "";

    Tablet(String address, String code) throws IOException, InterruptedException {
      this.address = address;
      post("/sign-in", "code=" + code);
      get("/");
    }

    String takeIn(String brake) throws IOException, InterruptedException {
      get("/new");
      return post(
          "/new",
          "form-token="
              + of(TOKEN)
              + "&brake="
              + brake
              + "&wheel=rear&fluid=mineral-oil&complaint=goes+soft%2C+fine+after+pumping");
    }

    double tap(String path, String answer) throws IOException, InterruptedException {
      if (!page.contains("action=\"" + path)) {
        get(path);
      }
      String form = "form-token=" + of(TOKEN) + "&version=" + of(VERSION) + "&answer=" + answer;
      long start = System.nanoTime();
      post(path, form);
      get(path);
      return (System.nanoTime() - start) / 1e6;
    }

    List<Double> times(String path, int often) throws IOException, InterruptedException {
      List<Double> times = new ArrayList<>();
      for (int i = 0; i < often; i++) {
        long start = System.nanoTime();
        get(path);
        times.add((System.nanoTime() - start) / 1e6);
      }
      return times;
    }

    private String of(Pattern pattern) {
      Matcher found = pattern.matcher(page);
      found.find();
      return found.group(1);
    }

    private void get(String path) throws IOException, InterruptedException {
      page =
          client
              .send(
                  HttpRequest.newBuilder(URI.create(address + path))
                      .header("Cookie", cookie)
                      .build(),
                  HttpResponse.BodyHandlers.ofString())
              .body();
    }

    /** Returns where it leads on to. */
    private String post(String path, String form) throws IOException, InterruptedException {
      HttpResponse<String> answer =
          client.send(
              HttpRequest.newBuilder(URI.create(address + path))
                  .header("Cookie", cookie)
                  .header("Origin", address)
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(HttpRequest.BodyPublishers.ofString(form))
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      if (answer.statusCode() != 303) {
        throw new IOException("a form was answered with " + answer.statusCode());
      }
      answer
          .headers()
          .firstValue("Set-Cookie")
          .ifPresent(set -> cookie = set.substring(0, set.indexOf(';')));
      return answer.headers().firstValue("Location").orElseThrow().split("#")[0];
    }
  }
}
