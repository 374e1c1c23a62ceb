package firmlever.warranty;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.document.BadInput;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.warranty.Dossier.Decided;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Dossier.Turn;
import firmlever.warranty.Outcome.Result;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

@DisplayName("The warranty desk")
class DeskTest {
  private static final JsonMapper MAPPER = new JsonMapper();

  static Stream<Submitted> claims() {
    return Claims.all().stream();
  }

  /** Cause, outcome, who pays and clause of each; a split claim has one row for each cause. */
  @ParameterizedTest(name = "decides {0}: {1} {2}, {3}, clause {4}")
  @CsvSource({
    "weep-within-period, caliper-seal-weep, COVER, MAKER, 2.1",
    "wrong-fluid-put-in, wrong-fluid, REFUSE, CLAIMANT, 3.1",
    "wrong-fluid-put-in, swollen-lever-seal, ASK, OPEN, 1.1",
    "pads-worn-down, worn-pads, REFUSE, CLAIMANT, 4.1",
    "fluid-never-changed, wet-fluid, REFUSE, CLAIMANT, 3.4",
    "lever-seal-after-the-period, worn-lever-seal, GOODWILL, MAKER, 7.1",
    "weep-without-papers, caliper-seal-weep, ASK, OPEN, 5.1",
    "air-after-our-bleed, air-left-in-line, COVER, SHOP, 6.1",
    "weep-and-worn-pads, caliper-seal-weep, COVER, MAKER, 2.1",
    "weep-and-worn-pads, worn-pads, REFUSE, CLAIMANT, 4.1",
    "renewed-seal-back-again, worn-lever-seal, COVER, SHOP, 6.4",
    "lever-cracked-in-a-crash, cracked-lever-body, REFUSE, CLAIMANT, 3.2",
    "caliper-split-elsewhere, caliper-joint-weep, REFUSE, CLAIMANT, 3.3",
    "weep-long-after, lever-piston-weep, REFUSE, CLAIMANT, 8.1",
    "boiled-under-a-heavy-load, overheated-fluid, REFUSE, CLAIMANT, 3.5",
    "soft-and-nothing-looked-at, air-left-in-line, ASK, OPEN, 1.1",
    "hose-end-by-nobody-knows-whom, lever-fitting-weep, ASK, OPEN, 6.2",
    "hose-chafed-in-the-third-year, damaged-hose, COVER, MAKER, 2.2"
  })
  void decides(String name, String cause, Outcome outcome, Outcome.Payer pays, String clause) {
    Dossier dossier = Claims.judged(Claims.demo(Claims.file(name)));
    Decision decision = decision(dossier, cause);
    assertThat(decision.clause().id()).isEqualTo(clause);
    assertThat(decision.result().outcome()).isEqualTo(outcome);
    assertThat(decision.result().pays()).isEqualTo(pays);
    assertThat(decision.why()).isNotEmpty();
    assertThat(decision.missing().isEmpty()).isEqualTo(outcome != Outcome.ASK);
    boolean split = Set.of("weep-and-worn-pads", "wrong-fluid-put-in").contains(name);
    assertThat(dossier.together().isEmpty()).as("split").isEqualTo(split);
  }

  private static Decision decision(Dossier dossier, String cause) {
    return dossier.decided().stream()
        .map(Decided::decision)
        .filter(each -> each.cause().equals(cause))
        .findFirst()
        .orElseThrow(() -> new AssertionError(cause + " is not in question"));
  }

  @Test
  @DisplayName("asks for what is missing by name, and only for what could change the decision")
  void asksForWhatIsMissing() {
    Dossier papers = Claims.judged(Claims.demo(Claims.file("weep-without-papers")));
    // The wipe-pump-hold record stands in the case: the round found the wet place.
    assertThat(papers.missing()).containsExactly(Missing.PURCHASE_DATE, Missing.PHOTOS);
    Dossier unsigned = Claims.judged(Claims.demo(Claims.file("hose-end-by-nobody-knows-whom")));
    assertThat(unsigned.missing()).containsExactly(Missing.WHO_DID_IT);
    Dossier late = Claims.judged(Claims.demo(Claims.file("weep-long-after")));
    assertThat(late.missing()).isEmpty();
  }

  /**
   * The property of "what would turn it": with exactly those findings written into the case file,
   * the decision is the one foretold; with any part of them it is not turned.
   */
  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName("foretells what would turn a decision")
  void foretellsWhatTurns(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    for (Decided decided : dossier.decided()) {
      Decision before = decided.decision();
      for (Turn turn : decided.turns()) {
        assertThat(turn.findings()).hasSizeBetween(1, 3);
        assertThat(turn.becomes()).isNotEqualTo(Optional.of(before.result()));
        assertThat(resultWith(submitted.file(), turn.findings(), before.cause()))
            .as("%s with %s", before.cause(), turn.findings())
            .isEqualTo(turn.becomes());
      }
      for (Turn turn : decided.turns()) {
        for (int left = 0; left < turn.findings().size() && turn.findings().size() > 1; left++) {
          List<Further> fewer = new ArrayList<>(turn.findings());
          fewer.remove(left);
          assertThat(resultWith(submitted.file(), fewer, before.cause()))
              .as("%s with %s only", before.cause(), fewer)
              .isNotEqualTo(turn.becomes());
        }
      }
    }
  }

