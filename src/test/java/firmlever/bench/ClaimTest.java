package firmlever.bench;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.bench.job.Carried;
import firmlever.bench.job.Claims;
import firmlever.bench.job.People;
import firmlever.document.Digest;
import firmlever.store.JobStore.Job;
import firmlever.store.JobStore.Paper;
import firmlever.store.JobStore.Stamp;
import firmlever.web.Role;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The claim of a job")
class ClaimTest {
  private static final Path CASE = Path.of("cases", "claims", "weep-and-worn-pads.json");
  private static final String POLICY = "rules/policies/lakeside-depot.json";
  private static final String ID = "B-0340-rear-6";
  private static final String CLAIM = "/jobs/" + ID + "/claim";

  @TempDir private Path folder;
  private Served served;

  @BeforeEach
  void open() throws Exception {
    served = new Served(folder.resolve("shop.db"));
    served.setClock("2026-05-20T08:00:00Z");
    new Carried(served.store, Reasons.ALL.reader(), () -> Instant.parse("2026-05-20T08:00:00Z"))
        .take(Files.readString(CASE), CASE.toString());
    // The papers lie beside the store, as they lie beside a case file.
    Path papers = Files.createDirectories(folder.resolve("papers"));
    try (var files = Files.list(CASE.resolveSibling("papers"))) {
      for (Path paper : files.toList()) {
        Files.copy(paper, papers.resolve(paper.getFileName()));
      }
    }
  }

  @AfterEach
  void close() {
    served.close();
    assertThat(served.faults).isEmpty();
  }

  private Visitor desk(String code) {
    String key = new People(served.store).enrol(code, Role.DESK);
    Visitor visitor = new Visitor(served.address());
    visitor.go("/sign-in").send("/sign-in", "code", code, "own-key", key);
    return visitor;
  }

  private String justified(String... more) throws Exception {
    java.util.List<String> command =
        new java.util.ArrayList<>(java.util.List.of("justify", "--policy", POLICY));
    command.addAll(java.util.List.of(more));
    return Printed.by(command.toArray(String[]::new));
  }

  private String store() {
    return folder.resolve("shop.db").toString();
  }

  @Test
  @DisplayName("is judged on the page, out of the store and out of its file alike, byte for byte")
  void isJudgedAlike() throws Exception {
    Path html = folder.resolve("dossier.html");
    String ofFile = justified(CASE.toString(), "--html", html.toString());
    assertThat(ofFile).contains("covered");
    assertThat(justified("--store", store(), ID))
        .startsWith(ofFile.strip().lines().findFirst().orElseThrow());
    assertThat(justified("--store", store(), ID, "--json"))
        .isEqualTo(justified(CASE.toString(), "--json"));
    Visitor desk = desk("D1");
    desk.go(CLAIM);
    assertThat(desk.text()).contains("covered, paid by the maker").contains("2.1:");
    assertThat(desk.go("/jobs/" + ID + "/dossier").html()).isEqualTo(Files.readString(html));
    assertThat(desk.go("/jobs/" + ID + "/dossier.pdf").html()).startsWith("%PDF");
  }

