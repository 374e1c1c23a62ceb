package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import firmlever.belief.Background;
import firmlever.belief.Odds;
import firmlever.belief.Word;
import firmlever.hydraulics.Normal;
import firmlever.rulebase.BrakeModel.Factor;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.Facts.Reading;
import firmlever.rulebase.text.RuleFault;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("What a rule says")
class CollectorTest {
  private static Collector speaking(String rule, Finding... recorded) {
    Collector collector =
        new Collector(Names.of(Cases.VOCABULARY), List.of(recorded), Set.of(), Set.of());
    collector.enter(rule, "from memory");
    return collector;
  }

  static Stream<Arguments> misspelt() {
    return Stream.of(
        wrong("possible", "worn-padz", m -> m.possible("worn-padz", 3)),
        wrong("impossible", "worn-padz", m -> m.impossible("worn-padz", "so")),
        wrong("raise", "worn-padz", m -> m.raise("worn-padz", 2, "so")),
        wrong("lower", "worn-padz", m -> m.lower("worn-padz", 0.5, "so")),
        wrong("shows, cause", "worn-padz", m -> m.shows("worn-padz", Word.CERTAIN, "drag")),
        wrong("shows, symptom", "dragg", m -> m.shows("worn-pads", Word.CERTAIN, "drag", "dragg")),
        wrong("background", "dragg", m -> m.background(Background.SELDOM, "dragg")),
        wrong("found", "dragg", m -> m.found("dragg", true, "so")),
        wrong("implied", "dragg", m -> m.implied("dragg", false, "so")),
        wrong("above", "dragg", m -> m.above("dragg", new Reading("creep", 3, 0.5), 2, "so")),
        wrong("below", "dragg", m -> m.below("dragg", new Reading("creep", 3, 0.5), 2, "so")),
        wrong("contradiction", "dragg", m -> m.contradiction("so", "drag", "dragg")),
        wrong("stopRide", "dragg", m -> m.stopRide("dragg", "so")),
        wrong("clearFirst", "dragg", m -> m.clearFirst("dragg", "so")),
        wrong("caution", "maker-furst", m -> m.caution("maker-furst")),
        wrong("cautionFor", "maker-furst", m -> m.cautionFor("maker-furst", "bleed")),
        wrong("cautionFor, action", "blead", m -> m.cautionFor("maker-first", "blead")),
        wrong("mends, action", "ful-bleed", m -> m.mends("ful-bleed", Word.PROBABLE, "worn-pads")),
        wrong("mends, cause", "worn-padz", m -> m.mends("full-bleed", Word.PROBABLE, "worn-padz")),
        wrong("triedInVain", "ful-bleed", m -> m.triedInVain("ful-bleed", "so")),
        wrong("mendFirst", "dragg", m -> m.mendFirst("dragg", "so", "bleed")),
        wrong("checkFirst", "dragg", m -> m.checkFirst("dragg", "so", "bleed")),
        wrong("doFirst", "ful-bleed", m -> m.doFirst("ful-bleed", "so", "bleed")),
        wrong("doFirst, action", "blead", m -> m.doFirst("close-port", "so", "blead")),
        wrong("forbid", "blead", m -> m.forbid("so", "blead")));
  }

  private static Arguments wrong(String statement, String id, Consumer<Model> saying) {
    return Arguments.of(statement, id, saying);
  }

