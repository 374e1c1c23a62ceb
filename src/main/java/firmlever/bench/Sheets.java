package firmlever.bench;

import firmlever.web.Response;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/** Whole pages made elsewhere in the program, which carry their style in themselves. */
final class Sheets {
  private Sheets() {}

  /** Sends such a page; the digest of its style lets in this one style and no other. */
  static Response page(String html) {
    String style =
        html.substring(html.indexOf("<style>") + "<style>".length(), html.indexOf("</style>"));
    return Response.page(200, html)
        .with(
            "Content-Security-Policy",
            "default-src 'none'; style-src 'sha256-"
                + digest(style)
                + "'; img-src data:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'");
  }

  private static String digest(String text) {
    try {
      return Base64.getEncoder()
          .encodeToString(
              MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