  @Test
  @DisplayName("is decided by those the policy names; an override keeps its reason in the chain")
  void isDecided() throws Exception {
    Visitor desk = desk("D1");
    desk.go(CLAIM);
    desk.send(CLAIM, "do", "sign", "paper", "0", "decided", "goodwill", "reason", "old customer");
    assertThat(desk.status()).isEqualTo(400);
    assertThat(desk.text()).contains("D1 may sign, not override; F1 (foreman) may");
    assertThat(desk.html()).contains("value=\"old customer\"");
    desk.send(CLAIM, "do", "sign", "paper", "0");
    assertThat(desk.status()).isEqualTo(200);
    assertThat(desk.text()).contains("D1 (desk): as recommended");
    Visitor foreman = desk("F1");
    foreman.go(CLAIM);
    foreman.send(CLAIM, "do", "sign", "paper", "0", "decided", "x", "reason", "y");
    assertThat(foreman.text()).contains("Somebody else has added to this claim");
    foreman.send(
        CLAIM, "do", "sign", "paper", "1", "decided", "all goodwill", "reason", "a regular");
    assertThat(foreman.text())
        .contains("F1 (foreman): all goodwill")
        .contains("Reason: a regular")
        .contains("decided then: all goodwill, by F1 (foreman) on")
        .contains("because a regular");
    assertThat(foreman.go("/jobs/" + ID + "/dossier").text())
        .contains("Decided. “all goodwill”.")
        .contains("Reason: a regular.");
    Path papers = folder.resolve("dossiers");
    assertThat(justified("--store", store(), ID, "--out", papers.toString()))
        .contains("1 split", "That is what is recommended; 1 signed, 1 of them otherwise.");
    assertThat(Files.readString(papers.resolve("summary.csv")))
        .contains("sha256,problem,decided,signed", ",split,", ",all goodwill,F1 ");
    assertThat(justified("--store", store(), ID, "--sign", "D1", "--on", "2026-05-21"))
        .contains("2 decisions before")
        .contains("Signed by D1");
    Path out = folder.resolve("out");
    Printed.by("store", "--store", store(), "export", out.toString());
    assertThat(Files.readString(out.resolve(ID + ".json"))).isEqualTo(Files.readString(CASE));
    Path decisions = out.resolve(ID + ".history");
    assertThat(Files.readAllLines(decisions)).hasSize(3);
    assertThat(justified(CASE.toString(), "--history", decisions.toString()))
        .contains("3 decisions before");
    assertThat(
            Printed.by(
                "review", out.toString(), "--rejects", folder.resolve("rejects.csv").toString()))
        .contains("1 record read: 1 reviewed, 0 rejected");
  }

  @Test
  @DisplayName("is handed in at the desk for a job that is closed, and changes nothing of the job")
  void isHandedIn() throws Exception {
    Job before = served.store.job(ID).orElseThrow();
    Visitor desk = desk("D1");
    desk.go(CLAIM);
    String[] form = {
      "do",
      "hand-in",
      "paper",
      "0",
      "number",
      "W-26-200",
      "purchased",
      "2025-01-22",
      "part",
      "caliper-seals",
      "what-0",
      "work:replace-caliper",
      "minutes-0",
      "40",
      "price-0",
      "46,67 EUR",
      "says-purchase-date",
      "receipt seen"
    };
    desk.send(CLAIM, form);
    assertThat(desk.status()).as(desk.text()).isEqualTo(200);
    assertThat(desk.html()).contains("value=\"W-26-200\"").contains("value=\"46.67 EUR\"");
    assertThat(served.store.job(ID)).contains(before);
    assertThat(served.store.papers(ID)).extracting(Paper::author).containsExactly("D1");
    String json = justified("--store", store(), ID, "--json");
    assertThat(json).contains("W-26-200").contains("46.67");
    // Papers handed in before stay; what stands already keeps its signature.
    assertThat(new Claims(served.store).caseText(before))
        .contains("papers/B-0340-rear-6-photos.txt")
        .contains("\"says\" : \"receipt seen\"");
  }

