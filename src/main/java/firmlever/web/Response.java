package firmlever.web;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/** What is sent back. */
public record Response(int status, String type, byte[] body, Map<String, String> headers) {
  private static final String NEVER_KEPT = "no-store";

  public static Response page(int status, String html) {
    return of(status, "text/html; charset=utf-8", html);
  }

  public static Response json(String json) {
    return of(200, "application/json; charset=utf-8", json);
  }

  private static Response of(int status, String type, String text) {
    return new Response(
        status, type, text.getBytes(StandardCharsets.UTF_8), Map.of("Cache-Control", NEVER_KEPT));
  }

  /** Something of the program itself, which a browser may keep. */
  public static Response lasting(String type, byte[] body) {
    return new Response(200, type, body, Map.of("Cache-Control", "max-age=31536000, immutable"));
  }

  /** Leads on to another page after a form was taken. */
  public static Response to(String path) {
    return new Response(
        303, "text/plain", new byte[0], Map.of("Location", path, "Cache-Control", NEVER_KEPT));
  }

  /** The same with one header more. */
  public Response with(String name, String value) {
    Map<String, String> more = new LinkedHashMap<>(headers);
    more.put(name, value);
    return new Response(status, type, body, more);
  }
}
