package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.rulebase.RuleBase.RuleInfo;
import firmlever.rulebase.WarrantyFacts.Basis;
import firmlever.rulebase.WarrantyFacts.DoneBy;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyFacts.Ruling;
import firmlever.rulebase.WarrantyRules.Finding;
import firmlever.rulebase.WarrantyRules.State;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each clause before one cause: a fact that makes it hold, the near miss, and the missing fact. */
@DisplayName("The warranty rules")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class WarrantyRulesTest {
  private static final WarrantyRules RULES = WarrantyRules.builtIn();
  private static final Ruling R = new Ruling("9.9", "worn-lever-seal");

  /** What is put before the rules, and the one answer they must give. */
  record Example(State state, List<Missing> missing, List<Object> facts) {}

  private static Example holds(Object... facts) {
    return new Example(State.APPLIES, List.of(), List.of(facts));
  }

  private static Example asks(Missing missing, Object... facts) {
    return new Example(State.APPLIES, List.of(missing), List.of(facts));
  }

  private static Example open(Missing missing, Object... facts) {
    return new Example(State.OPEN, List.of(missing), List.of(facts));
  }

  private static Example fails(Object... facts) {
    return new Example(State.FAILS, List.of(), List.of(facts));
  }

  private static Object suspect(double probability, double firmness, boolean confirmed) {
    return new WarrantyFacts.Suspect(R.cause(), probability, firmness, confirmed);
  }

  private static Object bought(int months) {
    return new WarrantyFacts.Start(Basis.PURCHASED, LocalDate.of(2024, 3, 5), months);
  }

  private static Object job(String work, int daysAgo, boolean dated, DoneBy by, boolean other) {
    return new WarrantyFacts.Repair(work, daysAgo, dated, by, true, other, Set.of(R.cause()));
  }

  private static Object event(String event, int daysAgo, boolean dated, boolean other) {
    return new WarrantyFacts.Happening(event, daysAgo, dated, DoneBy.UNKNOWN, other);
  }

  private static Object shown(Missing evidence) {
    return new WarrantyFacts.Shown(evidence);
  }

  static List<Example> examples() {
    Object certainty = new WarrantyFacts.Certainty(R, 0.75, 0.8);
    Object photos = new WarrantyFacts.Demand(R, Missing.PHOTOS);
    Object period = new WarrantyFacts.Period(R, Basis.PURCHASED, 24);
    Object wear = new WarrantyFacts.Wear(R, Basis.PURCHASED, 6);
    Object fluid = new WarrantyFacts.WrongFluid(R);
    Object crash = new WarrantyFacts.Crash(R, 90);
    Object opened = new WarrantyFacts.OpenedByOthers(R, 365);
    Object neglect = new WarrantyFacts.Neglect(R, 2);
    Object duty = new WarrantyFacts.BeyondDuty(R, 160);
    Object own = new WarrantyFacts.OwnWork(R, Set.of("full-bleed"), 60);
    Object repeat = new WarrantyFacts.RepeatRepair(R, 45);
    Object goodwill = new WarrantyFacts.Goodwill(R, Basis.PURCHASED, 24, 36, 1);
    Object mismatch = new Facts.Finding("fluid-mismatch", true);
    return List.of(
        fails(certainty, suspect(0.1, 0.2, true)),
        asks(Missing.FINDINGS, certainty, suspect(0.74, 0.9, false)),
        asks(Missing.FINDINGS, certainty, suspect(0.75, 0.79, false)),
        fails(certainty, suspect(0.75, 0.8, false)),
        asks(Missing.PHOTOS, photos, shown(Missing.READINGS)),
        fails(photos, shown(Missing.PHOTOS)),
        holds(period, bought(23)),
        fails(period, bought(24)),
        open(Missing.PURCHASE_DATE, period),
        holds(new WarrantyFacts.Wear(R, Basis.PURCHASED, 0)),
        holds(wear, bought(6)),
        fails(wear, bought(5)),
        open(Missing.PURCHASE_DATE, wear),
        holds(fluid, job("top-up", 3, true, DoneBy.OTHER, true)),
        holds(fluid, event("home-serviced", 4, true, true)),
        open(Missing.WHO_DID_IT, fluid, job("top-up", 5, true, DoneBy.UNKNOWN, true)),
        open(Missing.WHO_DID_IT, fluid, mismatch),
        fails(fluid, job("top-up", 6, true, DoneBy.OWN, true), mismatch),
        fails(fluid, job("top-up", 7, true, DoneBy.OTHER, false)),
        holds(crash, event("crashed", 90, true, false)),
        fails(crash, event("fell-over", 91, true, false)),
        open(Missing.WHEN_IT_WAS, crash, event("fell-over", 0, false, false)),
        holds(opened, job("split-caliper", 365, true, DoneBy.OTHER, false)),
        holds(opened, event("home-serviced", 30, true, false)),
        fails(opened, job("split-caliper", 366, true, DoneBy.OTHER, false)),
        fails(opened, job("split-caliper", 2, true, DoneBy.OWN, false)),
        open(Missing.WHO_DID_IT, opened, job("split-caliper", 8, true, DoneBy.UNKNOWN, false)),
        open(Missing.WHEN_IT_WAS, opened, job("split-caliper", 0, false, DoneBy.OTHER, false)),
        open(Missing.WHEN_IT_WAS, opened, event("home-serviced", 0, false, false)),
        holds(neglect, new WarrantyFacts.FluidAge(2.5), shown(Missing.SERVICE_RECORD)),
        open(Missing.SERVICE_RECORD, neglect, new WarrantyFacts.FluidAge(2.6)),
        open(Missing.SERVICE_RECORD, neglect),
        fails(neglect, new WarrantyFacts.FluidAge(1.9), shown(Missing.SERVICE_RECORD)),
        holds(duty, new WarrantyFacts.Load(161)),
        fails(duty, new WarrantyFacts.Load(160)),
        open(Missing.LOAD, duty),
        holds(own, job("full-bleed", 60, true, DoneBy.OWN, false)),
        fails(own, job("full-bleed", 61, true, DoneBy.OWN, false)),
        fails(own, job("lever-end-bleed", 9, true, DoneBy.OWN, false)),
        open(Missing.WHO_DID_IT, own, job("full-bleed", 10, true, DoneBy.UNKNOWN, false)),
        open(Missing.WHEN_IT_WAS, own, job("full-bleed", 0, false, DoneBy.OWN, false)),
        holds(repeat, job("renew-lever-seals", 45, true, DoneBy.OWN, false)),
        fails(repeat, job("renew-lever-seals", 46, true, DoneBy.OWN, false)),
        open(Missing.WHO_DID_IT, repeat, job("replace-lever", 11, true, DoneBy.UNKNOWN, false)),
        open(Missing.WHEN_IT_WAS, repeat, job("replace-lever", 0, false, DoneBy.OWN, false)),
        holds(goodwill, bought(24), new WarrantyFacts.Earlier(1)),
        fails(goodwill, bought(36), new WarrantyFacts.Earlier(0)),
        fails(goodwill, bought(25), new WarrantyFacts.Earlier(2)),
        open(Missing.EARLIER_CLAIMS, goodwill, bought(26)),
        open(Missing.PURCHASE_DATE, goodwill, new WarrantyFacts.Earlier(0)),
        holds(new WarrantyFacts.Otherwise(R)));
  }

  @ParameterizedTest
  @MethodSource("examples")
  @DisplayName("find for each clause whether it holds, and what is missing where nobody knows")
  void findWhetherAClauseHolds(Example example) {
    List<Finding> findings = RULES.consult(example.facts());
    assertThat(findings).hasSize(1);
    Finding finding = findings.get(0);
    assertThat(finding.ruling()).isEqualTo(R);
    assertThat(finding.state()).isEqualTo(example.state());
    assertThat(finding.missing()).isEqualTo(example.missing());
    assertThat(finding.why()).isNotEmpty();
    List<Object> backwards = new ArrayList<>(example.facts());
    java.util.Collections.reverse(backwards);
    assertThat(RULES.consult(backwards)).as("facts in another order").isEqualTo(findings);
  }

  @Test
  @DisplayName("each speak in one of the examples, and none of them in triage")
  void eachSpeaks() {
    Set<String> spoke = new TreeSet<>();
    examples().forEach(e -> RULES.consult(e.facts()).forEach(f -> spoke.addAll(f.rules())));
    Set<String> names = new TreeSet<>();
    RULES.rules().stream().map(RuleInfo::name).forEach(names::add);
    assertThat(spoke).isEqualTo(names).hasSizeGreaterThan(45);
    assertThat(Cases.RULES.rules()).extracting(RuleInfo::name).doesNotContainAnyElementsOf(names);
  }
}