  @ParameterizedTest(name = "with an unknown id is a fault that names rule and id: {0}")
  @MethodSource("misspelt")
  void unknownIdsNameTheRule(String statement, String id, Consumer<Model> saying) {
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> saying.accept(speaking("worn-pads: misspelt")))
        .satisfies(
            fault -> {
              assertThat(fault)
                  .hasMessageStartingWith("rule \"worn-pads: misspelt\": ")
                  .hasMessageContaining("\"" + id + "\"");
            });
  }

  @Test
  @DisplayName("with a misspelt id gets the nearest known one offered")
  void offersTheNearestId() {
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> speaking("worn-pads: shows").possible("worn-padz", 3))
        .withMessageContaining("\n    Maybe")
        .withMessageContaining("worn-pads");
  }

  @ParameterizedTest(name = "cannot raise by {0}, nor lower by {1}")
  @CsvSource({"1, 1", "0.5, 2", "0, 0", "-2, -0.5", "NaN, NaN"})
  void factorsMustPointTheirWay(double notAbove, double notBelow) {
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> speaking("a: b").raise("worn-pads", notAbove, "so"));
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> speaking("a: b").lower("worn-pads", notBelow, "so"));
  }

  @ParameterizedTest(name = "cannot be that {0} of 100 brakes have a cause")
  @CsvSource({"0", "-1", "100", "250", "NaN"})
  void frequenciesMustBeFrequencies(double per100) {
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> speaking("a: b").possible("worn-pads", per100));
  }

  @Test
  @DisplayName("about how common a cause is must not be said by another rule too")
  void twoRulesMustNotBothSayHowCommon() {
    Collector collector = speaking("worn-pads: how common");
    collector.possible("worn-pads", 7);
    collector.possible("worn-pads", 7);
    collector.enter("worn-pads: how common again", "from memory");
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> collector.possible("worn-pads", 8))
        .withMessageContaining("worn-pads: how common again and worn-pads: how common");
  }

  @Test
  @DisplayName("moves the odds once a rule and cause, by the strongest match")
  void oneRuleMovesACauseOnce() {
    Collector collector = speaking("worn-pads: how common");
    collector.possible("worn-pads", 7);
    collector.enter("worn-pads: age", "from memory");
    collector.raise("worn-pads", 2, "weak");
    collector.raise("worn-pads", 5, "strong");
    collector.raise("worn-pads", 3, "middling");
    collector.enter("worn-pads: fresh", "from memory");
    collector.lower("worn-pads", 0.1, "new pads");
    BrakeModel model = collector.model(Optional.empty());
    assertThat(model.factors()).extracting(Factor::times).containsExactlyInAnyOrder(5.0, 0.1);
    assertThat(model.network().priorLogOdds())
        .containsExactly(new double[] {Math.log(7.0 / 93 * 5 * 0.1)}, within(1e-12));
  }

  @Test
  @DisplayName("of a work in vain speaks against what it should have mended")
  void workInVainSpeaksAgainst() {
    Collector collector = speaking("x: y");
    collector.possible("air-at-lever", 6);
    collector.possible("worn-pads", 9);
    collector.mends("lever-end-bleed", Word.PROBABLE, "air-at-lever");
    collector.triedInVain("lever-end-bleed", "a bleed changed nothing");
    // One work in ten was not done as written down: 1 - 0.9 x 0.85.
    assertThat(collector.model(Optional.empty()).factors())
        .singleElement()
        .satisfies(
            factor -> {
              assertThat(factor.cause()).isEqualTo("air-at-lever");
              assertThat(factor.times()).isCloseTo(0.235, within(1e-12));
            });
  }

  @Test
  @DisplayName("never overrules what a person recorded, and the contradiction is named")
  void recordedFindingsStand() {
    Collector collector = speaking("drag: measured", new Finding("drag", false));
    assertThat(collector.found("drag", true, "it does")).isEqualTo(new Finding("drag", false));
    BrakeModel model = collector.model(Optional.empty());
    assertThat(model.findings().get("drag").recorded()).isTrue();
    assertThat(model.contradictions())
        .singleElement()
        .satisfies(c -> assertThat(c.symptoms()).containsExactly("drag"));
  }

  @Test
  @DisplayName("that only follows from other findings is known, but is no evidence")
  void impliedFindingsDoNotWeigh() {
    Collector collector = speaking("hard-lever: implied");
    collector.implied("hard-lever", false, "it is soft");
    collector.found("drag", true, "the record says so");
    BrakeModel model = collector.model(Optional.empty());
    assertThat(model.findings()).containsOnlyKeys("hard-lever", "drag");
    assertThat(model.observations())
        .singleElement()
        .satisfies(
            seen -> assertThat(model.network().symptoms().get(seen.symptom())).isEqualTo("drag"));
  }

  @Test
  @DisplayName("of an impossible cause takes it out of the network, whatever raises it")
  void impossibleCausesAreOut() {
    Collector collector = speaking("wet-fluid: oil");
    collector.possible("wet-fluid", 4);
    collector.possible("worn-pads", 9);
    collector.raise("wet-fluid", 60, "old");
    collector.impossible("wet-fluid", "oil takes up no water");
    BrakeModel model = collector.model(Optional.empty());
    assertThat(model.network().causes()).containsExactly("worn-pads");
    assertThat(model.bases()).containsOnlyKeys("worn-pads");
    assertThat(model.factors()).isEmpty();
    assertThat(model.impossible()).containsOnlyKeys("wet-fluid");
    assertThat(model.network().priorLogOdds())
        .containsExactly(new double[] {Odds.log(0.09)}, within(1e-12));
  }

  @Test
  @DisplayName("about a link takes the stronger word, and of two alike the first rule by name")
  void strongestLinkStands() {
    for (List<String> order : List.of(List.of("b", "a"), List.of("a", "b"))) {
      Collector collector = speaking("c");
      collector.shows("worn-pads", Word.IMPROBABLE, "drag", "squeal");
      for (String rule : order) {
        collector.enter(rule, "from memory");
        collector.shows("worn-pads", Word.EXPECTED, "drag");
      }
      Map<String, BrakeModel.Link> links =
          collector.model(Optional.empty()).links().get("worn-pads");
      assertThat(links.get("drag").word()).isEqualTo(Word.EXPECTED);
      assertThat(links.get("drag").said().rule()).isEqualTo("a");
      assertThat(links.get("squeal").word()).isEqualTo(Word.IMPROBABLE);
    }
  }

  /** Standard normal table (Abramowitz and Stegun, table 26.1; from memory). */
  @ParameterizedTest(name = "the chance below {0} standard errors is {1}")
  @CsvSource({
    "0, 0.5",
    "1, 0.8413447",
    "-1, 0.1586553",
    "1.6448536, 0.95",
    "1.9599640, 0.975",
    "-2, 0.0227501",
    "3, 0.9986501",
    "-8, 0",
    "9, 1",
  })
  void normalChances(double z, double chance) {
    assertThat(Normal.below(z)).isCloseTo(chance, within(1.3e-7));
  }
}
