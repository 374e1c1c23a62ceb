package firmlever.comeback;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relation;
import firmlever.comeback.visits.Visit;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A brake with its visits")
class BrakeReviewTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final Diagnostician DIAGNOSTICIAN =
      new Diagnostician(RuleBase.builtIn(VOCABULARY));
  private static final Definition DEFINITION = new Definition(30, 90, LocalDate.of(2026, 12, 31));

  private static final Costs COSTS = new Costs(117, Double.NaN, 0);
  private static final BrakeReview REVIEW =
      new BrakeReview(DIAGNOSTICIAN, VOCABULARY, DEFINITION, COSTS);

  private static CaseFile visit(int number, String opened, String symptoms, String outcome) {
    return visit("B-9", number, opened, symptoms, outcome);
  }

  private static CaseFile visit(
      String brake, int number, String opened, String symptoms, String outcome) {
    String text =
        "{\"format\":\"firmlever-case/1\",\"id\":\"V-%d\",\"opened\":\"%s\",\"brake\":{\"id\":\"%s\",\"fluid\":\"mineral-oil\",\"lot\":\"H7\"},\"complaint\":\"soft\",\"symptoms\":{%s}%s}"
            .formatted(
                number,
                opened,
                brake,
                symptoms,
                outcome.isEmpty() ? "" : ",\"outcome\":{" + outcome + "}");
    try {
      return READER.read(DocumentReader.readText(text, "v"), "v");
    } catch (BadInput e) {
      throw new AssertionError(e);
    }
  }

  private static String outcome(String cause, String work, String closed) {
    return "\"causes\":[%s],\"works\":[\"%s\"],\"by\":\"T2\",\"closed\":\"%s\""
        .formatted(cause.isEmpty() ? "" : "\"" + cause + "\"", work, closed);
  }

  private static List<Comeback> review(CaseFile... visits) {
    return new BrakeReview(DIAGNOSTICIAN, VOCABULARY, DEFINITION, COSTS)
        .review(List.of(visits), new Tally());
  }

  private static final String SOFT = "\"spongy-lever\":\"present\",\"long-throw\":\"present\"";

  @Test
  @DisplayName("that was bled although its port wept: wrong cause, avoidable, with its sentence")
  void tellsTheWrongCause() {
    Comeback comeback =
        review(
                visit(
                    1,
                    "2026-03-02",
                    SOFT + ",\"weep-at-caliper-port\":\"present\"",
                    outcome("air-at-lever", "full-bleed", "2026-03-04")),
                visit(
                    2,
                    "2026-03-11",
                    SOFT + ",\"weep-at-caliper-port\":\"present\"",
                    outcome("caliper-port-weep", "reseal-caliper-port", "2026-03-11")))
            .get(0);
    assertThat(comeback.reason()).isEqualTo(Reason.WRONG_CAUSE);
    assertThat(comeback.days()).isEqualTo(7);
    assertThat(comeback.place()).isEqualTo(1);
    assertThat(comeback.avoidable()).isTrue();
    // 117 for the comeback and 40 for the bleed that does not mend it (vocabulary, full-bleed),
    // less the few minutes of the checks that the plan asks for.
    assertThat(comeback.minutesSaved()).isBetween(117 + 40 - 20, 117 + 40);
    assertThat(comeback.sentence())
        .contains(VOCABULARY.causes().get("caliper-port-weep").name(), "7 days later", "first");
  }

  @Test
  @DisplayName("with the same cause again: the repair did not hold")
  void tellsThatARepairDidNotHold() {
    assertThat(
            review(
                visit(1, "2026-03-02", SOFT, outcome("low-fluid", "lever-end-bleed", "2026-03-02")),
                visit(
                    2, "2026-03-20", SOFT, outcome("low-fluid", "lever-end-bleed", "2026-03-21"))))
        .extracting(Comeback::reason)
        .containsExactly(Reason.DID_NOT_HOLD);
  }

  @Test
  @DisplayName("that drags after new pads: brought in by the work, as the rules say")
  void tellsWhatTheWorkBroughtIn() {
    Comeback comeback =
        review(
                visit(
                    1,
                    "2026-03-02",
                    "\"thin-pads\":\"present\",\"grinding\":\"present\",\"drag\":\"absent\"",
                    outcome("worn-pads", "replace-pads", "2026-03-02")),
                visit(
                    2,
                    "2026-03-05",
                    "\"drag\":\"present\"",
                    outcome("pistons-not-home", "push-pistons-home", "2026-03-05")))
            .get(0);
    assertThat(comeback.reason()).isEqualTo(Reason.BROUGHT_IN);
    assertThat(comeback.sentence()).isEqualTo(comeback.avoidable() ? comeback.sentence() : "");
  }

  @Test
  @DisplayName("with a fault that was not there before: no comeback, and listed as that")
  void tellsANewFault() {
    Tally tally = new Tally();
    assertThat(
            REVIEW.review(
                List.of(
                    visit(
                        1,
                        "2026-03-02",
                        "\"squeal\":\"present\",\"bent-rotor-seen\":\"absent\",\"rub-in-rhythm\":\"absent\","
                            + "\"fluid-on-pads\":\"present\"",
                        outcome("contaminated-pads", "replace-pads", "2026-03-02")),
                    visit(
                        2,
                        "2026-04-30",
                        "\"rub-in-rhythm\":\"present\"",
                        outcome("bent-rotor", "true-rotor", "2026-04-30"))),
                tally))
        .isEmpty();
    Findings found = REVIEW.conclude(tally, Findings.Asked.NOTHING);
    assertThat(found.all().count()).isZero();
    assertThat(found.relations().get(Relation.Ground.NEW_FAULT).shown())
        .singleElement()
        .satisfies(
            again -> {
              assertThat(again.reason()).isEqualTo(Reason.NEW_FAULT);
              assertThat(again.relation().chance()).isLessThan(0.5);
              assertThat(again.avoidable()).isFalse();
            });
  }

  @Test
  @DisplayName("without a cause twice, and without a record")
  void tellsWhatWasNotFound() {
    assertThat(
            review(
                visit(1, "2026-03-02", SOFT, outcome("", "hand-back", "2026-03-02")),
                visit(2, "2026-03-09", SOFT, outcome("", "hand-back", "2026-03-09")),
                visit(3, "2026-03-19", SOFT, "")))
        .extracting(Comeback::reason)
        .containsExactly(Reason.NO_FAULT_TWICE, Reason.NOT_RECORDED);
  }

  @Test
  @DisplayName("of which neither work nor cause is on record is not said to be without fault")
  void tellsNothingOfABlankRecord() {
    assertThat(
            review(
                visit(1, "2026-03-02", SOFT, "\"closed\":\"2026-03-02\""),
                visit(2, "2026-03-09", SOFT, "\"closed\":\"2026-03-09\"")))
        .extracting(Comeback::reason)
        .containsExactly(Reason.NOT_RECORDED);
  }

  @Test
  @DisplayName("with an unrelated complaint or after the window: no comeback")
  void leavesOutTheUnrelated() {
    String noise = "\"squeal\":\"present\"";
    String done = outcome("low-fluid", "lever-end-bleed", "2026-03-02");
    assertThat(review(visit(1, "2026-03-02", SOFT, done), visit(2, "2026-03-09", noise, "")))
        .isEmpty();
    assertThat(review(visit(1, "2026-03-02", SOFT, done), visit(2, "2026-06-01", SOFT, "")))
        .as("91 days")
        .isEmpty();
    assertThat(review(visit(1, "2026-03-02", SOFT, done), visit(2, "2026-05-31", SOFT, "")))
        .as("90 days")
        .hasSize(1);
  }

  @Test
  @DisplayName("opened before it had gone back: no return; on the very day: one after half a day")
  void countsNoReturnWhileItIsStillHere() {
    String bled = outcome("low-fluid", "lever-end-bleed", "2026-03-06");
    String again = outcome("low-fluid", "lever-end-bleed", "2026-03-07");
    assertThat(review(visit(1, "2026-03-02", SOFT, bled), visit(2, "2026-03-04", SOFT, again)))
        .isEmpty();
    assertThat(review(visit(1, "2026-03-02", SOFT, bled), visit(2, "2026-03-06", SOFT, again)))
        .singleElement()
        .satisfies(comeback -> assertThat(comeback.days()).isEqualTo(0.5));
  }

  @Test
  @DisplayName("back once after two visits that might have caused it: one return, laid to the last")
  void countsAReturnOnce() {
    String noise = "\"squeal\":\"present\"";
    Tally tally = new Tally();
    List<Comeback> comebacks =
        new BrakeReview(DIAGNOSTICIAN, VOCABULARY, DEFINITION, COSTS)
            .review(
                List.of(
                    visit(
                        1,
                        "2026-03-02",
                        SOFT,
                        outcome("low-fluid", "lever-end-bleed", "2026-03-02")),
                    visit(
                        2,
                        "2026-03-12",
                        noise,
                        outcome("contaminated-pads", "replace-pads", "2026-03-13")),
                    visit(3, "2026-03-20", SOFT + "," + noise, "")),
                tally);
    assertThat(comebacks)
        .singleElement()
        .satisfies(
            comeback -> {
              assertThat(comeback.first()).isEqualTo("V-2");
              assertThat(comeback.alsoAfter()).containsExactly("V-1");
              assertThat(comeback.days()).isEqualTo(7);
            });
    Findings found = REVIEW.conclude(tally, Findings.Asked.NOTHING);
    assertThat(found.all().count()).isEqualTo(1);
    assertThat(found.within().events()).isEqualTo(1);
    // Of the first visit nothing is known beyond the day another visit answered for.
    assertThat(found.lives().units()).isEqualTo(3);
  }

  @Test
  @DisplayName("looks avoidable by chance less often than by what it came back with")
  void knowsWhatChanceGives() {
    Tally tally = new Tally();
    for (int i = 0; i < 8; i++) {
      boolean seal = i % 2 == 0;
      String seen =
          SOFT + (seal ? ",\"lever-sinks\":\"present\"" : ",\"soft-after-tilt\":\"present\"");
      String cause = seal ? "worn-lever-seal" : "air-at-lever";
      REVIEW.review(
          List.of(
              visit(
                  "B-" + i,
                  1,
                  "2026-03-02",
                  seen,
                  outcome("low-fluid", "set-fluid-level", "2026-03-04")),
              visit("B-" + i, 2, "2026-03-11", seen, outcome(cause, "hand-back", "2026-03-11"))),
          tally);
    }
    ChanceLevel level = REVIEW.conclude(tally, Findings.Asked.NOTHING).chanceLevel();
    assertThat(level.avoidable().units()).isEqualTo(8);
    assertThat(level.stoodFirst().first().events()).isEqualTo(8);
    // Another brake's cause stands first only where the other brake had the same.
    assertThat(level.stoodFirst().second().events()).isLessThan(8);
    assertThat(level.avoidable().difference()).isPositive();
    assertThat(level.beyondChance()).isBetween(0.01, 0.99);
  }

  @Test
  @DisplayName("and a habit: the checks it takes against the comebacks it saves, by hand")
  void costsAHabit() {
    Habit habit =
        new Habit("thin-pads", new Habit.Place(false, "noise"), Shelf.Cases.NONE, 300, 2, 450);
    assertThat(habit.costMinutes()).isEqualTo(600);
    assertThat(habit.netMinutes()).isEqualTo(-150);
    assertThat(habit.breakEvenChecks()).isEqualTo(225);
    Costs costs = new Costs(90, 60, 12.5);
    assertThat(costs.money(120, 3)).isEqualTo(120 + 37.5);
    assertThat(new Costs(90, Double.NaN, 0).inMoney()).isFalse();
  }

  @Test
  @DisplayName(
      "is diagnosed with what was known before the work, earlier works of the shop included")
  void knowsOnlyWhatWasKnown() {
    Visit first =
        Visit.of(
            visit(1, "2026-03-02", SOFT, outcome("low-fluid", "full-bleed", "2026-03-04")),
            VOCABULARY);
    Visit second =
        Visit.of(
            visit(
                2,
                "2026-03-09",
                SOFT + ",\"no-bubbles\":\"present\"",
                outcome("worn-lever-seal", "replace-lever", "2026-03-10")),
            VOCABULARY);
    CaseFile known = second.knownThen(List.of(first), VOCABULARY);
    assertThat(known.symptoms()).containsOnlyKeys("spongy-lever", "long-throw");
    assertThat(known.outcome()).isEmpty();
    assertThat(known.history())
        .singleElement()
        .satisfies(
            entry -> {
              assertThat(entry.work()).isEqualTo("full-bleed");
              assertThat(entry.daysAgo()).hasValue(5);
              assertThat(entry.by()).isEqualTo("T2");
            });
  }

  @Test
  @DisplayName("counts the same for every order of visits and every split over tallies")
  void countsTheSameInAnyOrder() {
    List<List<CaseFile>> brakes = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      String day = "2026-0" + (1 + i % 5) + "-1" + i % 9;
      brakes.add(
          List.of(
              visit(2 * i, day, SOFT, outcome("air-at-lever", "full-bleed", day)),
              visit(
                  2 * i + 1,
                  LocalDate.parse(day).plusDays(3 + i).toString(),
                  SOFT,
                  outcome(
                      i % 2 == 0 ? "air-at-lever" : "worn-lever-seal",
                      "full-bleed",
                      "2026-08-01"))));
    }
    BrakeReview review = new BrakeReview(DIAGNOSTICIAN, VOCABULARY, DEFINITION, COSTS);
    Tally one = new Tally();
    brakes.forEach(visits -> review.review(visits, one));
    Tally merged = new Tally();
    for (int i = brakes.size() - 1; i >= 0; i--) {
      Tally part = new Tally();
      review.review(List.of(brakes.get(i).get(1), brakes.get(i).get(0)), part);
      merged.merge(part);
    }
    assertThat(REVIEW.conclude(merged, Findings.Asked.NOTHING))
        .usingRecursiveComparison()
        .isEqualTo(REVIEW.conclude(one, Findings.Asked.NOTHING));
    assertThat(one.visits).isEqualTo(24);
    assertThat(one.cases(Tally.ALL).count()).isEqualTo(12);
  }
}
