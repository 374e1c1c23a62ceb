package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Readings;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.CaseFacts;
import firmlever.rulebase.Facts;
import firmlever.rulebase.WarrantyFacts;
import firmlever.rulebase.WarrantyFacts.Basis;
import firmlever.rulebase.WarrantyFacts.DoneBy;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyFacts.Ruling;
import firmlever.rulebase.WarrantyFacts.Shown;
import firmlever.rulebase.WarrantyFacts.Start;
import firmlever.rulebase.WarrantyFacts.Suspect;
import firmlever.warranty.Clause.Terms;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;

/** Turns case, diagnosis and policy into the facts that warranty rules match. */
final class ClaimFacts {
  private ClaimFacts() {}

  static List<Object> of(CaseFile file, BrakeModel model, Policy policy, List<Suspect> suspects) {
    List<Object> facts = new ArrayList<>(suspects);
    model.findings().forEach((id, known) -> facts.add(new Facts.Finding(id, known.present())));
    LocalDate day = Submitted.claimDay(file);
    file.brake().fitted().ifPresent(from -> facts.add(start(Basis.FITTED, from, day)));
    file.claim()
        .flatMap(Claim::purchased)
        .ifPresent(from -> facts.add(start(Basis.PURCHASED, from, day)));
    file.claim()
        .map(Claim::earlier)
        .filter(OptionalInt::isPresent)
        .ifPresent(earlier -> facts.add(new WarrantyFacts.Earlier(earlier.getAsInt())));
    if (!Double.isNaN(file.use().riderAndLoadKg())) {
      facts.add(new WarrantyFacts.Load(file.use().riderAndLoadKg()));
    }
    double fluidAge = CaseFacts.fluidAgeYears(file);
    if (!Double.isNaN(fluidAge)) {
      facts.add(new WarrantyFacts.FluidAge(fluidAge));
    }
    shown(file).forEach(evidence -> facts.add(new Shown(evidence)));
    file.history().forEach(entry -> facts.add(entry(entry, file, model, policy)));
    for (Suspect suspect : suspects) {
      for (Clause clause : policy.about(suspect.cause())) {
        facts.addAll(clause(clause, new Ruling(clause.id(), suspect.cause())));
      }
    }
    return facts;
  }

  private static Start start(Basis basis, LocalDate from, LocalDate day) {
    return new Start(basis, from, (int) ChronoUnit.MONTHS.between(from, day));
  }

  private static Object entry(Entry entry, CaseFile file, BrakeModel model, Policy policy) {
    DoneBy doneBy =
        entry.by().isEmpty()
            ? DoneBy.UNKNOWN
            : policy.technicians().contains(entry.by()) ? DoneBy.OWN : DoneBy.OTHER;
    int daysAgo = entry.daysAgo().orElse(0);
    boolean dated = entry.daysAgo().isPresent();
    boolean otherFamily = file.brake().fluid().clashesWith(entry.fluid());
    if (entry.work().isEmpty()) {
      return new WarrantyFacts.Happening(entry.event(), daysAgo, dated, doneBy, otherFamily);
    }
    return new WarrantyFacts.Repair(
        entry.work(),
        daysAgo,
        dated,
        doneBy,
        Facts.OPENINGS.contains(entry.work()),
        otherFamily,
        model.mends().containsKey(entry.work())
            ? Set.copyOf(model.mends().get(entry.work()).keySet())
            : Set.of());
  }

  /** What was handed in by reference, or stands in the case itself. */
  static Set<Missing> shown(CaseFile file) {
    Set<Missing> shown = EnumSet.noneOf(Missing.class);
    file.claim()
        .ifPresent(
            claim -> claim.evidence().keySet().forEach(kind -> shown.add(Further.missing(kind))));
    if (file.claim().flatMap(Claim::purchased).isPresent()) {
      shown.add(Missing.PURCHASE_DATE);
    }
    Set<String> checked = new HashSet<>();
    Set<String> present = new HashSet<>();
    file.symptoms()
        .forEach(
            (symptom, presence) -> {
              if (presence != CaseFile.Presence.NOT_CHECKED) {
                checked.add(symptom);
              }
              if (presence == CaseFile.Presence.PRESENT) {
                present.add(symptom);
              }
            });
    // A round that found a wet place names it; one that found none says so.
    if (checked.contains("leak-found")
        || present.stream().anyMatch(symptom -> symptom.startsWith("weep-"))) {
      shown.add(Missing.WIPE_PUMP_HOLD);
    }
    Readings r = file.readings();
    if (!Double.isNaN(r.moisturePercent())
        || !Double.isNaN(r.boilingPointC())
        || checked.contains("fluid-mismatch")
        || checked.contains("wet-fluid-test")) {
      shown.add(Missing.FLUID_TEST);
    }
    if (!r.padThicknessesMm().isEmpty()
        || !r.pistonAdvancesMm().isEmpty()
        || anyKnown(
            r.throwLightMm(),
            r.throwFirmMm(),
            r.throwAfterFiveMm(),
            r.creepMm(),
            r.moisturePercent(),
            r.boilingPointC(),
            r.rotorThicknessMm(),
            r.runOutMm(),
            r.levelDropMm())) {
      shown.add(Missing.READINGS);
    }
    return shown;
  }

  private static boolean anyKnown(double... readings) {
    for (double reading : readings) {
      if (!Double.isNaN(reading)) {
        return true;
      }
    }
    return false;
  }

  private static List<Object> clause(Clause clause, Ruling ruling) {
    Terms t = clause.terms();
    return switch (clause.kind()) {
      case CERTAINTY -> List.of(new WarrantyFacts.Certainty(ruling, t.probability(), t.firmness()));
      case EVIDENCE ->
          t.demands().stream()
              .map(demand -> (Object) new WarrantyFacts.Demand(ruling, demand))
              .toList();
      case PERIOD -> List.of(new WarrantyFacts.Period(ruling, t.basis(), t.months()));
      case WEAR -> List.of(new WarrantyFacts.Wear(ruling, t.basis(), t.fromMonth()));
      case WRONG_FLUID -> List.of(new WarrantyFacts.WrongFluid(ruling));
      case CRASH -> List.of(new WarrantyFacts.Crash(ruling, t.days()));
      case OPENED_BY_OTHERS -> List.of(new WarrantyFacts.OpenedByOthers(ruling, t.days()));
      case NEGLECT -> List.of(new WarrantyFacts.Neglect(ruling, t.years()));
      case BEYOND_DUTY -> List.of(new WarrantyFacts.BeyondDuty(ruling, t.mostKg()));
      case OWN_WORK -> List.of(new WarrantyFacts.OwnWork(ruling, t.works(), t.days()));
      case REPEAT_REPAIR -> List.of(new WarrantyFacts.RepeatRepair(ruling, t.days()));
      case GOODWILL ->
          List.of(
              new WarrantyFacts.Goodwill(
                  ruling, t.basis(), t.fromMonth(), t.untilMonth(), t.mostClaims()));
      case OTHERWISE -> List.of(new WarrantyFacts.Otherwise(ruling));
    };
  }
}
