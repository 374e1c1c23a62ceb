package firmlever.comeback.visits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.visits.Relation.Ground;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.invent.Depot;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A return and an earlier visit")
class RelatednessTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final Diagnostician DIAGNOSTICIAN =
      new Diagnostician(RuleBase.builtIn(VOCABULARY));
  private static final Relatedness RELATEDNESS = new Relatedness(new BroughtIn(DIAGNOSTICIAN), 90);

  private static Visit visit(String opened, String symptoms, String outcome) {
    return visit(
        "{\"format\":\"firmlever-case/1\",\"id\":\"V\",\"opened\":\"%s\",\"brake\":{\"id\":\"B\",\"fluid\":\"mineral-oil\"},\"complaint\":\"c\",\"symptoms\":{%s}%s}"
            .formatted(
                opened,
                symptoms,
                outcome.isEmpty() ? "" : ",\"outcome\":{\"causes\":[%s]}".formatted(outcome)));
  }

  private static Visit visit(String text) {
    try {
      CaseFile file = READER.read(DocumentReader.readText(text, "v"), "v");
      return Visit.of(file, VOCABULARY);
    } catch (BadInput e) {
      throw new AssertionError(e);
    }
  }

  private static Relation relation(Visit first, Visit second) {
    return RELATEDNESS.of(
        first, Optional.of(DIAGNOSTICIAN.belief(first.knownThen(List.of(), VOCABULARY))), second);
  }

  @Test
  @DisplayName("by hand: Bayes' rule over there before, brought in and come anew")
  void followsBayes() {
    // There before 0.2; else brought in 0.1; else anew 0.05, where neither: 0.8 · 0.9 · 0.05.
    assertThat(Relatedness.chance(0.2, 0.1, 0.05)).isCloseTo(0.28 / (0.28 + 0.036), within(1e-12));
    assertThat(Relatedness.chance(1, 0, 0.05)).isEqualTo(1);
    assertThat(Relatedness.chance(0, 0, 0.05)).isZero();
    assertThat(Relatedness.chance(0, 0, 0)).isZero();
    // Where n is the share itself: nothing known, 1 of 2 if it is rare; twice the odds, 2 of 3.
    assertThat(Relatedness.chance(0.001, 0, 0.001)).isCloseTo(0.5, within(1e-3));
    assertThat(Relatedness.chance(0.002, 0, 0.001)).isCloseTo(2.0 / 3, within(1e-3));
  }

  @Test
  @DisplayName("is judged by the cause, whatever the complaint was called")
  void judgesByTheCause() {
    Visit thinPads = visit("2026-03-02", "\"thin-pads\":\"present\"", "\"worn-pads\"");
    assertThat(
            relation(thinPads, visit("2026-03-20", "\"wet-at-lever\":\"present\"", "\"worn-pads\""))
                .ground())
        .isEqualTo(Ground.SAME_CAUSE);
    Visit bare = visit("2026-03-02", "\"squeal\":\"present\",\"fluid-on-pads\":\"present\"", "");
    Relation soaked =
        relation(
            bare, visit("2026-03-20", "\"weak-braking\":\"present\"", "\"contaminated-pads\""));
    assertThat(soaked.ground()).isEqualTo(Ground.THERE_BEFORE);
    assertThat(soaked.chance()).isGreaterThan(0.9);
    Relation bent =
        relation(
            visit(
                "2026-03-02",
                "\"squeal\":\"present\",\"bent-rotor-seen\":\"absent\",\"rub-in-rhythm\":\"absent\"",
                "\"contaminated-pads\""),
            visit("2026-03-20", "\"squeal\":\"present\"", "\"bent-rotor\""));
    assertThat(bent.ground()).isEqualTo(Ground.NEW_FAULT);
    assertThat(bent.chance()).isLessThan(0.5);
  }

  @Test
  @DisplayName("is the likelier new the later it is")
  void growsLessLikely() {
    Visit soft = visit("2026-03-02", "\"spongy-lever\":\"present\"", "\"air-at-lever\"");
    List<Relation> later = new ArrayList<>();
    for (String day : List.of("2026-03-05", "2026-04-01", "2026-05-25")) {
      later.add(relation(soft, visit(day, "\"spongy-lever\":\"present\"", "\"worn-lever-seal\"")));
    }
    assertThat(later).extracting(Relation::chance).isSortedAccordingTo((a, b) -> b.compareTo(a));
    assertThat(later.get(0).ground()).isEqualTo(Ground.THERE_BEFORE);
  }

  @Test
  @DisplayName("is told as brought in where a fault found then brings it")
  void followsWhatOneFaultBrings() {
    Visit weeping =
        visit(
            "2026-03-02",
            "\"wet-at-caliper\":\"present\",\"fluid-on-pads\":\"absent\",\"squeal\":\"absent\"",
            "\"caliper-seal-weep\"");
    Visit soaked = visit("2026-04-10", "\"squeal\":\"present\"", "\"contaminated-pads\"");
    assertThat(relation(weeping, soaked).ground()).isEqualTo(Ground.BROUGHT_IN);
    Visit bent =
        visit(
            "2026-03-02",
            "\"rub-in-rhythm\":\"present\",\"fluid-on-pads\":\"absent\",\"squeal\":\"absent\"",
            "\"bent-rotor\"");
    assertThat(relation(bent, soaked).ground()).isEqualTo(Ground.NEW_FAULT);
  }

  @Test
  @DisplayName("is judged by the complaint where no cause or no finding is on record")
  void fallsBackToTheComplaint() {
    Visit soft = visit("2026-03-02", "\"spongy-lever\":\"present\"", "");
    assertThat(relation(soft, visit("2026-03-20", "\"long-throw\":\"present\"", "")))
        .isEqualTo(new Relation(Ground.SAME_COMPLAINT, Double.NaN));
    assertThat(relation(soft, visit("2026-03-20", "\"squeal\":\"present\"", "")).ground())
        .isEqualTo(Ground.OTHER_COMPLAINT);
    Visit silent = visit("2026-03-02", "", "");
    assertThat(
            relation(silent, visit("2026-03-20", "\"squeal\":\"present\"", "\"bent-rotor\""))
                .ground())
        .isEqualTo(Ground.SAME_COMPLAINT);
  }

  @Test
  @DisplayName("is told better than by the complaint, held against the depot's own truth")
  void isTrueOfTheDepot() {
    Map<String, List<Visit>> brakes = new TreeMap<>();
    Map<String, Depot.Why> truth = new TreeMap<>();
    new Depot(11)
        .writeWithTruth(
            1500,
            written -> {
              Visit visit = visit(written.line());
              brakes.computeIfAbsent(visit.file().brake().id(), b -> new ArrayList<>()).add(visit);
              truth.put(visit.file().id(), written.why());
            });
    Proportion carriedFound = Proportion.NONE;
    Proportion carriedByComplaint = Proportion.NONE;
    Proportion aroseTaken = Proportion.NONE;
    Proportion aroseByComplaint = Proportion.NONE;
    for (List<Visit> visits : brakes.values()) {
      for (int i = 0; i + 1 < visits.size(); i++) {
        Visit first = visits.get(i);
        Visit second = visits.get(i + 1);
        if (second.causes().isEmpty() || first.daysUntil(second) > 90) {
          continue;
        }
        CaseFile known = first.knownThen(visits.subList(0, i), VOCABULARY);
        Relation byCause = RELATEDNESS.of(first, Optional.of(DIAGNOSTICIAN.belief(known)), second);
        Proportion cause = new Proportion(byCause.related() ? 1 : 0, 1);
        Proportion complaint =
            new Proportion(first.relatedByComplaint(second).related() ? 1 : 0, 1);
        if (truth.get(second.file().id()) == Depot.Why.CARRIED_OVER) {
          carriedFound = carriedFound.plus(cause);
          carriedByComplaint = carriedByComplaint.plus(complaint);
        } else {
          aroseTaken = aroseTaken.plus(cause);
          aroseByComplaint = aroseByComplaint.plus(complaint);
        }
      }
    }
    assertThat(carriedFound.trials()).isGreaterThan(150);
    assertThat(aroseTaken.trials()).isGreaterThan(80);
    // Nearly all that a visit left behind is seen, and far fewer new faults are laid to it.
    assertThat(carriedFound.rate().getAsDouble()).isGreaterThan(0.85);
    assertThat(aroseTaken.rate().getAsDouble())
        .isLessThan(aroseByComplaint.rate().getAsDouble() - 0.15);
    assertThat(carriedFound.rate().getAsDouble())
        .isGreaterThan(carriedByComplaint.rate().getAsDouble() - 0.06);
  }
}
