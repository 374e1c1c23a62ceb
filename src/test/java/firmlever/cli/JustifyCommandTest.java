package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TimeZone;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@DisplayName("firmlever justify")
class JustifyCommandTest {
  private static final String POLICY = "rules/policies/lakeside-depot.json";
  private static final String SPLIT = "cases/claims/weep-and-worn-pads.json";
  private static final String LAW = "Local consumer law stands above this policy";

  @TempDir private Path folder;

  private static Run justify(String... more) {
    String[] all = Stream.concat(Stream.of("justify"), Stream.of(more)).toArray(String[]::new);
    return Run.of(all);
  }

  @Test
  @DisplayName("says the same in text, JSON, HTML and PDF, each with the law above it")
  void saysTheSameInEveryForm() throws IOException {
    Path html = folder.resolve("split.html");
    Path pdf = folder.resolve("split.pdf");
    Run text =
        justify(SPLIT, "--policy", POLICY, "--html", html.toString(), "--pdf", pdf.toString());
    Run json = justify(SPLIT, "--policy", POLICY, "--json");
    assertThat(text.code()).isZero();
    JsonNode read = new JsonMapper().readTree(json.out());
    assertThat(read.get("format").asString()).isEqualTo("firmlever-dossier/2");
    assertThat(read.get("outcome").asString()).isEqualTo("split");
    assertThat(read.get("law").asString()).startsWith(LAW);
    String printed;
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      printed = new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
      assertThat(document.getPages())
          .allSatisfy(
              page -> {
                assertThat(page.getMediaBox().getWidth())
                    .isCloseTo(
                        PDRectangle.A4.getWidth(), org.assertj.core.api.Assertions.within(1f));
                for (var name : page.getResources().getFontNames()) {
                  assertThat(page.getResources().getFont(name).isEmbedded()).isTrue();
                }
              });
    }
    String page = Files.readString(html);
    for (String output : List.of(text.out().replaceAll("\\s+", " "), page, printed)) {
      assertThat(output)
          .contains(LAW)
          .contains("weeping caliper seal is covered, paid by the maker (clause 2.1)")
          .contains("worn pads is refused, paid by the claimant (clause 4.1)")
          .contains("dry after wipe-pump-hold, firm at 9 mm");
    }
    assertThat(page).startsWith("<!DOCTYPE html>").doesNotContain("<script", "src=", "href=");
  }

  @Test
  @DisplayName("gives the same bytes in another time zone and locale")
  void givesTheSameBytesEverywhere() throws IOException {
    byte[][] first = forms("a");
    TimeZone zone = TimeZone.getDefault();
    java.util.Locale locale = java.util.Locale.getDefault();
    try {
      TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Kiritimati"));
      java.util.Locale.setDefault(java.util.Locale.forLanguageTag("tr-TR"));
      byte[][] second = forms("b");
      for (int i = 0; i < first.length; i++) {
        assertThat(second[i]).as("form %d", i).isEqualTo(first[i]);
      }
    } finally {
      TimeZone.setDefault(zone);
      java.util.Locale.setDefault(locale);
    }
  }

  private byte[][] forms(String name) throws IOException {
    Path html = folder.resolve(name + ".html");
    Path pdf = folder.resolve(name + ".pdf");
    Run run =
        justify(
            SPLIT,
            "--policy",
            POLICY,
            "--json",
            "--html",
            html.toString(),
            "--pdf",
            pdf.toString());
    assertThat(run.err()).isEmpty();
    return new byte[][] {
      run.out().getBytes(java.nio.charset.StandardCharsets.UTF_8),
      Files.readAllBytes(html),
      Files.readAllBytes(pdf)
    };
  }

  @Test
  @DisplayName("names case, policy and rule base by digests that follow every change")
  void namesItsOriginsByDigest() throws IOException {
    Path policy = folder.resolve("policy.json");
    Files.writeString(policy, Files.readString(Path.of(POLICY)).replace("0.75", "0.76"));
    Path changed = folder.resolve("case.json");
    copyPapers(folder);
    Files.writeString(changed, Files.readString(Path.of(SPLIT)).replace("oil on the wheel", "wet"));
    JsonNode one = digests(justify(SPLIT, "--policy", POLICY, "--json"));
    JsonNode otherPolicy = digests(justify(SPLIT, "--policy", policy.toString(), "--json"));
    JsonNode otherCase = digests(justify(changed.toString(), "--policy", POLICY, "--json"));
    Path rules = Files.createDirectory(folder.resolve("rules"));
    Files.writeString(
        rules.resolve("shop.drl"),
        """
        package firmlever.rules.causes

        import firmlever.rulebase.Facts.*
        import firmlever.rulebase.Model
        global Model model

        rule "worn-pads: this depot rides hard"
            @source("common practice")
        when
            Brake()
        then
            model.raise( "worn-pads", 1.5, "this depot wears its pads fast" );
        end
        """);
    Run overlaid = justify(SPLIT, "--policy", POLICY, "--json", "--rules", rules.toString());
    assertThat(overlaid.err()).isEmpty();
    JsonNode otherRules = digests(overlaid);
    for (String what : List.of("case", "policy", "rulebase")) {
      assertThat(one.get(what).asString()).startsWith("sha256:").hasSize(71);
      assertThat(otherCase.get(what).equals(one.get(what))).isEqualTo(!what.equals("case"));
      assertThat(otherPolicy.get(what).equals(one.get(what))).isEqualTo(!what.equals("policy"));
      assertThat(otherRules.get(what).equals(one.get(what))).isEqualTo(!what.equals("rulebase"));
    }
  }

  private static JsonNode digests(Run run) {
    return new JsonMapper().readTree(run.out()).get("digests");
  }

  /** What is changed in a demo claim, and what must be said of it. */
  @ParameterizedTest(name = "refuses {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "\"purchased\": \"2025-03-14\" | \"purchased\": \"2026-06-14\""
            + " | /claim/purchased: \"2026-06-14\" lies after the claim was made (2026-05-13)",
        "\"reservoir\": \"diaphragm\" | \"reservoir\": \"sealed\""
            + " | /claim/part: \"diaphragm\" is claimed for, and this brake has none",
        "\"purchased\": \"2025-03-14\" | \"purchased\": \"2021-03-14\""
            + " | /claim/purchased: bought on 2021-03-14: that lies before the first day of policy",
        "\"arose\": \"2026-05-09\" | \"arose\": \"2026-05-19\""
            + " | /claim/arose: \"2026-05-19\" lies after it was claimed or brought in (2026-05-12)",
        "\"arose\": \"2026-05-09\" | \"arose\": \"2025-03-01\""
            + " | /claim/purchased: \"2025-03-14\" lies after the fault showed (2025-03-01)",
        "\"kind\": \"photos\" | \"kind\": \"photo\""
            + " | /claim/attachments/0/kind: \"photo\" is not a kind of evidence known here",
        "B-0417-front-5-photos.txt | B-0417-front-5-lost.txt"
            + " | /claim/attachments/0/file: \"papers/B-0417-front-5-lost.txt\" is not there",
        "papers/B-0417-front-5-photos.txt | ../papers/B-0417-front-5-photos.txt"
            + " | /claim/attachments/0/file: \"../papers/B-0417-front-5-photos.txt\" must lie in",
        "\"part\": \"diaphragm\" | \"part\": \"diaphragm\", \"costs\": [{\"work\": \"full-bleed\", \"price\": \"35.00\"}]"
            + " | /claim/costs/0/price: \"35.00\" has no currency",
        "\"part\": \"diaphragm\" | \"part\": \"diaphragm\", \"costs\": [{\"work\": \"full-bleed\", \"price\": \"-35.00 EUR\"}]"
            + " | /claim/costs/0/price: \"-35.00 EUR\" is less than nothing",
        "\"part\": \"diaphragm\" | \"part\": \"diaphragm\", \"costs\": [{\"work\": \"full-bleed\", \"price\": \"35.001 EUR\"}]"
            + " | /claim/costs/0/price: \"35.001 EUR\" is finer than the smallest coin",
        "\"part\": \"diaphragm\" | \"cause\": \"wet-fluid\""
            + " | /claim/cause: \"wet-fluid\" is claimed and cannot be:",
        "\"part\": \"diaphragm\" | \"part\": \"diafragm\""
            + " | /claim/part: \"diafragm\" is not a part known here"
      })
  void refusesClaimsThatCannotBe(String before, String after, String message) throws IOException {
    String text =
        Files.readString(Path.of("cases/claims/weep-within-period.json"))
            .replace("\"part\": \"caliper-seals\"", "\"part\": \"diaphragm\"");
    copyPapers(folder);
    assertThat(text).contains(before);
    Path file = folder.resolve("claim.json");
    Files.writeString(file, text.replace(before, after));
    Run run = justify(file.toString(), "--policy", POLICY);
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.out()).isEmpty();
    assertThat(run.err()).contains(file + ":").contains(message);
  }

  @Test
  @DisplayName("tells a paper that was changed after it was handed in, and a case without a claim")
  void tellsAChangedPaper() throws IOException {
    copyPapers(folder);
    Path file = folder.resolve("claim.json");
    Files.copy(Path.of("cases/claims/weep-within-period.json"), file);
    Files.writeString(folder.resolve("papers/B-0417-front-5-photos.txt"), "another");
    Run run = justify(file.toString(), "--policy", POLICY);
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err())
        .contains("/claim/attachments/0/sha256")
        .contains("has another SHA-256 now");
    Run without = justify("cases/demo/soft-after-the-car-roof.json", "--policy", POLICY);
    assertThat(without.code()).isEqualTo(2);
    assertThat(without.err())
        .contains("no claim stands in this case, so there is nothing to decide");
  }

  private static void copyPapers(Path folder) throws IOException {
    Path papers = Files.createDirectories(folder.resolve("papers"));
    try (Stream<Path> files = Files.list(Path.of("cases/claims/papers"))) {
      for (Path paper : files.toList()) {
        Files.copy(paper, papers.resolve(paper.getFileName()));
      }
    }
  }

  @Test
  @DisplayName("writes letter and summary in plain words, and signs into a history")
  void writesTheLetter() throws IOException {
    Path letter = folder.resolve("letter.html");
    Path summary = folder.resolve("summary.pdf");
    Path history = folder.resolve("history.ndjson");
    Run run =
        justify(
            SPLIT,
            "--policy",
            POLICY,
            "--letter",
            letter.toString(),
            "--summary",
            summary.toString(),
            "--history",
            history.toString(),
            "--sign",
            "D1",
            "--on",
            "2026-05-20");
    assertThat(run.err()).isEmpty();
    assertThat(run.out())
        .contains("Signed by D1 on 2026-05-20.", "The answer is due on 2026-05-29.");
    assertThat(Files.readString(letter))
        .contains(LAW)
        .contains("Of 215.22 EUR, the maker pays 175.77 EUR, you pay 39.45 EUR.")
        .contains("Friction material of a pad 0.5 mm")
        .contains("You have 20 working days from the date of this letter")
        .doesNotContain("href=");
    try (PDDocument document = Loader.loadPDF(summary.toFile())) {
      assertThat(document.getNumberOfPages()).as("a summary is one page").isEqualTo(1);
    }
    Files.writeString(history, Files.readString(history).replace("D1", "D2") + "x\n");
    Run touched = justify(SPLIT, "--policy", POLICY, "--history", history.toString());
    assertThat(touched.code()).isEqualTo(2);
  }

  private static String plain(Path page) throws IOException {
    return Files.readString(page)
        .replaceAll("(?s)<style>.*?</style>|<title>.*?</title>", "")
        .replaceAll("<[^>]+>", " ")
        .replaceAll("\\s+", " ");
  }

  /** What a foreman decides, what it comes to, and who then pays the sum of 215.22 EUR. */
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "refuse | Not covered; you pay. | you 215.22 | claimant pays 215.22 EUR",
        "covered, paid by the shop | Covered; the shop pays. | the shop 215.22 | shop pays 215.22 EUR",
        "goodwill, 50 % by the maker | As goodwill the maker pays 50 %, and you pay the rest."
            + " | the maker 107.62, you 107.60 | maker pays 107.62 EUR",
        "ask | Not decided yet; more is asked for. | open 215.22 | 215.22 EUR is open",
        "all as a gift | “all as a gift”. | | ",
      })
  @DisplayName("write what a foreman decided otherwise into every paper, with the reason, signed")
  void writesAnOverride(String decided, String said, String sum, String pays) throws IOException {
    Path history = folder.resolve("history.ndjson");
    for (String[] more :
        new String[][] {
          {"--sign", "F1", "--on", "2026-05-22", "--override", decided, "--reason", "a crash"}, {}
        }) {
      List<String> all = new ArrayList<>(List.of(SPLIT, "--policy", POLICY));
      all.addAll(List.of("--history", history.toString()));
      for (String paper : List.of("letter", "summary", "html")) {
        all.addAll(List.of("--" + paper, folder.resolve(paper + ".html").toString()));
      }
      all.addAll(List.of(more));
      Run run = justify(all.toArray(String[]::new));
      assertThat(run.err()).isEmpty();
      String letter = plain(folder.resolve("letter.html"));
      String summary = plain(folder.resolve("summary.html"));
      String dossier = plain(folder.resolve("html.html"));
      assertThat(letter)
          .contains(said + " ")
          .contains("until 2026-06-23")
          .doesNotContain("propose", "recommend", "Clause", "covered, paid by");
      for (String paper : List.of(letter, summary, dossier)) {
        assertThat(paper)
            .contains("Reason: a crash. Signed by F1 (foreman) on 2026-05-22.")
            .doesNotContain("until it is signed");
      }
      assertThat(letter).contains("F1 foreman 2026-05-22");
      for (String paper : List.of(summary, dossier)) {
        assertThat(paper)
            .contains("weeping caliper seal is covered, paid by the maker (clause 2.1)");
      }
      if (sum == null) {
        assertThat(letter)
            .contains("who pays follows from the decision above")
            .doesNotContain("Paid by", "pays 175.77");
      } else {
        assertThat(letter).contains("Sum 215.22 " + sum);
        assertThat(summary).contains(pays);
        assertThat(dossier).contains(pays);
      }
    }
    assertThat(Files.readAllLines(history)).as("only what was signed is kept").hasSize(1);
    JsonNode json =
        new JsonMapper()
            .readTree(
                justify(SPLIT, "--policy", POLICY, "--history", history.toString(), "--json")
                    .out());
    assertThat(json.get("outcome").asString()).as("the recommendation").isEqualTo("split");
    assertThat(json.get("signed").get("decided").asString()).isEqualTo(decided);
    assertThat(json.get("signed").get("reason").asString()).isEqualTo("a crash");
  }

  @Test
  @DisplayName("say of a decision whose case has changed since what it rests on and what is new")
  void tellsADecisionOfAnotherState() throws IOException {
    copyPapers(folder);
    Path file = folder.resolve("claim.json");
    Files.copy(Path.of(SPLIT), file);
    Path history = folder.resolve("history.ndjson");
    Path letter = folder.resolve("letter.html");
    Path dossier = folder.resolve("dossier.html");
    String[] papers = {
      file.toString(),
      "--policy",
      POLICY,
      "--history",
      history.toString(),
      "--letter",
      letter.toString(),
      "--html",
      dossier.toString()
    };
    Run signed =
        justify(
            Stream.concat(Stream.of(papers), Stream.of("--sign", "D1", "--on", "2026-05-20"))
                .toArray(String[]::new));
    assertThat(signed.err()).isEmpty();
    assertThat(plain(letter))
        .contains(
            "We decided. Worn pads: not covered; you pay. Weeping caliper seal: the maker pays.")
        .contains("Signed by D1 (desk) on 2026-05-20.")
        .contains("D1 desk 2026-05-20")
        .contains("…… 2026-05-20 On ")
        .doesNotContain("recommend");
    String text = Files.readString(file);
    assertThat(text).contains("\"0.5 mm\"");
    Files.writeString(file, text.replace("\"0.5 mm\"", "\"0.6 mm\""));
    assertThat(justify(papers).err()).isEmpty();
    assertThat(plain(letter))
        .contains("We decided. Worn pads: refused, paid by you, clause 4.1; weeping caliper seal:")
        .contains("what has changed since is not in it");
    assertThat(plain(dossier))
        .contains("Since it was signed: friction material of a pad: was ")
        .contains("Recommended when it was signed. Worn pads: refused");
  }

  @Test
  @DisplayName("tell that a decision is signed where its papers cannot be written")
  void tellsASignatureWithoutPapers() {
    Path history = folder.resolve("history.ndjson");
    Run run =
        justify(
            SPLIT,
            "--policy",
            POLICY,
            "--history",
            history.toString(),
            "--sign",
            "D1",
            "--on",
            "2026-05-20",
            "--letter",
            folder.resolve("missing").resolve("letter.html").toString());
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err())
        .contains("letter.html: cannot be written")
        .contains("the decision is signed and kept");
    assertThat(history).exists();
  }

  @Test
  @DisplayName("tells the same claim twice in a batch, and mixes with no files of another run")
  void tellsTheSameClaimTwice() throws IOException {
    Path cases = Files.createDirectory(folder.resolve("cases"));
    copyPapers(cases);
    Files.copy(Path.of(SPLIT), cases.resolve("a.json"));
    Files.copy(Path.of(SPLIT), cases.resolve("b.json"));
    Path out = folder.resolve("out");
    Run run = justify(cases.toString(), "--policy", POLICY, "--out", out.toString());
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.err()).contains("b.json: is the same claim as ");
    Run again = justify(cases.toString(), "--policy", POLICY, "--out", out.toString());
    assertThat(again.code()).isEqualTo(2);
    assertThat(again.err()).contains("is not empty: files of another run would be mixed");
  }

  @Test
  @DisplayName("goes on past a bad case in a batch, counts at the end and exits with 1")
  void goesOnPastABadCase() throws IOException {
    Path cases = Files.createDirectory(folder.resolve("cases"));
    Files.writeString(cases.resolve("broken.json"), "{ \"format\": ");
    copyPapers(cases);
    for (String name : List.of("pads-worn-down", "weep-and-worn-pads", "weep-without-papers")) {
      Files.copy(Path.of("cases/claims", name + ".json"), cases.resolve(name + ".json"));
    }
    Path out = folder.resolve("out");
    Run run = justify(cases.toString(), "--policy", POLICY, "--out", out.toString());
    assertThat(run.code()).isEqualTo(1);
    assertThat(run.out().strip())
        .isEqualTo(
            "4 claims: 0 covered, 0 goodwill, 1 asked back, 1 refused, 0 nothing"
                + " found, 1 split, 0 open in part; 1 failed.");
    assertThat(run.err()).contains("broken.json:1:");
    try (Stream<Path> files = Files.list(out)) {
      assertThat(files.map(file -> file.getFileName().toString()).sorted())
          .containsExactly(
              "pads-worn-down.html",
              "pads-worn-down.json",
              "summary.csv",
              "summary.json",
              "weep-and-worn-pads.html",
              "weep-and-worn-pads.json",
              "weep-without-papers.html",
              "weep-without-papers.json");
    }
    List<String> rows = Files.readAllLines(out.resolve("summary.csv"));
    assertThat(rows).hasSize(5);
    assertThat(rows.get(1))
        .contains(",B-0388-rear-1,W-26-103,B-0388-rear,pads,refuse,worn-pads,refuse,");
    assertThat(rows.get(4)).contains("broken.json,,,,,failed,");
    JsonNode summary = new JsonMapper().readTree(Files.readString(out.resolve("summary.json")));
    assertThat(summary.get("counts").get("split").asInt()).isEqualTo(1);
    assertThat(summary.get("counts").get("failed").asInt()).isEqualTo(1);
    assertThat(summary.get("claims")).hasSize(3);
  }

  @Test
  @DisplayName("wants --out for several cases, and leaves nothing behind where it cannot write")
  void usage() throws IOException {
    Run several = justify(SPLIT, "cases/claims/pads-worn-down.json", "--policy", POLICY);
    assertThat(several.code()).isEqualTo(2);
    assertThat(several.err()).contains("several cases need --out DIR");
    Path nowhere = folder.resolve("missing").resolve("x.html");
    Run unwritable = justify(SPLIT, "--policy", POLICY, "--html", nowhere.toString());
    assertThat(unwritable.code()).isEqualTo(2);
    assertThat(unwritable.err()).contains("x.html: cannot be written");
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).isEmpty();
    }
  }
}
