package firmlever.warranty;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.Fluid;
import firmlever.casefile.WearLimit;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.report.DossierReport;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

@DisplayName("The papers of a claim")
class PapersTest {
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final DossierReport REPORT = new DossierReport(Claims.VOCABULARY);
  private static final String SPLIT = "weep-and-worn-pads";
  private static final String PART_OPEN = "one-line-open-and-one-covered";

  static Stream<Submitted> claims() {
    return Claims.all().stream();
  }

  private static Dossier demo(String name) {
    return Claims.judged(Claims.demo(Claims.file(name)));
  }

  private static ObjectNode json(String name) {
    return (ObjectNode) MAPPER.readTree(Claims.text(Claims.file(name)));
  }

  private static Dossier judged(ObjectNode json) {
    return Claims.judged(Claims.submitted(json.toString(), "edited"));
  }

  private static String plain(String html) {
    return html.replaceAll("(?s)<style>.*?</style>|<title>.*?</title>", "")
        .replaceAll("<[^>]+>", " ")
        .replace("&quot;", "\"")
        .replace("&amp;", "&")
        .replaceAll("\\s+", " ");
  }

  private static List<String> all(Dossier dossier) {
    return List.of(
        plain(REPORT.letter(dossier)), plain(REPORT.summary(dossier)), plain(REPORT.html(dossier)));
  }

  /** Thicknesses in mm, the maker's limit in mm or 0 for none, and what must be said. */
  @ParameterizedTest(name = "pads of {0} and {1}, limit {2}: {3}")
  @CsvSource(
      value = {
        "0.5 | 0.7 | 1 | A pad has 0.5 mm of friction material left, already below the limit of 1 mm (the maker's)",
        "0.9 | 0.7 | 0.8 | A pad has 0.7 mm of friction material left, already below the limit of 0.8 mm (the maker's)",
        "0.6 | 0.5 | 0 | A pad has 0.5 mm of friction material left, already below the limit of 1 mm (common practice)",
        "1.2 | 1.3 | 1 |",
        "0.5 | 0.7 | 0.4 |"
      },
      delimiter = '|')
  @DisplayName("say with figure and limit why worn pads beside a covered leak are the claimant's")
  void sayWhyPadsWereDue(String one, String other, String limit, String said) {
    ObjectNode json = json(SPLIT);
    ArrayNode pads = ((ObjectNode) json.get("readings")).putArray("pad-thickness");
    pads.add(one + " mm").add(other + " mm");
    ObjectNode figures = (ObjectNode) json.get("brake").get("maker-figures");
    figures.remove("pad-limit");
    if (!limit.equals("0")) {
      figures.put("pad-limit", limit + " mm");
    }
    Dossier dossier = judged(json);
    assertThat(dossier.word()).as("the pads stay decided as wear").isEqualTo("split");
    for (String paper : all(dossier)) {
      if (said == null) {
        assertThat(paper).doesNotContain("due anyway");
      } else {
        assertThat(paper)
            .contains(said + ", so new pads were due anyway, whatever the fault")
            .contains("“weeping caliper seal” did to them.");
      }
    }
  }

  @ParameterizedTest(name = "{0} mm off the limit")
  @ValueSource(doubles = {-0.3, 0.3})
  @DisplayName("hold the same limit against the pads that the rules do")
  void holdTheLimitOfTheRules(double off) {
    for (boolean makers : new boolean[] {true, false}) {
      ObjectNode json = json("pads-worn-down");
      ((ObjectNode) json.get("symptoms")).remove(List.of("thin-pads", "grinding"));
      ObjectNode brake = (ObjectNode) json.get("brake");
      ObjectNode figures = brake.putObject("maker-figures");
      if (makers) {
        figures.put("pad-limit", "1.4 mm");
      }
      double limit = makers ? 1.4 : WearLimit.ofPads(file(json).brake()).mm();
      ObjectNode readings = json.putObject("readings");
      readings.putArray("pad-thickness").add(String.format("%.2f mm", limit + off));
      CaseFile file = file(json);
      assertThat(Claims.RULES.consult(file).findings().get("thin-pads").present())
          .isEqualTo(
              !WearLimit.ofPads(file.brake()).below(file.readings().padThicknessesMm()).isEmpty());
    }
  }

