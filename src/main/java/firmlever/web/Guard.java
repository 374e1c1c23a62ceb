package firmlever.web;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import firmlever.document.Limit;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Lets a request in, or not: by host, method, origin, size, session and form token, in this order.
 * Pages elsewhere can send forms here and can give this machine another name; the browser tells
 * both, and both are refused.
 */
final class Guard {
  private static final int LONGEST_LANGUAGES = 200;
  private static final Multipart NOTHING = new Multipart(Map.of(), Map.of());

  /** What only the pages of this server may do; {@code self} is this server and nothing else. */
  private static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
          "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:;"
              + " connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'",
          "X-Content-Type-Options",
          "nosniff",
          // With no-referrer browsers send the origin "null" even from our own pages.
          "Referrer-Policy",
          "same-origin",
          "Cross-Origin-Opener-Policy",
          "same-origin",
          "Cross-Origin-Resource-Policy",
          "same-origin");

  private final Set<String> hosts;
  private final Sessions sessions;
  private final String cookie;

  /**
   * @param hosts all values of the header Host that are ours, with their port
   * @param cookie name of the cookie that holds a session's token
   */
  Guard(Set<String> hosts, Sessions sessions, String cookie) {
    this.hosts = Set.copyOf(hosts);
    this.sessions = sessions;
    this.cookie = cookie;
  }

  static void harden(Headers headers) {
    HEADERS.forEach(headers::set);
  }

  /** The request, if it may come in. */
  Request admit(HttpExchange exchange) throws Refused, IOException {
    Headers headers = exchange.getRequestHeaders();
    String host = String.valueOf(headers.getFirst("Host"));
    if (!hosts.contains(host)) {
      throw new Refused(
          421,
          "This server answers to other names than the one in the address. Open it by the address it printed at its start.");
    }
    String method = exchange.getRequestMethod();
    boolean post = method.equals("POST");
    if (!post && !method.equals("GET") && !method.equals("HEAD")) {
      throw new Refused(405, "Pages are only read here, and forms sent.");
    }
    if (exchange.getRequestURI().toString().length() > Limit.ADDRESS_LETTERS.most()) {
      throw new Refused(414, "The address is too long.");
    }
    Optional<Session> session = cookies(headers).flatMap(sessions::of);
    Multipart sentIn = post ? form(exchange, host, session.isPresent()) : NOTHING;
    Map<String, List<String>> form = sentIn.fields();
    if (post && session.isPresent()) {
      String sent = form.getOrDefault("form-token", List.of("")).get(0);
      if (!same(sent, session.get().formToken())) {
        throw new Refused(403, "This form is of an earlier sign-in. Open the page again.");
      }
    }
    return new Request(
        post,
        segments(exchange.getRequestURI().getRawPath()),
        pairs(Optional.ofNullable(exchange.getRequestURI().getRawQuery()).orElse("")),
        form,
        sentIn.files(),
        session,
        exchange.getRemoteAddress().getAddress().getHostAddress(),
        host,
        languages(headers.getFirst("Accept-Language")));
  }

  /** Languages such as {@code de} out of {@code de-CH, en;q=0.8}; none where it is no such list. */
  private static List<String> languages(String asked) {
    try {
      return asked == null || asked.length() > LONGEST_LANGUAGES
          ? List.of()
          : Locale.LanguageRange.parse(asked).stream()
              .map(range -> range.getRange().split("-")[0])
              .toList();
    } catch (IllegalArgumentException e) {
      return List.of();
    }
  }

  /** Whether the request may bring a file: then it holds much memory until it is answered. */
  boolean bringsFile(HttpExchange exchange) {
    Headers headers = exchange.getRequestHeaders();
    return Multipart.boundary(type(headers)).isPresent()
        && cookies(headers).flatMap(sessions::of).isPresent();
  }

  /** The word for a form with a file for which there is no room; what is sent is let pass. */
  Refused busy(HttpExchange exchange) throws IOException {
    unread(exchange);
    return new Refused(
        503, "Others are sending photos just now. Go back, choose the photo again and send it.");
  }

  private static String type(Headers headers) {
    return String.valueOf(headers.getFirst("Content-Type"));
  }

  private static Multipart form(HttpExchange exchange, String host, boolean signedIn)
      throws Refused, IOException {
    Headers headers = exchange.getRequestHeaders();
    String site = headers.getFirst("Sec-Fetch-Site");
    if (!("http://" + host).equals(headers.getFirst("Origin"))
        || site != null && !site.equals("same-origin")) {
      throw new Refused(403, "The form does not come from a page of this server.");
    }
    Optional<String> boundary = Multipart.boundary(type(headers));
    if (boundary.isPresent()) {
      return signedIn
          ? Multipart.read(
              body(
                  exchange, Limit.PHOTO_BYTES.most() + Limit.FORM_BYTES.most(), Refused.tooLarge()),
              boundary.get())
          : unread(exchange);
    }
    if (!type(headers).split(";", 2)[0].strip().equals("application/x-www-form-urlencoded")) {
      throw new Refused(415, "Only plain forms are taken here.");
    }
    byte[] body = body(exchange, Limit.FORM_BYTES.most(), Refused.tooMuch());
    return new Multipart(pairs(new String(body, StandardCharsets.UTF_8)), Map.of());
  }

  /** What is sent in, up to so many bytes. */
  private static byte[] body(HttpExchange exchange, int most, Refused beyond)
      throws Refused, IOException {
    try (InputStream in = exchange.getRequestBody()) {
      byte[] body = in.readNBytes(most + 1);
      if (body.length > most) {
        // A browser reads no answer before all is sent; what never ends is cut off by its time.
        in.transferTo(OutputStream.nullOutputStream());
        throw beyond;
      }
      return body;
    }
  }

  /** Of somebody who is not signed in no file is kept in memory. */
  private static Multipart unread(HttpExchange exchange) throws IOException {
    try (InputStream in = exchange.getRequestBody()) {
      in.transferTo(OutputStream.nullOutputStream());
    }
    return NOTHING;
  }

  private Optional<String> cookies(Headers headers) {
    return headers.getOrDefault("Cookie", List.of()).stream()
        .flatMap(line -> List.of(line.split(";")).stream())
        .map(String::strip)
        .filter(each -> each.startsWith(cookie + "="))
        .map(each -> each.substring(cookie.length() + 1))
        .findFirst();
  }

  private static boolean same(String one, String other) {
    return MessageDigest.isEqual(
        one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
  }

  private static List<String> segments(String path) throws Refused {
    List<String> segments = new ArrayList<>();
    for (String each : path.split("/")) {
      if (!each.isEmpty()) {
        segments.add(decoded(each.replace("+", "%2B")));
      }
    }
    return List.copyOf(segments);
  }

  private static Map<String, List<String>> pairs(String text) throws Refused {
    Map<String, List<String>> pairs = new LinkedHashMap<>();
    int fields = 0;
    for (String each : text.split("&")) {
      if (!each.isEmpty()) {
        if (++fields > Limit.FORM_FIELDS.most()) {
          throw Refused.tooMuch();
        }
        String[] pair = each.split("=", 2);
        pairs
            .computeIfAbsent(decoded(pair[0]), name -> new ArrayList<>())
            .add(pair.length == 2 ? decoded(pair[1]) : "");
      }
    }
    return pairs;
  }

  private static String decoded(String text) throws Refused {
    try {
      return URLDecoder.decode(text, StandardCharsets.UTF_8);
    } catch (IllegalArgumentException e) {
      throw new Refused(400, "The address or the form is not written as browsers do.");
    }
  }
}
