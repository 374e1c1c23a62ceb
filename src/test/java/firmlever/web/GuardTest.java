package firmlever.web;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.Limit;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Semaphore;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The guard at the door of the web server")
class GuardTest {
  private static final Instant MORNING = Instant.parse("2026-05-12T08:00:00Z");

  private Instant now = MORNING;
  private final Sessions sessions = new Sessions(() -> now);
  private final List<String> faults = new ArrayList<>();

  /** A permit for each file that is being answered. */
  private final Semaphore begun = new Semaphore(0);

  /** Without a permit no answer to a file is finished. */
  private final Semaphore held = new Semaphore(1);

  private WebServer server;

  @BeforeEach
  void start() throws IOException {
    App app =
        new App() {
          @Override
          public Response answer(Request request) {
            if (!request.files().isEmpty()) {
              begun.release();
              held.acquireUninterruptibly();
              held.release();
            }
            if (request.segment(0).equals("fault")) {
              throw new IllegalStateException("a secret of the program");
            }
            return Response.page(
                200,
                "answer to "
                    + request.session().map(Session::person).orElse("nobody")
                    + " at "
                    + request.path()
                    + " with "
                    + request.form()
                    + " and files "
                    + request.files().keySet());
          }

          @Override
          public Response refused(int status, String why) {
            return Response.page(status, "refused: " + why);
          }
        };
    server =
        WebServer.start(
            InetAddress.getLoopbackAddress(), 0, List.of("shop.local"), sessions, app, faults::add);
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private String own() {
    return "127.0.0.1:" + server.port();
  }

  /** Sends these very lines and returns all that comes back. */
  private String raw(String... lines) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
      socket.setSoTimeout(20_000);
      OutputStream out = socket.getOutputStream();
      out.write(String.join("\r\n", lines).getBytes(StandardCharsets.UTF_8));
      out.flush();
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private String get(String path, String host, String... headers) throws IOException {
    List<String> lines = new ArrayList<>(List.of("GET " + path + " HTTP/1.1", "Host: " + host));
    lines.addAll(List.of(headers));
    lines.addAll(List.of("Connection: close", "", ""));
    return raw(lines.toArray(String[]::new));
  }

  private String post(String body, String... headers) throws IOException {
    List<String> lines = new ArrayList<>(List.of("POST /x HTTP/1.1", "Host: " + own()));
    lines.addAll(List.of(headers));
    lines.addAll(
        List.of(
            "Content-Length: " + body.getBytes(StandardCharsets.UTF_8).length,
            "Connection: close",
            "",
            body));
    return raw(lines.toArray(String[]::new));
  }

  private static final String FORM = "Content-Type: application/x-www-form-urlencoded";

  private String origin() {
    return "Origin: http://" + own();
  }

  private static int status(String answer) {
    return Integer.parseInt(answer.split(" ")[1]);
  }

  @Test
  @DisplayName("answers under its own names only, so that no other name can be pointed at it")
  void knowsItsNames() throws IOException {
    int port = server.port();
    for (String host : List.of("127.0.0.1", "localhost", "[::1]", "shop.local")) {
      assertThat(status(get("/", host + ":" + port))).as(host).isEqualTo(200);
    }
    for (String host :
        List.of("evil.example:" + port, "127.0.0.1", "127.0.0.1:1", "localhost.evil:" + port, "")) {
      assertThat(status(get("/", host))).as(host).isEqualTo(421);
    }
  }

  @ParameterizedTest(name = "refuses a form with {0}")
  @CsvSource({
    "another origin, http://evil.example, same-origin",
    "the origin null, null, same-origin",
    "no origin, '', same-origin",
    "the origin of another port, http://127.0.0.1:1, same-origin",
    "a secure origin, https://OWN, same-origin",
    "a site that is another, http://OWN, cross-site",
    "a site that is only near, http://OWN, same-site"
  })
  void refusesForeignForms(String what, String origin, String site) throws IOException {
    String answer =
        post(
            "a=b",
            FORM,
            origin.isEmpty() ? "X-Nothing: x" : "Origin: " + origin.replace("OWN", own()),
            "Sec-Fetch-Site: " + site);
    assertThat(status(answer)).isEqualTo(403);
    assertThat(answer).contains("does not come from a page of this server").doesNotContain("a=[b]");
  }

  @Test
  @DisplayName("takes a form of its own pages, with or without the browser's second word")
  void takesItsOwnForms() throws IOException {
    assertThat(post("a=b%20c", FORM, origin())).contains("{a=[b c]}");
    assertThat(post("a=b", FORM, origin(), "Sec-Fetch-Site: same-origin")).contains("{a=[b]}");
  }

  @Test
  @DisplayName("wants the token of the session in every form, and that of no other session")
  void wantsTheToken() throws IOException {
    Session session = sessions.start("T3", Role.MECHANIC);
    Session other = sessions.start("T4", Role.MECHANIC);
    String cookie = "Cookie: x=1; " + WebServer.cookie(server.port()) + "=" + session.token();
    assertThat(status(post("a=b", FORM, origin(), cookie))).isEqualTo(403);
    assertThat(status(post("form-token=" + other.formToken(), FORM, origin(), cookie)))
        .isEqualTo(403);
    assertThat(post("form-token=" + session.formToken(), FORM, origin(), cookie))
        .contains("answer to T3");
  }

  @Test
  @DisplayName("knows no session by a made-up cookie, one signed out, or one left for half a day")
  void endsSessions() throws IOException {
    Session session = sessions.start("T3", Role.MECHANIC);
    String cookie = "Cookie: " + WebServer.cookie(server.port()) + "=";
    assertThat(get("/", own(), cookie + session.token())).contains("answer to T3");
    assertThat(get("/", own(), cookie + "x")).contains("answer to nobody");
    now = MORNING.plus(Duration.ofHours(11));
    assertThat(get("/", own(), cookie + session.token())).contains("answer to T3");
    now = MORNING.plus(Duration.ofHours(24));
    assertThat(get("/", own(), cookie + session.token())).contains("answer to nobody");
    Session second = sessions.start("T3", Role.MECHANIC);
    sessions.end(second);
    assertThat(get("/", own(), cookie + second.token())).contains("answer to nobody");
  }

  @Test
  @DisplayName("limits method, kind, length and number of what is sent")
  void limits() throws IOException {
    assertThat(status(raw("PUT / HTTP/1.1", "Host: " + own(), "Connection: close", "", "")))
        .isEqualTo(405);
    assertThat(status(raw("TRACE / HTTP/1.1", "Host: " + own(), "Connection: close", "", "")))
        .isEqualTo(405);
    assertThat(status(post("{}", "Content-Type: application/json", origin()))).isEqualTo(415);
    assertThat(status(post("a=b", "Content-Type: multipart/form-data", origin()))).isEqualTo(415);
    assertThat(status(post("a=" + "x".repeat(Limit.FORM_BYTES.most()), FORM, origin())))
        .isEqualTo(413);
    assertThat(status(post("a=" + "x".repeat(Limit.FORM_BYTES.most() - 2), FORM, origin())))
        .isEqualTo(200);
    int fields = Limit.FORM_FIELDS.most();
    assertThat(status(post("a&".repeat(fields), FORM, origin()))).isEqualTo(200);
    assertThat(status(post("a&".repeat(fields + 1), FORM, origin()))).isEqualTo(413);
    int letters = Limit.ADDRESS_LETTERS.most();
    assertThat(status(get("/" + "x".repeat(letters - 1), own()))).isEqualTo(200);
    assertThat(status(get("/" + "x".repeat(letters), own()))).isEqualTo(414);
    assertThat(status(get("/%zz", own()))).isEqualTo(400);
  }

  private static final String FILE_FORM = "Content-Type: multipart/form-data; boundary=b";

  private static String part(String name, String content) {
    return "--b\r\nContent-Disposition: form-data; name=\"" + name + "\r\n\r\n" + content + "\r\n";
  }

  @Test
  @DisplayName(
      "takes a file from who is signed in, by origin and token as every form, and no other")
  void takesFiles() throws IOException {
    Session session = sessions.start("T3", Role.MECHANIC);
    String cookie = "Cookie: " + WebServer.cookie(server.port()) + "=" + session.token();
    String file = part("photo\"; filename=\"p.jpg\"", "content");
    String body = part("form-token\"", session.formToken()) + file + "--b--\r\n";
    assertThat(post(body, FILE_FORM, origin(), cookie)).contains("to T3").contains("files [photo]");
    assertThat(status(post(body, FILE_FORM, "Origin: http://evil.example", cookie))).isEqualTo(403);
    assertThat(status(post(body, FILE_FORM, origin(), cookie, "Sec-Fetch-Site: cross-site")))
        .isEqualTo(403);
    assertThat(status(post(file + "--b--\r\n", FILE_FORM, origin(), cookie))).isEqualTo(403);
    String wrong = part("form-token\"", "made up") + file + "--b--\r\n";
    assertThat(status(post(wrong, FILE_FORM, origin(), cookie))).isEqualTo(403);
    assertThat(status(post("--b\r\nhalf", FILE_FORM, origin(), cookie))).isEqualTo(400);
    assertThat(post(body, FILE_FORM, origin())).contains("to nobody").contains("{} and files []");
    int most = Limit.PHOTO_BYTES.most() + Limit.FORM_BYTES.most();
    assertThat(status(post("x".repeat(most), FILE_FORM, origin(), cookie))).isEqualTo(400);
    String beyond = post("x".repeat(2 * most), FILE_FORM, origin(), cookie);
    assertThat(status(beyond)).isEqualTo(413);
    assertThat(beyond).contains("A photo may have 12 MB at most");
  }

  @Test
  @DisplayName("lets no page wait for what is made of files, and makes it of one at a time")
  void answersBesideFiles() throws Exception {
    Session session = sessions.start("T3", Role.MECHANIC);
    String cookie = "Cookie: " + WebServer.cookie(server.port()) + "=" + session.token();
    String file = part("photo\"; filename=\"p.jpg\"", "content");
    String body = part("form-token\"", session.formToken()) + file + "--b--\r\n";
    held.acquire();
    List<String> answers = Collections.synchronizedList(new ArrayList<>());
    List<Thread> senders = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      Thread sender =
          new Thread(
              () -> {
                try {
                  answers.add(post(body, FILE_FORM, origin(), cookie));
                } catch (IOException e) {
                  answers.add(e.toString());
                }
              });
      sender.start();
      senders.add(sender);
    }
    begun.acquire();
    for (int i = 0; i < 20; i++) {
      assertThat(get("/", own(), cookie)).startsWith("HTTP/1.1 200");
    }
    assertThat(begun.tryAcquire()).as("a second one at once").isFalse();
    held.release();
    for (Thread sender : senders) {
      sender.join();
    }
    assertThat(answers).hasSize(2).allSatisfy(each -> assertThat(each).contains("files [photo]"));
  }

