package firmlever.web;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.Limit;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A form with a file in it")
class MultipartTest {
  private static final String BOUNDARY = "----WebKitFormBoundary7MA4YWxk";

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static String field(String name, String value) {
    return "--" + BOUNDARY + "\r\n" + head(name, "") + value + "\r\n";
  }

  private static String file(String name, String fileName, String content) {
    return "--"
        + BOUNDARY
        + "\r\n"
        + head(name, "; filename=\"" + fileName + "\"\r\nContent-Type: image/jpeg")
        + content
        + "\r\n";
  }

  private static String head(String name, String more) {
    return "Content-Disposition: form-data; name=\"" + name + "\"" + more + "\r\n\r\n";
  }

  private static final String END = "--" + BOUNDARY + "--\r\n";

  private static Multipart read(String body) throws Refused {
    return Multipart.read(bytes(body), BOUNDARY);
  }

  private static int refusal(String body) {
    try {
      read(body);
      return 0;
    } catch (Refused e) {
      return e.status();
    }
  }

  @Test
  @DisplayName("is known by its type, with a boundary as browsers choose it")
  void isKnown() {
    assertThat(Multipart.boundary("multipart/form-data; boundary=" + BOUNDARY)).contains(BOUNDARY);
    assertThat(Multipart.boundary("Multipart/Form-Data;boundary=\"a b\"")).isEmpty();
    assertThat(Multipart.boundary("multipart/form-data; boundary=\"a:b\"")).contains("a:b");
    for (String odd :
        List.of(
            "multipart/form-data",
            "multipart/form-data; boundary=",
            "multipart/form-data; boundary=" + "x".repeat(71),
            "multipart/form-data; boundary=a; boundary=b",
            "multipart/form-data; boundary=a\r\nX: y",
            "multipart/mixed; boundary=a",
            "x multipart/form-data; boundary=a",
            "application/x-www-form-urlencoded")) {
      assertThat(Multipart.boundary(odd)).as(odd).isEmpty();
    }
  }

  @Test
  @DisplayName("gives fields in their order and the content of files, to the last byte")
  void givesAll() throws Refused {
    // Bytes of a picture may look like ends of lines and like the beginning of a boundary.
    String content = "\r\n--" + BOUNDARY.substring(0, 9) + "\r\n\r\n--\u0000\n\r";
    Multipart form =
        read(
            field("a", "one")
                + field("a", "two\r\nlines")
                + field("b", "")
                + file("photo", "../../etc/passwd", content)
                + file("none", "", "")
                + field("ü", "ß €")
                + END);
    assertThat(form.fields().get("a")).containsExactly("one", "two\r\nlines");
    assertThat(form.fields().get("b")).containsExactly("");
    assertThat(form.fields().get("ü")).containsExactly("ß €");
    assertThat(form.files()).containsOnlyKeys("photo");
    assertThat(form.files().get("photo")).isEqualTo(bytes(content));
    assertThat(form.toString()).doesNotContain("passwd");
    assertThat(read(END).fields()).isEmpty();
  }

  @Test
  @DisplayName("is refused where it is written otherwise, or ends too early")
  void refusesOddOnes() {
    String whole = field("a", "one") + file("photo", "p.jpg", "content") + END;
    assertThat(refusal(whole)).isZero();
    for (int length = 0; length < whole.length() - 2; length++) {
      assertThat(refusal(whole.substring(0, length))).as(length + " letters").isEqualTo(400);
    }
    for (String odd :
        List.of(
            "x" + whole,
            "\r\n" + whole,
            whole.replace("form-data;", "attachment;"),
            whole.replace("\r\n", "\n"),
            whole.replace("--" + BOUNDARY + "\r\n", "--" + BOUNDARY + "x\r\n"),
            whole.replace("Content-Disposition", "X-".repeat(1000) + "\r\nContent-Disposition"),
            whole.replace("name=\"a\"", "name=a"),
            whole.replace("name=\"photo\"", "name=\"photo\"; filename*=utf-8''x"),
            file("photo", "a", "x") + file("photo", "b", "y") + END)) {
      assertThat(refusal(odd)).as(odd).isEqualTo(400);
    }
  }

  @Test
  @DisplayName("may hold as much, and not more")
  void hasLimits() throws Refused {
    int letters = Limit.FORM_BYTES.most();
    assertThat(refusal(field("a", "x".repeat(letters)) + END)).isZero();
    assertThat(refusal(field("a", "x".repeat(letters)) + field("b", "x") + END)).isEqualTo(413);
    int fields = Limit.FORM_FIELDS.most();
    assertThat(refusal(field("a", "").repeat(fields) + END)).isZero();
    assertThat(refusal(field("a", "").repeat(fields + 1) + END)).isEqualTo(413);
    String most = "x".repeat(Limit.PHOTO_BYTES.most());
    assertThat(read(file("p", "a", most) + END).files().get("p")).hasSize(most.length());
    assertThat(refusal(file("p", "a", most + "x") + END)).isEqualTo(413);
  }

  @Test
  @DisplayName("that is damaged is refused or read; nothing else ever happens")
  void survivesDamage() {
    byte[] whole = bytes(field("a", "one") + file("photo", "p.jpg", "content") + END);
    Random random = new Random(417);
    int refused = 0;
    for (int i = 0; i < 5000; i++) {
      byte[] body = Arrays.copyOf(whole, whole.length);
      for (int n = random.nextInt(4); n >= 0; n--) {
        body[random.nextInt(body.length)] = (byte) random.nextInt(256);
      }
      try {
        Multipart.read(body, BOUNDARY);
      } catch (Refused e) {
        assertThat(e.status()).isEqualTo(400);
        refused++;
      }
    }
    assertThat(refused).isBetween(500, 4500);
  }
}