  private static Optional<Result> resultWith(CaseFile file, List<Further> findings, String cause) {
    CaseFile more = file;
    for (Further each : findings) {
      more = each.addedTo(more);
    }
    return Claims.DESK.decide(more, Claims.POLICY).stream()
        .filter(each -> each.cause().equals(cause))
        .map(Decision::result)
        .findFirst();
  }

  @Test
  @DisplayName("foretells symptom answers that turn it when written into the file itself")
  void foretellsByTheFileItself() {
    int tried = 0;
    for (var path : Claims.files()) {
      ObjectNode open = (ObjectNode) MAPPER.readTree(Claims.text(path));
      // With the outcome a closed case rests on the mended work; without it, on its findings.
      boolean closed = open.remove("outcome") != null;
      tried += foretold(Claims.text(path));
      tried += closed ? foretold(open.toString()) : 0;
    }
    assertThat(tried).isGreaterThan(8);
  }

  /** Writes each set of answers into the file; returns how many sets there were. */
  private static int foretold(String text) {
    int tried = 0;
    for (Decided decided : Claims.judged(Claims.submitted(text, "whole")).decided()) {
      for (Turn turn : decided.turns()) {
        if (turn.findings().stream().allMatch(f -> f.kind() == Further.Kind.CHECKED)) {
          ObjectNode json = (ObjectNode) MAPPER.readTree(text);
          ObjectNode symptoms = (ObjectNode) json.get("symptoms");
          turn.findings().forEach(f -> symptoms.put(f.id(), f.value()));
          CaseFile edited = Claims.submitted(json.toString(), "edited").file();
          assertThat(
                  Claims.DESK.decide(edited, Claims.POLICY).stream()
                      .filter(d -> d.cause().equals(decided.decision().cause()))
                      .map(Decision::result)
                      .findFirst())
              .as("%s with %s", text, turn.findings())
              .isEqualTo(turn.becomes());
          tried++;
        }
      }
    }
    return tried;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("claims")
  @DisplayName(
      "names the smallest set: no single answer to a check turns a decision said to need two")
  void namesTheSmallestSet(Submitted submitted) {
    Dossier dossier = Claims.judged(submitted);
    for (Decided decided : dossier.decided()) {
      Decision before = decided.decision();
      boolean needsMore =
          decided.turns().stream().allMatch(turn -> turn.findings().size() > 1)
              && !decided.turns().isEmpty();
      if (!needsMore) {
        continue;
      }
      Set<String> known = new HashSet<>(Claims.RULES.consult(submitted.file()).findings().keySet());
      for (var symptom : Claims.VOCABULARY.symptoms().values()) {
        if (symptom.canBeChecked() && !known.contains(symptom.id())) {
          for (boolean present : new boolean[] {true, false}) {
            Further one = Further.answer(symptom.id(), present);
            assertThat(resultWith(submitted.file(), List.of(one), before.cause()))
                .as("%s with %s %s alone", before.cause(), symptom.id(), present)
                .isEqualTo(Optional.of(before.result()));
          }
        }
      }
    }
  }

  @Test
  @DisplayName("does not care which of its own people did the work, nor what others are called")
  void doesNotCareWhoDidTheWork() throws Exception {
    Random random = new Random(83);
    int renamed = 0;
    for (var path : Claims.files()) {
      List<String> before = said(Claims.demo(path));
      for (int round = 0; round < 4; round++) {
        List<String> own = new ArrayList<>(Claims.POLICY.technicians());
        Collections.shuffle(own, random);
        Map<String, String> names = new HashMap<>();
        int at = 0;
        for (String code : Claims.POLICY.technicians()) {
          names.put(code, own.get(at++));
        }
        names.put("W9", "W" + (10 + random.nextInt(80)));
        ObjectNode json = (ObjectNode) MAPPER.readTree(Claims.text(path));
        if (json.get("history") instanceof ArrayNode history) {
          for (JsonNode entry : history) {
            if (entry.has("by")) {
              ((ObjectNode) entry).put("by", names.get(entry.get("by").asString()));
              renamed++;
            }
          }
        }
        assertThat(said(Claims.submitted(json.toString(), "renamed")))
            .as("%s, seed 83, round %d", path, round)
            .isEqualTo(before);
      }
    }
    assertThat(renamed).isGreaterThan(20);
  }

  private static List<String> said(Submitted submitted) {
    return Claims.DESK.decide(submitted.file(), Claims.POLICY).stream()
        .map(Decision::toString)
        .toList();
  }

  /** How a decision stands for the claimant; asking stands above refusing. */
  private static int standing(Decision decision) {
    return decision.result().outcome() == Outcome.REFUSE ? 0 : 1;
  }

  @Test
  @DisplayName("never refuses because a fact is missing: it asks")
  void neverRefusesForAMissingFact() throws Exception {
    int tried = 0;
    int asked = 0;
    for (var path : Claims.files()) {
      Dossier whole = Claims.judged(Claims.demo(path));
      for (ObjectNode json : withoutOneFact(Claims.text(path))) {
        CaseFile less = Claims.submitted(json.toString(), "less").file();
        for (Decision each : Claims.DESK.decide(less, Claims.POLICY)) {
          Optional<Decision> before =
              whole.decided().stream()
                  .map(Decided::decision)
                  .filter(d -> d.cause().equals(each.cause()))
                  .findFirst();
          if (before.isPresent()) {
            tried++;
            asked += each.result().equals(Result.ASKED) ? 1 : 0;
            assertThat(standing(each))
                .as("%s without a fact: %s", path, json)
                .isGreaterThanOrEqualTo(standing(before.get()));
          }
        }
      }
    }
    assertThat(tried).isGreaterThan(100);
    assertThat(asked).isGreaterThan(40);
  }

  /** The file again and again, each time without one fact that a clause may rest on. */
  private static List<ObjectNode> withoutOneFact(String text) {
    List<ObjectNode> all = new ArrayList<>();
    for (List<String> place :
        List.of(
            List.of("brake", "fitted"),
            List.of("use", "rider-and-load"),
            List.of("readings"),
            List.of("outcome"),
            List.of("claim", "purchased"),
            List.of("claim", "earlier-claims"),
            List.of("claim", "made"),
            List.of("claim", "part"),
            List.of("claim", "evidence"),
            List.of("claim", "evidence", "photos"),
            List.of("claim", "evidence", "service-record"),
            List.of("claim", "evidence", "wipe-pump-hold"))) {
      ObjectNode json = (ObjectNode) MAPPER.readTree(text);
      JsonNode at = json;
      for (String name : place.subList(0, place.size() - 1)) {
        at = at == null ? null : at.get(name);
      }
      if (at instanceof ObjectNode object && object.has(place.get(place.size() - 1))) {
        object.remove(place.get(place.size() - 1));
        all.add(json);
      }
    }
    if (MAPPER.readTree(text).get("history") instanceof ArrayNode history) {
      for (int i = 0; i < history.size(); i++) {
        for (String field : List.of("by", "date", "outcome", "parts", "fluid")) {
          ObjectNode json = (ObjectNode) MAPPER.readTree(text);
          ObjectNode entry = (ObjectNode) json.get("history").get(i);
          if (entry.has(field)) {
            entry.remove(field);
            all.add(json);
          }
        }
      }
    }
    return all;
  }

  @Test
  @DisplayName("decides the same in parallel as one claim after the other")
  void decidesTheSameInParallel() {
    List<Submitted> all = Claims.all();
    List<List<String>> one = all.stream().map(each -> said(each)).toList();
    Stream.iterate(0, i -> i + 1)
        .limit(3L * all.size())
        .parallel()
        .forEach(i -> assertThat(said(all.get(i % all.size()))).isEqualTo(one.get(i % all.size())));
  }

  @Test
  @DisplayName("a budget that is enough changes nothing, and one that is not is kept to")
  void keepsToTheBudget() throws BadInput {
    for (String name : List.of("soft-and-nothing-looked-at", "weep-without-papers")) {
      Submitted submitted = Claims.demo(Claims.file(name));
      Dossier usual = Claims.judged(submitted);
      assertThat(usual.stoppedEarly()).isEmpty();
      WorkBudget endless = WorkBudget.of(Long.MAX_VALUE);
      Dossier unlimited = Claims.DESK.judge(submitted, Claims.POLICY, endless);
      assertThat(turns(unlimited)).isEqualTo(turns(usual)).isNotEmpty();
      WorkBudget half = WorkBudget.of(endless.spent() / 2);
      Dossier shorter = Claims.DESK.judge(submitted, Claims.POLICY, half);
      assertThat(half.left()).isNotNegative();
      assertThat(shorter.stoppedEarly()).isNotEmpty();
      assertThat(shorter.decided()).anyMatch(each -> !each.allTried());
      assertThat(shorter.decided().stream().map(each -> each.decision().cause()).toList())
          .isEqualTo(usual.decided().stream().map(each -> each.decision().cause()).toList());
    }
  }

  private static List<String> turns(Dossier dossier) {
    return dossier.decided().stream()
        .flatMap(each -> each.turns().stream())
        .map(
            turn ->
                turn.becomes()
                    + turn.findings().stream()
                        .map(each -> each.id() + " " + each.value())
                        .collect(Collectors.joining(", ")))
        .toList();
  }
}
