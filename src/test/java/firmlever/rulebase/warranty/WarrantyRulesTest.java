package firmlever.rulebase.warranty;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.rulebase.Cases;
import firmlever.rulebase.Facts;
import firmlever.rulebase.RuleInfo;
import firmlever.rulebase.warranty.WarrantyFacts.Basis;
import firmlever.rulebase.warranty.WarrantyFacts.DoneBy;
import firmlever.rulebase.warranty.WarrantyFacts.Link;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyFacts.Ruling;
import firmlever.rulebase.warranty.WarrantyFacts.Trace;
import firmlever.rulebase.warranty.WarrantyRules.Finding;
import firmlever.rulebase.warranty.WarrantyRules.State;
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

  private static Object bought(int months) {
    return bought(months, months);
  }

  private static Object bought(int least, int most) {
    return new WarrantyFacts.Start(Basis.PURCHASED, LocalDate.of(2024, 3, 5), least, most);
  }

  private static final Link BROUGHT = Link.BROUGHT;
  private static final Link PERHAPS = Link.PERHAPS;

  /** An entry of the record that opened the brake. */
  private static Object job(String work, int days, boolean dated, DoneBy by, Link link) {
    return new Trace(
        R.cause(), work, days, dated, by, false, true, false, false, true, true, link, dated);
  }

  private static Object fluidJob(DoneBy by, boolean first, Link link, boolean orderTold) {
    return fluidJob(by, first, true, link, orderTold);
  }

  private static Object fluidJob(
      DoneBy by, boolean first, boolean firstTold, Link link, boolean orderTold) {
    return new Trace(
        R.cause(), "top-up", 3, true, by, false, true, true, first, firstTold, false, link,
        orderTold);
  }

  private static Object fall(int days, boolean dated, Link link, boolean orderTold) {
    return new Trace(
        R.cause(),
        "crashed",
        days,
        dated,
        DoneBy.UNKNOWN,
        true,
        false,
        false,
        false,
        true,
        false,
        link,
        orderTold);
  }

  private static Object shown(Missing evidence) {
    return new WarrantyFacts.Shown(evidence);
  }

  private static Object fluid(double years, double own) {
    return new WarrantyFacts.FluidAge(true, years, true, own);
  }

  static List<Example> examples() {
    Object photos = new WarrantyFacts.Demand(R, Missing.PHOTOS);
    Object period = new WarrantyFacts.Period(R, Basis.PURCHASED, 24);
    Object wear = new WarrantyFacts.Wear(R, Basis.PURCHASED, 6);
    Object others = new WarrantyFacts.WrongFluid(R, false);
    Object ours = new WarrantyFacts.WrongFluid(R, true);
    Object brings = new WarrantyFacts.ByWrongFluid(R.cause());
    Object crash = new WarrantyFacts.Crash(R, 90);
    Object opened = new WarrantyFacts.OpenedByOthers(R, 365);
    Object neglect = new WarrantyFacts.Neglect(R, 2);
    Object duty = new WarrantyFacts.BeyondDuty(R, 160);
    Object own = new WarrantyFacts.OwnWork(R, Set.of("full-bleed"), 60);
    Object repeat = new WarrantyFacts.RepeatRepair(R, 45);
    Object follows = new WarrantyFacts.Consequence(R);
    Object goodwill = new WarrantyFacts.Goodwill(R, Basis.PURCHASED, 24, 36, 1);
    Object mismatch = new Facts.Finding("fluid-mismatch", true);
    return List.of(
        asks(Missing.PHOTOS, photos, shown(Missing.READINGS)),
        fails(photos, shown(Missing.PHOTOS)),
        holds(period, bought(23)),
        fails(period, bought(24)),
        holds(period, bought(0, 23)),
        open(Missing.AROSE, period, bought(0, 24)),
        open(Missing.PURCHASE_DATE, period),
        holds(new WarrantyFacts.Wear(R, Basis.PURCHASED, 0)),
        holds(wear, bought(6)),
        fails(wear, bought(5)),
        open(Missing.AROSE, wear, bought(0, 6)),
        open(Missing.PURCHASE_DATE, wear),
        holds(others, fluidJob(DoneBy.OTHER, true, BROUGHT, true), brings, mismatch),
        fails(
            others,
            fluidJob(DoneBy.OTHER, false, BROUGHT, true),
            fluidJob(DoneBy.OWN, true, BROUGHT, true),
            brings,
            mismatch),
        holds(
            ours,
            fluidJob(DoneBy.OTHER, false, BROUGHT, true),
            fluidJob(DoneBy.OWN, true, BROUGHT, true),
            brings,
            mismatch),
        fails(ours, fluidJob(DoneBy.OTHER, true, BROUGHT, true), brings),
        open(Missing.AROSE, others, fluidJob(DoneBy.OTHER, true, BROUGHT, false), brings),
        open(Missing.ORIGIN, others, fluidJob(DoneBy.OTHER, true, PERHAPS, true)),
        open(Missing.WHICH_FLUID, others, fluidJob(DoneBy.OTHER, true, false, BROUGHT, true)),
        open(Missing.AROSE, ours, fluidJob(DoneBy.OWN, true, BROUGHT, false), brings),
        fails(others, fluidJob(DoneBy.OWN, true, BROUGHT, false), brings),
        open(Missing.WHO_DID_IT, others, fluidJob(DoneBy.UNKNOWN, true, BROUGHT, true)),
        open(Missing.WHO_DID_IT, others, mismatch, brings),
        fails(others, mismatch),
        fails(others, brings),
        fails(others, fluidJob(DoneBy.OTHER, true, Link.LATER, true), mismatch, brings),
        fails(others, fluidJob(DoneBy.OTHER, true, Link.UNLIKELY, true)),
        holds(crash, fall(90, true, BROUGHT, true)),
        fails(crash, fall(91, true, BROUGHT, true)),
        fails(crash, fall(4, true, Link.LATER, true)),
        fails(crash, fall(4, true, Link.UNLIKELY, true)),
        fails(crash, fall(4, true, Link.MADE_SO, true)),
        open(Missing.ORIGIN, crash, fall(4, true, PERHAPS, true)),
        open(Missing.AROSE, crash, fall(4, true, BROUGHT, false)),
        open(Missing.WHEN_IT_WAS, crash, fall(0, false, BROUGHT, false)),
        holds(opened, job("split-caliper", 365, true, DoneBy.OTHER, BROUGHT)),
        fails(opened, job("split-caliper", 366, true, DoneBy.OTHER, BROUGHT)),
        fails(opened, job("split-caliper", 2, true, DoneBy.OWN, BROUGHT)),
        fails(opened, job("split-caliper", 2, true, DoneBy.OTHER, Link.UNLIKELY)),
        open(Missing.ORIGIN, opened, job("split-caliper", 2, true, DoneBy.OTHER, PERHAPS)),
        open(Missing.WHO_DID_IT, opened, job("split-caliper", 8, true, DoneBy.UNKNOWN, BROUGHT)),
        open(Missing.WHEN_IT_WAS, opened, job("split-caliper", 0, false, DoneBy.OTHER, BROUGHT)),
        holds(neglect, fluid(2.5, 2.5), shown(Missing.SERVICE_RECORD)),
        open(Missing.SERVICE_RECORD, neglect, fluid(2.6, 2.6)),
        open(Missing.PURCHASE_DATE, neglect, new WarrantyFacts.FluidAge(true, 2.7, false, 0)),
        open(Missing.SERVICE_RECORD, neglect, new WarrantyFacts.FluidAge(false, 0, false, 0)),
        fails(neglect, fluid(1.9, 3), shown(Missing.SERVICE_RECORD)),
        fails(neglect, fluid(2.9, 0.02), shown(Missing.SERVICE_RECORD)),
        holds(duty, new WarrantyFacts.Load(161)),
        fails(duty, new WarrantyFacts.Load(160)),
        open(Missing.LOAD, duty),
        holds(own, job("full-bleed", 60, true, DoneBy.OWN, Link.UNLIKELY)),
        fails(own, job("full-bleed", 61, true, DoneBy.OWN, BROUGHT)),
        fails(own, job("lever-end-bleed", 9, true, DoneBy.OWN, BROUGHT)),
        fails(own, job("full-bleed", 9, true, DoneBy.OWN, Link.OVERTAKEN)),
        open(Missing.WHO_DID_IT, own, job("full-bleed", 10, true, DoneBy.UNKNOWN, BROUGHT)),
        open(Missing.WHEN_IT_WAS, own, job("full-bleed", 0, false, DoneBy.OWN, BROUGHT)),
        holds(repeat, job("renew-lever-seals", 45, true, DoneBy.OWN, Link.UNLIKELY)),
        fails(repeat, job("renew-lever-seals", 46, true, DoneBy.OWN, BROUGHT)),
        fails(repeat, job("renew-lever-seals", 9, true, DoneBy.OWN, Link.OVERTAKEN)),
        open(Missing.WHO_DID_IT, repeat, job("replace-lever", 11, true, DoneBy.UNKNOWN, BROUGHT)),
        open(Missing.WHEN_IT_WAS, repeat, job("replace-lever", 0, false, DoneBy.OWN, BROUGHT)),
        holds(follows, new WarrantyFacts.Brought(R.cause(), "wrong-fluid", 0.9, true)),
        open(
            Missing.FINDINGS,
            follows,
            new WarrantyFacts.Brought(R.cause(), "wrong-fluid", 0.5, false)),
        fails(follows, new WarrantyFacts.Brought("worn-pads", "wrong-fluid", 0.9, true)),
        holds(goodwill, bought(24), new WarrantyFacts.Earlier(1)),
        fails(goodwill, bought(36), new WarrantyFacts.Earlier(0)),
        fails(goodwill, bought(23), new WarrantyFacts.Earlier(0)),
        fails(goodwill, bought(25), new WarrantyFacts.Earlier(2)),
        open(Missing.EARLIER_CLAIMS, goodwill, bought(26)),
        open(Missing.AROSE, goodwill, bought(0, 26), new WarrantyFacts.Earlier(0)),
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