  private static CaseFile file(ObjectNode json) {
    return Claims.submitted(json.toString(), "edited").file();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("name claim and case, a deadline, and in the letter a place for shop and day")
  void nameWhatTheyAreAbout(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    for (String paper : all(dossier)) {
      assertThat(paper)
          .contains(dossier.claim().number())
          .contains(dossier.file().id())
          .contains("20 working days");
    }
    String letter = plain(REPORT.letter(dossier));
    assertThat(letter).contains("Shop, with its address Date of this letter");
    assertThat(letter.replaceAll("“[^”]*”", ""))
        .as("a letter speaks to the one who claims")
        .doesNotContain("the claimant");
    assertThat(plain(REPORT.summary(dossier)))
        .contains(dossier.claim().claimant())
        .contains(dossier.file().opened().toString());
  }

  @Test
  @DisplayName(
      "print the day of the letter and the last day, where the day of the decision is told")
  void printTheDay() {
    ObjectNode json = json(SPLIT);
    ((ObjectNode) json.get("claim")).put("decided", "2026-05-20");
    // Twenty working days on, with Whit Monday and Corpus Christi free.
    String letter = plain(REPORT.letter(judged(json)));
    assertThat(letter).contains("…… 2026-05-20 On ");
    assertThat(letter).contains("20 working days from the date of this letter, until 2026-06-19.");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("say of each fault what it would become, as the desk decides it then")
  void sayWhichFaultBecomesWhat(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    String paper = plain(REPORT.html(dossier));
    for (Turn turn : dossier.turns()) {
      CaseFile more = submitted.file();
      for (Further each : turn.findings()) {
        more = each.addedTo(more);
      }
      assertThat(turn.after().stream().map(PapersTest::leadAndResult))
          .containsExactlyElementsOf(
              Claims.DESK.decide(more, Claims.POLICY).matters().stream()
                  .map(PapersTest::leadAndResult)
                  .toList());
      for (Matter matter : turn.after()) {
        if (!matter.decisions().isEmpty()) {
          String name = Claims.VOCABULARY.causes().get(matter.decisions().get(0).cause()).name();
          String fate = matter.result().spoken();
          Pattern said =
              Pattern.compile(
                  Pattern.quote(name) + "[^;.]* would (be|stay) " + Pattern.quote(fate));
          assertThat(said.matcher(paper).find()).as("%s: %s in %s", name, fate, paper).isTrue();
        }
      }
    }
  }

  private static String leadAndResult(Matter matter) {
    return matter.decisions().stream().limit(1).map(Decision::cause).toList()
        + " "
        + matter.result();
  }

  @Test
  @DisplayName("say what is decided, what is not, who can answer it, and each reason once")
  void sayWhatIsOpen() {
    Dossier dossier = demo(PART_OPEN);
    assertThat(dossier.judged().results()).contains(Award.ASKED);
    String letter = plain(REPORT.letter(dossier));
    assertThat(letter)
        .contains("a part is not decided yet")
        .contains("you pay 39.45 EUR, 70.57 EUR is open. Only what is called open")
        .contains("You can answer this, by a bill; or the shop, by its own record of the work.")
        .doesNotContain("would be", "would stay")
        .containsOnlyOnce("nobody wrote down by whom");
    String whole = plain(REPORT.letter(demo("hose-end-by-nobody-knows-whom")));
    assertThat(whole).contains("Not decided yet.").doesNotContain("a part is not decided yet");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("ask the claimant for what is missing, and tell no answer that pays, nor a chance")
  void tellNoAnswerThatPays(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    String letter = plain(REPORT.letter(dossier));
    assertThat(letter)
        .doesNotContain("would be", "would stay", "comes to light", "SHA-256", "irmness")
        .doesNotContain("chance", "probab", " 0 earlier", " 0 days", " 0 claims", ".0 kg")
        .doesNotContain(dossier.caseDigest().substring(0, 16))
        .doesNotContainPattern("\\b1 (month|day|claim|check)s\\b");
    for (Missing each : dossier.missing()) {
      assertThat(letter).contains(each.spoken().substring(1));
    }
  }

  @Test
  @DisplayName("tell in the dossier alone up to which day and from which one it would be what")
  void tellTheLastDay() {
    Dossier dossier = demo("claimed-after-the-period-and-not-told-when");
    assertThat(plain(REPORT.html(dossier)))
        .contains("If the fault first showed as late as 2026-04-30: ")
        .contains("If the fault first showed as early as 2026-05-01: ");
    assertThat(plain(REPORT.letter(dossier)))
        .contains("The day on which the fault first showed")
        .doesNotContain("2026-04-30", "2026-05-01");
  }

  @Test
  @DisplayName("give a fault one chance on a page, and one chance to several faults together")
  void giveOneChance() {
    for (Submitted submitted : Claims.all()) {
      Dossier dossier = Claims.judged(submitted);
      String paper = plain(REPORT.html(dossier));
      String said = paper.substring(0, paper.indexOf("Why: "));
      for (Decision each : dossier.judged().decisions()) {
        String name = Claims.VOCABULARY.causes().get(each.cause()).name();
        Matcher chance =
            Pattern.compile(
                    "(?<![a-z] )" + Pattern.quote(name) + "[,:]? [a-z -]+\\((0\\.\\d\\d)\\)")
                .matcher(said);
        while (chance.find()) {
          assertThat(Double.parseDouble(chance.group(1)))
              .as(submitted.file().id() + ": " + chance.group())
              .isCloseTo(
                  Math.min(0.99, Math.max(0.01, each.probability())), Assertions.within(0.0051));
        }
      }
    }
    String open = plain(REPORT.html(demo("soft-and-nothing-looked-at")));
    assertThat(open).contains("one of these, ", ", or another fault");
    assertThat(plain(REPORT.letter(demo("soft-and-nothing-looked-at"))))
        .contains("Not decided yet. We need more to decide; what it is stands below.")
        .contains(
            "ir left in the line or another fault: which fault it is, is not sure enough yet");
  }

  @Test
  @DisplayName("know of everything that can be missing who answers it")
  void knowWhoAnswers() {
    for (Submitted submitted : Claims.all()) {
      Dossier dossier = Claims.judged(submitted);
      String letter = plain(REPORT.letter(dossier));
      for (Missing each : dossier.missing()) {
        String spoken = each.spoken().substring(1);
        assertThat(letter)
            .containsPattern(
                Pattern.quote(spoken)
                    + "( \\(for: [^)]*\\))?\\. (You can|You or the shop can|The shop) answer");
      }
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName(
      "print weights that add up to the printed sum, and list every finding that is weighed")
  void weightsAdd(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    String html = REPORT.html(dossier);
    Matcher table =
        Pattern.compile("(?s)<table[^>]*>.<caption>The balance.*?</table>").matcher(html);
    int tables = 0;
    while (table.find()) {
      Matcher cell =
          Pattern.compile("<td class=\"figure\"[^>]*>([^<]*)</td>").matcher(table.group());
      List<BigDecimal> figures = new ArrayList<>();
      while (cell.find()) {
        figures.add(new BigDecimal(cell.group(1).replace('−', '-')));
      }
      BigDecimal sum = figures.remove(figures.size() - 1);
      // Each figure is rounded to hundredths, the sum as well.
      assertThat(figures.stream().reduce(BigDecimal.ZERO, BigDecimal::add))
          .isCloseTo(
              sum, Assertions.within(new BigDecimal("0.005").multiply(count(figures.size() + 1))));
      tables++;
    }
    assertThat(tables)
        .isEqualTo(
            dossier.balances().stream()
                .filter(b -> b.balance().isPresent())
                .filter(b -> html.contains(">Why: " + name(b.cause()) + "<"))
                .count());
    assertThat(dossier.judged().decisions().stream().filter(d -> d.probability() >= 0.2))
        .allSatisfy(d -> assertThat(html).contains(">Why: " + name(d.cause()) + "<"));
    String found = html.substring(html.indexOf("What was found"), html.indexOf("What was handed"));
    dossier.balances().stream()
        .flatMap(each -> each.balance().stream())
        .flatMap(balance -> balance.symptoms().stream())
        .map(Weight::symptom)
        .filter(symptom -> dossier.file().symptoms().get(symptom) != Presence.NOT_CHECKED)
        .forEach(
            symptom ->
                assertThat(plain(found).toLowerCase(Locale.ROOT))
                    .containsAnyOf(
                        Claims.VOCABULARY.symptom(symptom).name().toLowerCase(Locale.ROOT),
                        Claims.VOCABULARY.symptom(symptom).said(false).toLowerCase(Locale.ROOT)));
  }

  private static BigDecimal count(int count) {
    return BigDecimal.valueOf(count);
  }

  @Test
  @DisplayName("call a day of purchase proven only where a proof was handed in")
  void tellProofFromWord() {
    assertThat(plain(REPORT.html(demo(SPLIT)))).contains("Bought, with a proof handed in");
    assertThat(plain(REPORT.html(demo("day-of-purchase-only-typed")))).contains("Bought, as told");
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {SPLIT, PART_OPEN, "pads-worn-down", "weep-without-papers"})
  @DisplayName("keep the signature on the page of the last paragraph before it")
  void keepTheSignatureInCompany(String name) throws IOException {
    byte[] printed = DossierReport.printed(REPORT.letter(demo(name)));
    try (PDDocument document = Loader.loadPDF(printed)) {
      PDFTextStripper page = new PDFTextStripper();
      int signed = 0;
      for (int at = 1; at <= document.getNumberOfPages(); at++) {
        page.setStartPage(at);
        page.setEndPage(at);
        String text = page.getText(document);
        if (text.contains("A person decides")) {
          signed++;
          assertThat(text).contains("The law.").contains("Made by firmlever");
        }
      }
      assertThat(signed).isEqualTo(1);
    }
  }

  @Test
  @DisplayName("take the day of the claim from the claim")
  void takeTheDayOfTheClaim() {
    Dossier dossier = demo(SPLIT);
    // Claimed on 2026-05-14; ten working days on, with 2026-05-25 free.
    assertThat(plain(REPORT.summary(dossier)))
        .contains("must answer within 10 working days of the claim, until 2026-05-29.");
  }

  private static String name(String cause) {
    return Claims.VOCABULARY.cause(cause).name();
  }

  private static String text(Dossier dossier) {
    return REPORT.text(dossier, 80, false).replaceAll("\\s+", " ");
  }

  @Test
  @DisplayName("say of every work and event nobody wrote down that it was done, and by whom")
  void sayWhatNobodyWroteDown() {
    Dossier d = demo("weep-within-period");
    List<Turn> turns = new ArrayList<>();
    Claims.VOCABULARY
        .recordedWorks()
        .forEach(work -> turns.add(turn(d, Further.ownWork(work, 7, "T1", Fluid.UNKNOWN))));
    Claims.VOCABULARY
        .events()
        .keySet()
        .forEach(event -> turns.add(turn(d, Further.event(event, 1, Fluid.UNKNOWN))));
    turns.add(turn(d, Further.ownWork("full-bleed", 7, "somebody", Fluid.DOT_4)));
    turns.add(turn(d, Further.event("home-serviced", 7, Fluid.DOT_4)));
    String said = text(turning(d, turns));
    assertThat(said)
        .doesNotContain("lacks", "comes to light")
        .contains(
            "If this shop renewed the lever seals 7 days before the case, and nobody wrote it down: ",
            "If this shop made a full bleed 7 days before the case, and nobody",
            "If this shop shortened the hose 7 days before the case, and nobody",
            "If the bike crashed 1 day before the case, and nobody wrote it down: ",
            "If somebody else made a full bleed 7 days before the case, with DOT 4 fluid put in, and",
            "If somebody outside a workshop worked on the brake 7 days before the case, with DOT 4");
    Claims.VOCABULARY
        .recordedWorks()
        .forEach(
            work ->
                assertThat(said)
                    .contains(
                        "If this shop "
                            + Claims.VOCABULARY.done(work).orElseThrow()
                            + " 7 days before the case, and nobody wrote it down: "));
    Claims.VOCABULARY
        .events()
        .keySet()
        .forEach(
            event ->
                assertThat(said)
                    .contains("If " + Claims.VOCABULARY.done(event).orElseThrow() + " 1 day "));
  }

  private static Turn turn(Dossier d, Further further) {
    return new Turn(List.of(further), d.judged().matters());
  }

  private static Dossier turning(Dossier d, List<Turn> turns) {
    return new Dossier(
        d.file(),
        d.caseDigest(),
        d.policy(),
        d.diagnosis(),
        d.draws(),
        d.judged(),
        d.balances(),
        d.costs(),
        d.due(),
        turns,
        d.beside(),
        d.alternatives(),
        d.stoppedEarly(),
        d.signed());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("hold no sentence that is broken, and none that denies what denies already")
  void holdNoBrokenSentence(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    List<String> papers = new ArrayList<>(all(dossier));
    papers.add(text(dossier));
    for (String paper : papers) {
      assertThat(paper)
          .doesNotContain(" absent", "“it” is this cause", "seen rather", "for it:")
          .doesNotContain("may have shown", "may have arisen", "comes to light", "no outcome rests")
          .doesNotContainPattern(
              "-[0-9]{2}: what |(?i:\\bno no\\b|\\bnot not\\b)|No (hard stop|resistance at all): not");
    }
    // Where a sentence goes on in the text, no cell begins it anew.
    assertThat(text(dossier)).doesNotContainPattern("because [A-Z][a-z]");
  }

  @Test
  @DisplayName("say how often a finding goes with the fault, and of which fault it is no sign")
  void sayHowAFindingGoesWithAFault() {
    assertThat(text(demo(SPLIT)))
        .contains(
            "Thin pads: nearly always seen with worn pads (0.98); weight",
            "Lever not spongy: “spongy lever” is seldom seen with worn pads (0.15); weight",
            "Fluid on pads or rotor: no sign of worn pads, so something else must have brought it;",
            "2025-01-22: brake fitted; by this shop; ",
            "4.1 wear: holds; because this part wears in use from the first day");
  }

  @Test
  @DisplayName("keep what was found found, where a fault above can explain it")
  void keepWhatWasFound() {
    assertThat(text(demo(SPLIT)))
        .contains("Reservoir low: there", "Fluid on pads or rotor: there", "What was found stays")
        .containsPattern("fluid low: \\d in 10 \\(0\\.\\d\\d\\) as a fault of its own; ")
        .contains("“reservoir low” is found, but worn pads or weeping caliper seal can explain it")
        .contains("“fluid on pads or rotor” is found, but weeping caliper seal can explain it");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("fold unlikely causes of one decision into one line, and the JSON keeps each")
  void foldWhatIsDecidedAlike(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    String html = REPORT.html(dossier);
    String decision =
        html.substring(
            html.indexOf("<h2>The decision, and the clauses"), html.indexOf("<h2>What was found"));
    decision = decision.contains("<h2>Who pays") ? decision.split("<h2>Who pays")[0] : decision;
    String folded = " lead to the same decision";
    for (Matter matter : dossier.judged().matters()) {
      List<String> told = new ArrayList<>();
      for (Decision each : matter.decisions()) {
        if (decision.contains(">" + name(each.cause()) + ", ")) {
          told.add(each.cause());
        } else {
          assertThat(each.probability()).as(each.cause()).isLessThan(0.2);
          assertThat(decision).contains(folded);
        }
      }
      long likely = matter.decisions().stream().filter(d -> d.probability() >= 0.2).count();
      assertThat(told).hasSizeLessThanOrEqualTo((int) Math.max(1, likely) + 1);
    }
    boolean allAlike =
        dossier.judged().matters().size() == 1
            && dossier.judged().matters().get(0).decisions().size()
                == dossier.judged().decisions().size();
    String letter = plain(REPORT.letter(dossier));
    if (decision.contains("all other possible causes") || letter.contains("All other possible")) {
      assertThat(allAlike).isTrue();
      assertThat(dossier.judged().decisions().stream().map(Decision::result).distinct()).hasSize(1);
    } else if (!allAlike && !dossier.judged().matters().get(0).decisions().isEmpty()) {
      assertThat(decision.contains("Less likely causes would be decided otherwise"))
          .isEqualTo(
              dossier.judged().decisions().stream()
                  .anyMatch(
                      d ->
                          dossier.judged().matters().stream()
                              .noneMatch(m -> m.decisions().contains(d))));
    }
    String json = REPORT.json(dossier);
    dossier.judged().decisions().forEach(d -> assertThat(json).contains("\"" + d.cause() + "\""));
  }
}
