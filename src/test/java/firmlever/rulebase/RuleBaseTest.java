package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Word;
import firmlever.casefile.CaseFile;
import firmlever.casefile.Fluid;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.rulebase.Facts.Finding;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.drools.modelcompiler.KieBaseBuilder;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kie.api.KieBase;
import org.kie.api.event.rule.BeforeMatchFiredEvent;
import org.kie.api.event.rule.DefaultAgendaEventListener;
import org.kie.api.runtime.KieSession;

@DisplayName("The rule base")
class RuleBaseTest {
  private static final List<CaseFile> CASES = Cases.all();

  @Test
  @DisplayName("gives every cause one frequency, something it shows and a work that mends it")
  void everyCauseIsWhole() {
    Set<String> withBase = new HashSet<>();
    Set<String> mended = new TreeSet<>();
    for (Fluid fluid : Fluid.values()) {
      for (String reservoir : List.of("diaphragm", "sealed", "unknown")) {
        // Two rules that both say how common a cause is are a fault, and would be thrown here.
        BrakeModel model = Cases.RULES.consult(Cases.plain(fluid.id(), reservoir));
        withBase.addAll(model.bases().keySet());
        for (String cause : model.bases().keySet()) {
          assertThat(model.links().getOrDefault(cause, Map.of()))
              .as("what %s shows in a brake for %s", cause, fluid.id())
              .isNotEmpty();
        }
        for (String action : model.mends().keySet()) {
          mended.addAll(model.mends().get(action).keySet());
        }
        assertThat(model.cautions()).as("cautions for %s", fluid.id()).contains("maker-first");
      }
    }
    Set<String> causes = Cases.VOCABULARY.causes().keySet();
    assertThat(withBase).containsExactlyInAnyOrderElementsOf(causes);
    assertThat(mended).containsExactlyInAnyOrderElementsOf(causes);
  }

  @Test
  @DisplayName("names for every action but handing the brake back a cause that it mends")
  void everyActionMends() {
    Set<String> mending = new TreeSet<>();
    for (CaseFile file : CASES) {
      mending.addAll(Cases.RULES.consult(file).mends().keySet());
    }
    Set<String> actions = new TreeSet<>(Cases.VOCABULARY.actions().keySet());
    assertThat(actions.remove("hand-back")).isTrue();
    assertThat(mending).isEqualTo(actions);
  }

  @Test
  @DisplayName("does not depend on the order in which facts come")
  void doesNotDependOnTheOrderOfFacts() {
    KieBase base = builtModel();
    Random random = new Random(81);
    for (CaseFile file : CASES) {
      String expected = spelled(Cases.RULES.consult(file));
      for (int round = 0; round < 3; round++) {
        assertThat(spelled(consultShuffled(base, file, random)))
            .as("%s, seed 81, round %d", file.id(), round)
            .isEqualTo(expected);
      }
    }
  }

  private static KieBase builtModel() {
    return KieBaseBuilder.createKieBaseFromModel(
        EngineRules.builtInModels(EngineRules.WARRANTY.negate()));
  }

  private static BrakeModel consultShuffled(KieBase base, CaseFile file, Random random) {
    List<Finding> recorded = new ArrayList<>(CaseFacts.recorded(file));
    Collections.shuffle(recorded, random);
    Collector collector =
        new Collector(Names.of(Cases.VOCABULARY), recorded, file.onlyTold(), file.hinted());
    List<Object> facts = new ArrayList<>(recorded);
    Optional<ThrowEstimate> throwEstimate = CaseBrake.throwEstimate(file);
    facts.addAll(CaseFacts.others(file, throwEstimate, Cases.VOCABULARY));
    facts.addAll(Names.kindFacts(Cases.VOCABULARY));
    Collections.shuffle(facts, random);
    KieSession session = base.newKieSession();
    try {
      session.addEventListener(
          new DefaultAgendaEventListener() {
            @Override
            public void beforeMatchFired(BeforeMatchFiredEvent event) {
              var rule = event.getMatch().getRule();
              collector.enter(rule.getName(), EngineRules.source(rule));
            }
          });
      session.setGlobal("model", collector);
      facts.forEach(session::insert);
      session.getAgenda().getAgendaGroup("readings").setFocus();
      session.fireAllRules();
    } finally {
      session.dispose();
    }
    return collector.model(throwEstimate);
  }

  @Test
  @DisplayName("says the same in parallel as one case after the other")
  void saysTheSameInParallel() {
    List<String> one = CASES.stream().map(file -> spelled(Cases.RULES.consult(file))).toList();
    List<Integer> order = new ArrayList<>();
    for (int twice = 0; twice < 2; twice++) {
      for (int i = 0; i < CASES.size(); i++) {
        order.add(i);
      }
    }
    Collections.shuffle(order, new Random(82));
    order.parallelStream()
        .forEach(
            i ->
                assertThat(spelled(Cases.RULES.consult(CASES.get(i))))
                    .as(CASES.get(i).id())
                    .isEqualTo(one.get(i)));
  }

