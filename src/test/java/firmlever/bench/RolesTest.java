package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.bench.job.People;
import firmlever.store.SqliteStore;
import firmlever.web.Role;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The roles of the bench")
class RolesTest {
  private static final String JOB = "/jobs/B-0417-rear-2026-05-12";

  /** Every page there is, and the least role that may open it. */
  private static final Map<String, Role> PAGES =
      Map.ofEntries(
          Map.entry("/", Role.MECHANIC),
          Map.entry("/new", Role.MECHANIC),
          Map.entry("/search?q=B", Role.MECHANIC),
          Map.entry("/brakes/B-0417-rear", Role.MECHANIC),
          Map.entry(JOB, Role.MECHANIC),
          Map.entry(JOB + "/places/lever", Role.MECHANIC),
          Map.entry(JOB + "/photos", Role.MECHANIC),
          Map.entry(JOB + "/why", Role.MECHANIC),
          Map.entry(JOB + "/work", Role.MECHANIC),
          Map.entry(JOB + "/card", Role.MECHANIC),
          Map.entry(JOB + "/acceptance", Role.MECHANIC),
          Map.entry(JOB + "/hand-back", Role.MECHANIC),
          Map.entry(JOB + "/log", Role.MECHANIC),
          Map.entry(JOB + "/case.json", Role.MECHANIC),
          Map.entry(JOB + "/diagnosis.json", Role.MECHANIC),
          Map.entry(JOB + "/claim", Role.DESK),
          Map.entry(JOB + "/dossier", Role.DESK),
          Map.entry(JOB + "/dossier.pdf", Role.DESK),
          Map.entry("/review", Role.OWNER));

  private static final String FIGURES = "T3 has more comebacks than colleagues";

  @TempDir private Path folder;
  private Served served;
  private People people;

  @BeforeEach
  void open() {
    served = new Served(SqliteStore.open(folder.resolve("shop.db")), Optional.empty());
    people = new People(served.store);
    served.store.set(
        BenchApp.REVIEW_SETTING,
        "<html lang=\"en\"><head><style>p { margin: 0 }</style></head><body><p>"
            + FIGURES
            + "</p></body></html>");
    Visitor mechanic = new Visitor(served, "T3").takesIn("goes soft, fine again after pumping");
    mechanic.go(JOB + "/places/lever");
    mechanic.send(JOB + "/places/lever", "answer", "spongy-lever=present");
  }

  @AfterEach
  void close() {
    served.close();
    assertThat(served.faults).isEmpty();
  }

  private Visitor signedIn(String code, Role role) {
    String key = people.enrol(code, role);
    Visitor visitor = new Visitor(served.address());
    visitor.go("/sign-in").send("/sign-in", "code", code, "own-key", key);
    assertThat(visitor.path()).isEqualTo("/");
    return visitor;
  }

  @Test
  @DisplayName("open to each role its pages and those below, on the server, and no others")
  void guardEveryPage() {
    Map<Role, Visitor> visitors =
        Map.of(
            Role.MECHANIC, new Visitor(served, "T4"),
            Role.DESK, signedIn("D1", Role.DESK),
            Role.OWNER, signedIn("O1", Role.OWNER));
    // A claim, so that its dossier is there for whoever may see it.
    visitors.get(Role.DESK).go(JOB + "/claim");
    visitors.get(Role.DESK).send(JOB + "/claim", "paper", "0", "part", "lever-seals");
    PAGES.forEach(
        (page, least) ->
            visitors.forEach(
                (role, visitor) -> {
                  visitor.go(page);
                  assertThat(visitor.status())
                      .as(role + " at " + page)
                      .isEqualTo(
                          !role.covers(least) ? 403 : page.endsWith("/hand-back") ? 404 : 200);
                  if (role != Role.OWNER) {
                    assertThat(visitor.text()).as(role + " at " + page).doesNotContain(FIGURES);
                  }
                }));
    assertThat(visitors.get(Role.OWNER).go("/review").text()).contains(FIGURES);
  }

  @Test
  @DisplayName("are asked for by every address the program answers")
  void knowEveryAddress() throws Exception {
    String routes =
        method("BenchApp", "private Response routed")
            + method("JobPages", "private Response shown");
    List<String> answered =
        Pattern.compile("case \"([a-z.-]+)\" ->")
            .matcher(routes)
            .results()
            .map(each -> each.group(1))
            .distinct()
            .toList();
    assertThat(answered).contains("jobs", "claim", "dossier", "log");
    for (String each : answered) {
      boolean tried =
          PAGES.keySet().stream().anyMatch(page -> page.matches(".*/" + each + "([/?].*)?"));
      assertThat(tried || each.equals("sign-out")).as(each).isTrue();
    }
  }

  private static String method(String type, String head) throws IOException {
    String text = Files.readString(Path.of("src/main/java/firmlever/bench/" + type + ".java"));
    int start = text.indexOf(head);
    return text.substring(start, text.indexOf("\n  }\n", start));
  }

  @Test
  @DisplayName("hold for what is sent too: a mechanic hands in no claim and signs no decision")
  void guardForms() {
    Visitor mechanic = new Visitor(served, "T4");
    mechanic.go(JOB);
    mechanic.send(JOB + "/claim", "paper", "0", "part", "lever-seals");
    assertThat(mechanic.status()).isEqualTo(403);
    assertThat(mechanic.text()).contains("This page is for the desk");
    mechanic.go(JOB);
    mechanic.send(JOB + "/claim", "paper", "0", "do", "sign");
    assertThat(mechanic.status()).isEqualTo(403);
    assertThat(served.store.papers(JOB.substring(6))).isEmpty();
  }

  @Test
  @DisplayName("need the code's own key, kept as a digest, and make wrong ones wait")
  void needAKey() {
    String key = people.enrol("O1", Role.OWNER);
    assertThat(served.store.setting("person-O1"))
        .hasValueSatisfying(kept -> assertThat(kept).doesNotContain(key));
    Visitor visitor = new Visitor(served.address());
    visitor.go("/sign-in").send("/sign-in", "code", "o1");
    assertThat(visitor.status()).isEqualTo(403);
    assertThat(visitor.text()).contains("has a key of its own");
    assertThat(visitor.html()).contains("name=\"own-key\"");
    for (int i = 0; i < 4; i++) {
      visitor.send("/sign-in", "code", "O1", "own-key", "wrong");
    }
    visitor.send("/sign-in", "code", "O1", "own-key", key);
    assertThat(visitor.status()).isEqualTo(429);
    assertThat(visitor.go("/review").path()).isEqualTo("/sign-in");
  }

  @Test
  @DisplayName("end at once where they are taken away, though one is signed in")
  void endAtOnce() {
    Visitor owner = signedIn("O1", Role.OWNER);
    assertThat(owner.go("/review").status()).isEqualTo(200);
    people.enrol("O1", Role.DESK);
    assertThat(owner.go("/review").status()).isEqualTo(403);
    people.dismiss("O1");
    assertThat(owner.go(JOB + "/claim").status()).isEqualTo(403);
    assertThat(owner.go(JOB).status()).isEqualTo(200);
  }

  @Test
  @DisplayName("that come later give nothing to whoever signed in without the key")
  void giveNothingWithoutTheKey() {
    Visitor early = new Visitor(served, "O1");
    people.enrol("O1", Role.OWNER);
    assertThat(early.go("/review").status()).isEqualTo(403);
  }
}
