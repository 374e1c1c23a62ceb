package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import firmlever.rulebase.text.Constraint;
import firmlever.rulebase.text.RuleFault;
import firmlever.rulebase.text.RuleReader;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Kind;
import firmlever.rulebase.text.RuleText.Statement;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A rule file read as text")
class RuleReaderTest {
  private static final String FILE =
      """
      package firmlever.rules.causes

      import firmlever.rulebase.Facts.*
      global Model model

      rule "worn-pads: one"
          @source("from memory")
      when
          $job : Job( ( bleed || parts contains "pads" ), daysAgo <= 14 )
          not Finding( symptom in ( "drag", "squeal" ), present )
          exists Use( ambientC < -5 )
      then
          model.raise( "worn-pads", 1.5, "it was done " + $job.when()
              + ", and so on" ); // model.lower( "worn-pads", 0.5, "not said" )
          model.shows( "worn-pads", EXPECTED, "drag", "squeal" );
      end

      rule "worn-pads: two"
          @source("common practice")
      when
          $sign : Finding( symptom in ( "drag", "squeal" ), present )
          Job( work matches "full.*" )
      then
          insert( model.found( "grinding", true, "a (bracket) and a, comma" ) );
          model.stopRide( $sign.symptom(), "so it is" );
      end
      """;

  private static final List<RuleText> RULES = RuleReader.read("rules/causes/worn-pads.drl", FILE);

  @Test
  @DisplayName("tells name, place, source and what the rule says, reasons put together")
  void readsStatements() {
    RuleText one = RULES.get(0);
    assertThat(one.name()).isEqualTo("worn-pads: one");
    assertThat(one.line()).isEqualTo(6);
    assertThat(one.source()).isEqualTo("from memory");
    assertThat(one.statements())
        .startsWith(
            new Statement(
                "raise", List.of("worn-pads", "1.5", "it was done $job.when(), and so on")))
        .contains(new Statement("shows", List.of("worn-pads", "EXPECTED", "drag", "squeal")));
    assertThat(RULES.get(1).statements())
        .containsExactly(
            new Statement("found", List.of("grinding", "true", "a (bracket) and a, comma")),
            new Statement("stopRide", List.of("$sign.symptom()", "so it is")));
  }

  @Test
  @DisplayName("takes no statement out of a comment")
  void commentsSayNothing() {
    assertThat(RULES.get(0).statements()).extracting(Statement::verb).doesNotContain("lower");
  }

  @Test
  @DisplayName("tells the conditions, and what it cannot read as it is written")
  void readsConditions() {
    RuleText one = RULES.get(0);
    assertThat(one.conditions())
        .extracting(RuleText.Condition::kind)
        .containsExactly(Kind.EACH, Kind.NOT, Kind.EXISTS);
    assertThat(one.conditions().get(0).constraints().get(0)).isInstanceOf(Constraint.Any.class);
    assertThat(one.conditions().get(1).named("symptom")).containsExactly("drag", "squeal");
    assertThat(one.conditions().get(2).text()).isEqualTo("exists Use( ambientC < -5 )");
    assertThat(RULES.get(1).conditions().get(1).constraints())
        .containsExactly(new Constraint.Unread("work matches \"full.*\""));
    assertThat(RULES.get(1).ids("$sign.symptom()")).containsExactly("drag", "squeal");
  }

  @Test
  @DisplayName("is refused where it is no rule file")
  void refusesWhatIsNoRuleFile() {
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(() -> RuleReader.read("odd.drl", "rule \"a\" whenever"))
        .withMessageContaining("odd.drl");
    assertThatExceptionOfType(RuleFault.class)
        .isThrownBy(
            () -> RuleReader.read("odd.drl", "rule \"a: b\" when then model.raise( \"x\", end"))
        .withMessageContaining("a: b");
  }

  @Test
  @DisplayName(
      "of this build holds the rules of the engine with their sources, all of them readable")
  void readsTheBuild() {
    List<RuleText> texts = BuiltInRules.read();
    assertThat(texts)
        .extracting(text -> new RuleInfo(text.name(), text.packageName(), text.source()))
        .containsExactlyInAnyOrderElementsOf(Cases.RULES.rules());
    assertThat(texts)
        .allSatisfy(
            text -> {
              assertThat(text.statements()).as(text.name()).isNotEmpty();
              assertThat(text.conditions()).as(text.name()).isNotEmpty();
              assertThat(text.conditions().toString()).as(text.name()).doesNotContain("Unread[");
            });
  }

  @Test
  @DisplayName("tells as much as it makes the engine say: strengths and factors are the same")
  void agreesWithTheModel() {
    BrakeModel model = Cases.RULES.consult(Cases.plain("dot-4", "diaphragm"));
    Set<String> coarse = new HashSet<>();
    Cases.VOCABULARY.coarser().values().forEach(coarse::addAll);
    long links =
        BuiltInRules.read().stream()
            .filter(RuleText::always)
            .flatMap(rule -> rule.saying("shows"))
            .mapToLong(
                s -> {
                  // What shows a finer kind shows a coarse symptom too, whatever its rule says.
                  List<String> fine =
                      s.arguments().stream().skip(2).filter(id -> !coarse.contains(id)).toList();
                  fine.forEach(
                      symptom ->
                          assertThat(
                                  model
                                      .links()
                                      .get(s.arguments().get(0))
                                      .get(symptom)
                                      .word()
                                      .name())
                              .as(s.arguments().get(0) + " shows " + symptom)
                              .isEqualTo(s.arguments().get(1)));
                  return fine.size();
                })
            .sum();
    assertThat(links)
        .isEqualTo(
            model.links().values().stream()
                .flatMap(each -> each.keySet().stream())
                .filter(id -> !coarse.contains(id))
                .count());
  }
}
