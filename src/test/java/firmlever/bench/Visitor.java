package firmlever.bench;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A browser without scripts: goes to pages, and sends the forms on them with one button. */
final class Visitor {
  private final String address;
  private final HttpClient client = HttpClient.newHttpClient();
  private String cookie = "";
  private String speaks = "";
  private HttpResponse<String> page;
  int taps;

  Visitor(Served served, String code) {
    this(served.address());
    go("/sign-in");
    send("/sign-in", "code", code);
  }

  Visitor(String address) {
    this.address = address;
  }

  Visitor go(String path) {
    return take(HttpRequest.newBuilder(URI.create(address + path)));
  }

  /** Opens a job for the rear brake of B-0417. */
  Visitor takesIn(String complaint) {
    go("/new");
    return send(
        "/new",
        "brake",
        "B-0417-rear",
        "wheel",
        "rear",
        "fluid",
        "mineral-oil",
        "complaint",
        complaint);
  }

  /** From now on asks for these languages. */
  Visitor speaking(String languages) {
    speaks = languages;
    return this;
  }

  private Visitor take(HttpRequest.Builder request) {
    try {
      if (!speaks.isEmpty()) {
        request.header("Accept-Language", speaks);
      }
      if (!cookie.isEmpty()) {
        request.header("Cookie", cookie);
      }
      page =
          client.send(request.build(), HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
      page.headers()
          .firstValue("Set-Cookie")
          .ifPresent(set -> cookie = set.substring(0, set.indexOf(';')));
      return page.statusCode() == 303
          ? go(page.headers().firstValue("Location").orElseThrow().split("#")[0])
          : this;
    } catch (IOException e) {
      throw new IllegalStateException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  int status() {
    return page.statusCode();
  }

  String html() {
    return page.body();
  }

  HttpResponse<String> response() {
    return page;
  }

  /** The address of the page one is on. */
  String path() {
    return page.uri().getPath();
  }

  /** What a reader sees: no marks, blanks alike. */
  String text() {
    return html()
        .replaceAll("(?s)<(script|style|svg).*?</\\1>", " ")
        .replaceAll("<[^>]*>", " ")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&")
        .replaceAll("\\s+", " ");
  }

  /** The hidden field of that name on the page. */
  String hidden(String name) {
    Matcher field =
        Pattern.compile("name=\"" + Pattern.quote(name) + "\" value=\"([^\"]*)\"").matcher(html());
    return field.find() ? field.group(1) : "";
  }

  /** Sends a form with a file in it, as a browser without scripts does. */
  Visitor sendFile(String path, String field, byte[] content, String... namesAndValues) {
    List<String> all = new ArrayList<>(List.of(namesAndValues));
    if (!all.contains("form-token")) {
      all.addAll(List.of("form-token", hidden("form-token")));
    }
    String boundary = "----firmleverVisitor" + content.length;
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (int i = 0; i < all.size(); i += 2) {
      body.writeBytes(
          ("--"
                  + boundary
                  + "\r\nContent-Disposition: form-data; name=\""
                  + all.get(i)
                  + "\"\r\n\r\n"
                  + all.get(i + 1)
                  + "\r\n")
              .getBytes(StandardCharsets.UTF_8));
    }
    body.writeBytes(
        ("--"
                + boundary
                + "\r\nContent-Disposition: form-data; name=\""
                + field
                + "\"; filename=\"../../etc/leak.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n")
            .getBytes(StandardCharsets.UTF_8));
    body.writeBytes(content);
    body.writeBytes(("\r\n--" + boundary + "--\r\n").getBytes(StandardCharsets.UTF_8));
    taps++;
    return take(
        HttpRequest.newBuilder(URI.create(address + path))
            .header("Content-Type", "multipart/form-data; boundary=" + boundary)
            .header("Origin", address)
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  /** What stands at an address, byte for byte, with its headers. */
  HttpResponse<byte[]> bytes(String path) {
    try {
      return client.send(
          HttpRequest.newBuilder(URI.create(address + path)).header("Cookie", cookie).build(),
          HttpResponse.BodyHandlers.ofByteArray());
    } catch (IOException e) {
      throw new IllegalStateException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Sends a form of the page: its hidden fields, and these. */
  Visitor send(String path, String... namesAndValues) {
    List<String> all = new ArrayList<>(List.of(namesAndValues));
    if (!all.contains("version")) {
      all.addAll(List.of("version", hidden("version")));
    }
    if (!all.contains("form-token")) {
      all.addAll(List.of("form-token", hidden("form-token")));
    }
    StringBuilder body = new StringBuilder();
    for (int i = 0; i < all.size(); i += 2) {
      body.append(i == 0 ? "" : "&")
          .append(URLEncoder.encode(all.get(i), StandardCharsets.UTF_8))
          .append('=')
          .append(URLEncoder.encode(all.get(i + 1), StandardCharsets.UTF_8));
    }
    taps++;
    return take(
        HttpRequest.newBuilder(URI.create(address + path))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .header("Origin", address)
            .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
  }
}