  @Test
  @DisplayName("says the same when its texts are compiled at start")
  void saysTheSameCompiledAtStart() throws IOException {
    RuleBase compiled = CompiledAtStart.ruleBase(Cases.VOCABULARY, RuleTexts.FOLDER);
    assertThat(compiled.rules()).isEqualTo(Cases.RULES.rules());
    for (CaseFile file : CASES) {
      assertThat(spelled(compiled.consult(file)))
          .as(file.id())
          .isEqualTo(spelled(Cases.RULES.consult(file)));
    }
  }

  /** Everything a model holds, spelled so that equal models have equal spellings. */
  private static String spelled(BrakeModel m) {
    Map<String, Map<String, Word>> mends = new TreeMap<>();
    m.mends().forEach((action, causes) -> mends.put(action, new TreeMap<>(causes)));
    Map<String, Map<String, BrakeModel.Link>> links = new TreeMap<>();
    m.links().forEach((cause, shown) -> links.put(cause, new TreeMap<>(shown)));
    return List.of(
            m.network().causes(),
            Arrays.toString(m.network().priorLogOdds()),
            m.network().symptoms(),
            Arrays.toString(m.network().background()),
            Arrays.deepToString(m.network().strength()),
            m.observations(),
            m.findings(),
            m.bases(),
            m.factors(),
            links,
            m.impossible(),
            m.hazards(),
            m.unlooked(),
            m.cautions(),
            new TreeMap<>(m.cautionsByStep()),
            m.contradictions(),
            mends,
            m.holds(),
            new TreeSet<>(m.fired()))
        .stream()
        .map(Object::toString)
        .collect(Collectors.joining("\n"));
  }

  /**
   * Wet equilibrium reflux boiling points, the least each grade must keep: 49 CFR 571.116 S5.1.2:
   * DOT 3 140 °C, DOT 4 155 °C, DOT 5 grade 180 °C. DOT 5.1 has no row of its own and is held to
   * the DOT 5 grade; an unnamed DOT is measured as DOT 4 (common practice).
   */
  @ParameterizedTest(name = "finds {0} wet below {1} °C and dry above")
  @CsvSource({"dot-3, 140", "dot-4, 155", "dot-5.1, 180", "dot-5, 180", "dot, 155"})
  void finds49Cfr571116WetLimits(String fluid, int limit) {
    Known below = boiling(fluid, limit - 6);
    assertThat(below.present()).isTrue();
    assertThat(below.said().source()).isEqualTo("49 CFR 571.116 S5.1.2");
    assertThat(below.said().why()).contains(limit + " °C");
    assertThat(boiling(fluid, limit + 6).present()).isFalse();
    // A boiling tester errs by 3 °C: two standard errors below the limit, 0.97725 (normal tables).
    assertThat(below.ifPresent()).isCloseTo(0.97725, within(1e-5));
    assertThat(boiling(fluid, limit).ifPresent()).isCloseTo(0.5, within(1e-7));
    assertThat(boiling(fluid, limit - 20).ifPresent()).as("far below is sure").isEqualTo(1);
    assertThat(boiling(fluid, limit + 20).ifPresent()).as("far above is sure").isZero();
  }

  private static Known boiling(String fluid, int celsius) {
    return Cases.RULES
        .consult(
            Cases.of(
                "'brake':{'id':'B-0417-rear','fluid':'%s'},'readings':{'boiling-point':'%d °C'}"
                    .formatted(fluid, celsius)))
        .findings()
        .get("wet-fluid-test");
  }

  @ParameterizedTest(name = "measures the boiling point of {0} against no limit")
  @ValueSource(strings = {"mineral-oil", "other-oil", "unknown"})
  void measuresOilsAgainstNoLimit(String fluid) {
    BrakeModel model =
        Cases.RULES.consult(
            Cases.of(
                "'brake':{'id':'B-0417-rear','fluid':'%s'},'readings':{'boiling-point':'100 °C'}"
                    .formatted(fluid)));
    assertThat(model.findings()).doesNotContainKey("wet-fluid-test");
  }

  @Test
  @DisplayName("leaves one rule out where told to, and no other")
  void leavesARuleOut() {
    CaseFile file = Cases.plain("dot-4", "diaphragm");
    BrakeModel whole = Cases.RULES.consult(file);
    assertThat(whole.bases()).containsKey("wet-fluid");
    String rule = whole.bases().get("wet-fluid").said().rule();
    BrakeModel without = Cases.RULES.consult(file, Set.of(rule));
    assertThat(without.bases()).doesNotContainKey("wet-fluid").hasSize(whole.bases().size() - 1);
    assertThat(without.fired()).hasSize(whole.fired().size() - 1);
  }
}