  @Test
  @DisplayName("goes on with pages while more files are half sent than it takes at once")
  void survivesHalfSentFiles() throws IOException {
    Session session = sessions.start("T3", Role.MECHANIC);
    String cookie = "Cookie: " + WebServer.cookie(server.port()) + "=" + session.token();
    List<Socket> open = new ArrayList<>();
    try {
      for (int i = 0; i < 6; i++) {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        String head =
            String.join("\r\n", "POST /x HTTP/1.1", "Host: " + own(), origin(), cookie, FILE_FORM);
        socket
            .getOutputStream()
            .write((head + "\r\nContent-Length: 1000\r\n\r\n--b").getBytes(StandardCharsets.UTF_8));
        open.add(socket);
      }
      assertThat(get("/", own(), cookie)).startsWith("HTTP/1.1 200");
      // One more is told that there is no room, and let in once the others are cut off.
      String body = part("form-token\"", session.formToken()) + "--b--\r\n";
      String answer = post(body, FILE_FORM, origin(), cookie);
      assertThat(status(answer)).isEqualTo(503);
      assertThat(answer).contains("Others are sending photos just now");
      for (int tries = 0; tries < 20 && status(answer) == 503; tries++) {
        answer = post(body, FILE_FORM, origin(), cookie);
      }
      assertThat(answer).contains("answer to T3");
    } finally {
      for (Socket socket : open) {
        socket.close();
      }
    }
  }

