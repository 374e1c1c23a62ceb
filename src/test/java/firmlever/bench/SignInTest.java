package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.store.SqliteStore;
import firmlever.web.ShopKey;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("Who signs in")
class SignInTest {
  @TempDir private Path folder;

  private Served served(Optional<String> key) {
    return new Served(SqliteStore.open(folder.resolve("shop.db")), key.map(ShopKey::digest));
  }

  @Test
  @DisplayName("sees no page before, and gets to the page that was asked for after")
  void comesFirst() {
    try (Served served = served(Optional.empty())) {
      Visitor visitor = new Visitor(served.address());
      visitor.go("/jobs/B-1");
      assertThat(visitor.path()).isEqualTo("/sign-in");
      assertThat(visitor.hidden("next")).isEqualTo("/jobs/B-1");
      visitor.send("/sign-in", "code", "T3", "next", "/new");
      assertThat(visitor.path()).isEqualTo("/new");
      visitor.send("/sign-out");
      assertThat(visitor.go("/").path()).isEqualTo("/sign-in");
    }
  }

  @Test
  @DisplayName(
      "may change to another code on the same tablet, and is told where signed out meanwhile")
  void changesCodes() {
    try (Served served = served(Optional.of(ShopKey.make()))) {
      Visitor visitor = new Visitor(served.address());
      visitor.go("/sign-in");
      assertThat(visitor.html()).contains("name=\"key\"");
      visitor.send("/new", "brake", "B-1");
      assertThat(visitor.status()).isEqualTo(401);
      assertThat(visitor.text()).contains("You are signed out");
      assertThat(visitor.hidden("next")).isEqualTo("/new");
    }
    try (Served served =
        new Served(SqliteStore.open(folder.resolve("other.db")), Optional.empty())) {
      Visitor visitor = new Visitor(served, "T3");
      visitor.go("/sign-in");
      visitor.send("/sign-in", "code", "T4");
      assertThat(visitor.go("/").text()).contains("T4").doesNotContain("T3");
    }
  }

  @Test
  @DisplayName("gets a cookie no script can read and no other site can send")
  void getsACookie() throws Exception {
    try (Served served = served(Optional.empty())) {
      java.net.http.HttpResponse<String> answer =
          java.net.http.HttpClient.newHttpClient()
              .send(
                  java.net.http.HttpRequest.newBuilder(
                          java.net.URI.create(served.address() + "/sign-in"))
                      .header("Content-Type", "application/x-www-form-urlencoded")
                      .header("Origin", served.address())
                      .POST(java.net.http.HttpRequest.BodyPublishers.ofString("code=T3"))
                      .build(),
                  java.net.http.HttpResponse.BodyHandlers.ofString());
      assertThat(answer.headers().firstValue("Set-Cookie").orElse(""))
          .contains("; HttpOnly")
          .contains("; SameSite=Strict")
          .doesNotContain("Domain");
    }
  }

  @ParameterizedTest(name = "is not led on to {0}")
  @ValueSource(
      strings = {
        "//evil.example",
        "http://evil.example",
        "/\\evil.example",
        "/x?y",
        "javascript:alert(1)",
        "/new\r\nX: y",
        "/..//evil"
      })
  void isNotLedAstray(String next) {
    try (Served served = served(Optional.empty())) {
      Visitor visitor = new Visitor(served.address());
      visitor.go("/sign-in");
      visitor.send("/sign-in", "code", "T3", "next", next);
      assertThat(visitor.response().uri().getHost()).isEqualTo("127.0.0.1");
      assertThat(visitor.response().headers().firstValue("X")).isEmpty();
    }
  }

  @Test
  @DisplayName("needs the shop's key where there is one, and waits after wrong ones")
  void needsTheKey() {
    String key = ShopKey.make();
    try (Served served = served(Optional.of(key))) {
      Visitor visitor = new Visitor(served.address());
      visitor.go("/sign-in");
      for (int i = 0; i < 4; i++) {
        visitor.send("/sign-in", "code", "T3", "key", "no");
        assertThat(visitor.status()).isEqualTo(403);
        assertThat(visitor.text()).contains("not the key of this shop");
      }
      visitor.send("/sign-in", "code", "T3", "key", key);
      assertThat(visitor.status()).isEqualTo(429);
      assertThat(visitor.text()).contains("Wait 2 seconds");
      served.setClock("2026-05-12T08:01:00Z");
      visitor.send("/sign-in", "code", "T3", "key", key);
      assertThat(visitor.path()).isEqualTo("/");
    }
  }

  @Test
  @DisplayName("reaches no file by any address")
  void reachesNoFile() {
    try (Served served = served(Optional.empty())) {
      Visitor visitor = new Visitor(served, "T3");
      for (String path :
          java.util.List.of(
              "/static/../pom.xml",
              "/static/..%2f..%2fpom.xml",
              "/static/words_en.properties",
              "/static/%2e%2e/places.json",
              "/jobs/..%2f..%2fetc%2fpasswd",
              "/jobs/x/places/..%2fx")) {
        assertThat(visitor.go(path).status()).as(path).isEqualTo(404);
      }
      assertThat(visitor.go("/static/bench.css").status()).isEqualTo(200);
    }
  }
}