  @Test
  @DisplayName("takes photos of its job as papers, found again in the store and in an export")
  void takesPhotos() throws Exception {
    byte[] picture = {1, 2, 3};
    Job job = served.store.job(ID).orElseThrow();
    served.store.addPhoto(
        job, picture, "wet seal", new Stamp(Instant.parse("2026-05-20T08:00:00Z"), "T3", "photo"));
    String digest = Digest.sha256(picture);
    String paper = ID + ".photos/" + digest + ".jpg";
    Visitor desk = desk("D1");
    assertThat(desk.go(CLAIM).html())
        .contains("<img src=\"/jobs/" + ID + "/photos/" + digest + "\" alt=\"Photo 1: wet seal\"")
        .doesNotContain("checked");
    String[] form = {
      "do", "hand-in", "paper", "0", "purchased", "2025-01-22", "photo-" + digest, digest
    };
    desk.send(CLAIM, form);
    assertThat(desk.status()).as(desk.text()).isEqualTo(200);
    assertThat(desk.html()).containsOnlyOnce("checked");
    assertThat(desk.go("/jobs/" + ID + "/dossier").html()).contains(paper, digest);
    assertThat(new Claims(served.store).caseText(job))
        .containsSubsequence("\"file\" : \"" + paper, "\"kind\"", "\"sha256\"");
    // Beside the case that is exported they lie as files, under the same name.
    Path out = folder.resolve("out");
    Printed.by("store", "--store", store(), "export", out.toString());
    Path papers = Files.createDirectory(out.resolve("papers"));
    try (var files = Files.list(CASE.resolveSibling("papers"))) {
      for (Path each : files.toList()) {
        Files.copy(each, papers.resolve(each.getFileName()));
      }
    }
    String stored = justified("--store", store(), ID, "--json");
    assertThat(justified(out.resolve(ID + ".json").toString(), "--json")).isEqualTo(stored);
    // One that is not what was attached is told, and no recommendation rests on it.
    Files.write(folder.resolve("shop.db.photos").resolve(digest + ".jpg"), new byte[] {9});
    assertThat(desk.go(CLAIM).text()).contains(paper).contains("is missing or damaged");
    desk.send(CLAIM, "do", "hand-in", "paper", "1", "purchased", "2025-01-22");
    assertThat(desk.html()).doesNotContain("checked");
    assertThat(new Claims(served.store).caseText(job))
        .contains("papers/B-0340-rear-6-photos.txt")
        .doesNotContain(digest);
  }

  @Test
  @DisplayName("is refused in words where it is none, and what was typed stays")
  void isRefused() {
    Visitor desk = desk("D1");
    desk.go(CLAIM);
    desk.send(
        CLAIM,
        "do",
        "hand-in",
        "paper",
        "0",
        "purchased",
        "yesterday",
        "what-0",
        "work:full-bleed",
        "price-0",
        "much",
        "claimant",
        "C-<b>");
    assertThat(desk.status()).isEqualTo(400);
    assertThat(desk.html())
        .contains("value=\"yesterday\"")
        .contains("value=\"much\"")
        .doesNotContain("C-<b>");
    assertThat(served.store.papers(ID)).isEmpty();
    desk.send(CLAIM, "do", "hand-in", "paper", "0");
    assertThat(desk.status()).isEqualTo(400);
  }

  @Test
  @DisplayName("shows on appeal what new findings changed of the diagnosis, in each language")
  void showsWhatNewFindingsChanged() throws Exception {
    Path open = CASE.resolveSibling("hose-end-by-nobody-knows-whom.json");
    new Carried(served.store, Reasons.ALL.reader(), () -> Instant.parse("2026-05-20T08:00:00Z"))
        .take(Files.readString(open), open.toString());
    String job = "/jobs/B-0190-rear-3";
    Visitor desk = desk("D1");
    desk.go(job + "/claim");
    desk.send(job + "/claim", "do", "sign", "paper", "0");
    assertThat(desk.text()).contains("D1 (desk): as recommended");
    assertThat(desk.html()).doesNotContain("id=\"differs\"");
    desk.go(job + "/places/hose");
    desk.send(job + "/places/hose", "answer", "hose-end-out=present");
    desk.go(job + "/claim");
    assertThat(desk.text())
        .contains("The diagnosis has changed since then:")
        .contains("Likeliest now: parted hose (from ")
        .contains("recommended then: weeping hose fitting at the lever: left open")
        .doesNotContain("hose-end-out");
    desk.speaking("de").go(job + "/claim");
    assertThat(desk.text()).contains("Jetzt am wahrscheinlichsten: parted hose (von ");
    assertThat(Printed.by("justify", "--policy", POLICY, "--store", store(), "B-0190-rear-3"))
        .contains("- the diagnosis has changed:\n  Ride   NO, as before; also because of: ")
        .contains("first now parted hose (from ");
  }

  @Test
  @DisplayName("is found in the store without naming it where it is the only one")
  void isFound() throws Exception {
    assertThat(Printed.by("justify", "--store", store(), "--policy", POLICY, "none")).isEmpty();
    assertThat(justified("--store", store())).contains("covered");
  }
}
