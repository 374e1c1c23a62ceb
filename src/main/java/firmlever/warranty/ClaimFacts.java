package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFormat;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.CaseFacts;
import firmlever.rulebase.Facts;
import firmlever.rulebase.warranty.WarrantyFacts;
import firmlever.rulebase.warranty.WarrantyFacts.Basis;
import firmlever.rulebase.warranty.WarrantyFacts.Brought;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyFacts.Ruling;
import firmlever.rulebase.warranty.WarrantyFacts.Shown;
import firmlever.rulebase.warranty.WarrantyFacts.Start;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Clause.Terms;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Turns case, diagnosis and policy into the facts that warranty rules match. */
final class ClaimFacts {
  private ClaimFacts() {}

  private static final double DAYS_A_YEAR = 365.25;

  /**
   * The facts for these causes.
   *
   * @param broughtBy for each cause the faults that may have brought it
   * @param byWrongFluid of the causes those that fluid of the other family in this brake brings
   */
  static List<Object> of(
      CaseFile file,
      BrakeModel model,
      Policy policy,
      Collection<String> causes,
      Map<String, List<Brought>> broughtBy,
      Set<String> byWrongFluid,
      Traces traces,
      Vocabulary vocabulary) {
    List<Object> facts = new ArrayList<>();
    model.findings().forEach((id, known) -> facts.add(new Facts.Finding(id, known.present())));
    Optional<Claim> claim = file.claim();
    Optional<LocalDate> arose = claim.flatMap(Claim::arose);
    LocalDate last = Submitted.lastDay(file);
    file.brake().fitted().ifPresent(from -> facts.add(start(Basis.FITTED, from, arose, last)));
    claim
        .flatMap(Claim::purchased)
        .ifPresent(from -> facts.add(start(Basis.PURCHASED, from, arose, last)));
    claim
        .map(Claim::earlier)
        .filter(OptionalInt::isPresent)
        .ifPresent(earlier -> facts.add(new WarrantyFacts.Earlier(earlier.getAsInt())));
    if (!Double.isNaN(file.use().riderAndLoadKg())) {
      facts.add(new WarrantyFacts.Load(file.use().riderAndLoadKg()));
    }
    facts.add(fluidAge(file, vocabulary));
    shown(file).forEach(evidence -> facts.add(new Shown(evidence)));
    for (String cause : causes) {
      facts.addAll(traces.before(cause, byWrongFluid.contains(cause)));
      facts.addAll(broughtBy.getOrDefault(cause, List.of()));
      if (byWrongFluid.contains(cause)) {
        facts.add(new WarrantyFacts.ByWrongFluid(cause));
      }
      for (Clause clause : policy.about(cause)) {
        facts.addAll(clause(clause, new Ruling(clause.id(), cause)));
      }
    }
    return facts;
  }

  /** Where nobody told when the fault showed, it was on the last day possible or before. */
  private static Start start(
      Basis basis, LocalDate from, Optional<LocalDate> arose, LocalDate last) {
    int most = (int) ChronoUnit.MONTHS.between(from, arose.orElse(last));
    return new Start(basis, from, arose.isPresent() ? most : 0, most);
  }

  private static WarrantyFacts.FluidAge fluidAge(CaseFile file, Vocabulary vocabulary) {
    double years = CaseFacts.fluidAgeYears(file, vocabulary);
    boolean told = !Double.isNaN(years);
    Optional<LocalDate> bought = file.claim().flatMap(Claim::purchased);
    double own =
        bought
            .map(day -> Math.max(0, ChronoUnit.DAYS.between(day, file.opened())) / DAYS_A_YEAR)
            .orElse(0.0);
    return new WarrantyFacts.FluidAge(told, told ? years : 0, bought.isPresent(), own);
  }

  /** What was handed in: as a paper, or as a signed statement. Nothing else counts. */
  static Set<Missing> shown(CaseFile file) {
    Set<Missing> shown = EnumSet.noneOf(Missing.class);
    for (String kind : CaseFormat.EVIDENCE) {
      if (file.claim().filter(claim -> !claim.handedIn(kind).isEmpty()).isPresent()) {
        shown.add(Further.missing(kind));
      }
    }
    return shown;
  }

  private static List<Object> clause(Clause clause, Ruling ruling) {
    Terms t = clause.terms();
    return switch (clause.kind()) {
      case CERTAINTY, NOTHING_FOUND -> List.of();
      case EVIDENCE ->
          t.demands().stream()
              .map(demand -> (Object) new WarrantyFacts.Demand(ruling, demand))
              .toList();
      case PERIOD -> List.of(new WarrantyFacts.Period(ruling, t.basis(), t.months()));
      case WEAR -> List.of(new WarrantyFacts.Wear(ruling, t.basis(), t.fromMonth()));
      case WRONG_FLUID -> List.of(new WarrantyFacts.WrongFluid(ruling, t.byShop()));
      case CRASH -> List.of(new WarrantyFacts.Crash(ruling, t.days()));
      case OPENED_BY_OTHERS -> List.of(new WarrantyFacts.OpenedByOthers(ruling, t.days()));
      case NEGLECT -> List.of(new WarrantyFacts.Neglect(ruling, t.years()));
      case BEYOND_DUTY -> List.of(new WarrantyFacts.BeyondDuty(ruling, t.mostKg()));
      case OWN_WORK -> List.of(new WarrantyFacts.OwnWork(ruling, t.works(), t.days()));
      case REPEAT_REPAIR -> List.of(new WarrantyFacts.RepeatRepair(ruling, t.days()));
      case CONSEQUENCE -> List.of(new WarrantyFacts.Consequence(ruling));
      case GOODWILL ->
          List.of(
              new WarrantyFacts.Goodwill(
                  ruling, t.basis(), t.fromMonth(), t.untilMonth(), t.mostClaims()));
      case OTHERWISE -> List.of(new WarrantyFacts.Otherwise(ruling));
    };
  }
}