  @Test
  @DisplayName("gives no page rights beyond its own server, refusals and faults included")
  void hardensEveryAnswer() throws IOException {
    for (String answer :
        List.of(get("/", own()), get("/", "evil.example"), get("/fault", own()), post("a=b"))) {
      assertThat(answer.toLowerCase(java.util.Locale.ROOT))
          .contains("content-security-policy: default-src 'none';")
          .contains("script-src 'self'")
          .contains("frame-ancestors 'none'")
          .contains("x-content-type-options: nosniff")
          .contains("referrer-policy: same-origin")
          .contains("cache-control: no-store")
          .doesNotContain("unsafe");
    }
  }

  @Test
  @DisplayName("shows nobody what a fault was, and tells it to whoever runs the server")
  void hidesFaults() throws IOException {
    String answer = get("/fault", own());
    assertThat(status(answer)).isEqualTo(500);
    assertThat(answer).doesNotContain("secret").doesNotContain("Exception");
    assertThat(faults).hasSize(1).first().asString().contains("a secret of the program");
  }

  @Test
  @DisplayName("goes on when more requests than it has hands stay half sent")
  void survivesHalfSentRequests() throws IOException {
    List<Socket> open = new ArrayList<>();
    try {
      for (int i = 0; i < 20; i++) {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        socket
            .getOutputStream()
            .write(
                ("POST /x HTTP/1.1\r\nHost: "
                        + own()
                        + "\r\n"
                        + origin()
                        + "\r\n"
                        + FORM
                        + "\r\nContent-Length: 100\r\n\r\na=")
                    .getBytes(StandardCharsets.UTF_8));
        open.add(socket);
      }
      try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port())) {
        // Long enough for any machine: without a limit the answer never comes.
        socket.setSoTimeout(120_000);
        socket
            .getOutputStream()
            .write(
                ("GET / HTTP/1.1\r\nHost: " + own() + "\r\nConnection: close\r\n\r\n")
                    .getBytes(StandardCharsets.UTF_8));
        assertThat(new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
            .startsWith("HTTP/1.1 200");
      }
    } finally {
      for (Socket socket : open) {
        socket.close();
      }
    }
  }

  @Test
  @DisplayName("makes whoever is wrong often wait longer and longer, and forgets it once right")
  void makesGuessersWait() {
    SignInLimit limit = new SignInLimit(() -> now);
    for (int i = 0; i < 3; i++) {
      limit.wasWrong("10.0.0.7");
    }
    assertThat(limit.waits("10.0.0.7")).isZero();
    limit.wasWrong("10.0.0.7");
    assertThat(limit.waits("10.0.0.7")).isEqualTo(2);
    assertThat(limit.waits("10.0.0.8")).isZero();
    now = now.plusSeconds(2);
    assertThat(limit.waits("10.0.0.7")).isZero();
    for (int i = 0; i < 30; i++) {
      limit.wasWrong("10.0.0.7");
    }
    assertThat(limit.waits("10.0.0.7")).isEqualTo(300);
    now = now.minus(Duration.ofDays(400));
    assertThat(limit.waits("10.0.0.7")).as("with the clock set back").isEqualTo(300);
    now = now.plus(Duration.ofDays(401));
    assertThat(limit.waits("10.0.0.7")).isZero();
    limit.wasWrong("10.0.0.7");
    limit.wasRight("10.0.0.7");
    assertThat(limit.waits("10.0.0.7")).isZero();
  }

  @Test
  @DisplayName("makes keys of 100 random bits, and knows one typed without hyphens and capitals")
  void makesKeys() {
    String key = ShopKey.make();
    assertThat(key).matches("([0-9A-HJKMNP-TV-Z]{5}-){3}[0-9A-HJKMNP-TV-Z]{5}");
    assertThat(ShopKey.make()).isNotEqualTo(key);
    String digest = ShopKey.digest(key);
    assertThat(digest).doesNotContain(key.substring(0, 5));
    assertThat(ShopKey.fits(key.toLowerCase(java.util.Locale.ROOT).replace("-", " "), digest))
        .isTrue();
    assertThat(ShopKey.fits(key.substring(1), digest)).isFalse();
    assertThat(ShopKey.fits("", digest)).isFalse();
  }
}
