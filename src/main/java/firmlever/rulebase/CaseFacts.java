package firmlever.rulebase;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFile.Readings;
import firmlever.hydraulics.SoftFinding;
import firmlever.hydraulics.SoundThrow;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.hydraulics.ThrowEstimate.Meaning;
import firmlever.rulebase.Facts.Brake;
import firmlever.rulebase.Facts.Estimate;
import firmlever.rulebase.Facts.Event;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.Facts.GasOrGive;
import firmlever.rulebase.Facts.History;
import firmlever.rulebase.Facts.Job;
import firmlever.rulebase.Facts.MakerFigure;
import firmlever.rulebase.Facts.Reading;
import firmlever.rulebase.Facts.SoundBrake;
import firmlever.rulebase.Facts.Use;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Does;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Turns a case file into facts. */
public final class CaseFacts {
  private CaseFacts() {}

  /**
   * What is told without a date was told because it seemed to matter: it counts as a month ago
   * (from memory).
   */
  static final int UNDATED = 30;

  /**
   * Standard errors of readings (common practice, from memory): a rule at the lever tip 1 mm
   * between two people, so half of it; a caliper gauge 0.05 mm; a dial gauge 0.03 mm; a micrometer
   * 0.02 mm; a moisture pen 0.3 %; a boiling tester 3 °C.
   */
  private static final double RULE_MM = 0.5;

  private static final double CALIPER_GAUGE_MM = 0.05;
  private static final double DIAL_GAUGE_MM = 0.03;
  private static final double MICROMETER_MM = 0.02;
  private static final double MOISTURE_PEN_PERCENT = 0.3;
  private static final double BOILING_TESTER_C = 3;

  static List<Finding> recorded(CaseFile file) {
    List<Finding> findings = new ArrayList<>();
    file.symptoms()
        .forEach(
            (symptom, presence) -> {
              if (presence != Presence.NOT_CHECKED) {
                findings.add(new Finding(symptom, presence == Presence.PRESENT));
              }
            });
    return findings;
  }

  /** All facts of the case except the recorded findings; of the throws what was made of them. */
  public static List<Object> others(
      CaseFile file, Optional<ThrowEstimate> throwEstimate, Vocabulary vocabulary) {
    List<Object> facts = new ArrayList<>();
    CaseFile.Brake brake = file.brake();
    double ageYears = ageYears(file);
    facts.add(
        new Brake(
            brake.position(),
            brake.fluid(),
            brake.reservoir(),
            ageYears,
            brake.caliperPistons(),
            brake.hoseLengthMm(),
            brake.rotorDiameterMm()));
    facts.add(new Use(file.use().ambientC(), file.use().riderAndLoadKg(), file.use().altitudeM()));
    brake.makerFigures().forEach((figure, value) -> facts.add(new MakerFigure(figure, value)));
    addReadings(facts, file.readings());
    throwEstimate.ifPresent(estimate -> facts.add(soundBrake(estimate.sound())));
    throwEstimate
        .filter(ThrowEstimate::fits)
        .ifPresent(
            estimate -> {
              addEstimates(facts, estimate.findings());
              boolean told =
                  estimate.meaning() == Meaning.GAS || estimate.meaning() == Meaning.GIVE;
              facts.add(new GasOrGive(told ? estimate.timesGas() : 1));
            });
    addHistory(facts, file, vocabulary);
    return facts;
  }

  private static double ageYears(CaseFile file) {
    return file.brake()
        .fitted()
        .map(day -> ChronoUnit.DAYS.between(day, file.opened()) / 365.25)
        .orElse(Double.NaN);
  }

  /** Years since the fluid is known to have been fresh, or NaN. */
  public static double fluidAgeYears(CaseFile file, Vocabulary vocabulary) {
    Set<String> renewing = vocabulary.worksThat(Does.RENEWS);
    double age = ageYears(file);
    for (Entry entry : file.history()) {
      if (renewing.contains(entry.work())) {
        double years = entry.daysAgo().orElse(UNDATED) / 365.25;
        age = Double.isNaN(age) ? years : Math.min(age, years);
      }
    }
    return age;
  }

  private static void addReadings(List<Object> facts, Readings r) {
    add(facts, "throw-light", r.throwLightMm(), RULE_MM);
    add(facts, "throw-firm", r.throwFirmMm(), RULE_MM);
    add(facts, "throw-after-five", r.throwAfterFiveMm(), RULE_MM);
    add(facts, "gained-by-pumping", r.throwFirmMm() - r.throwAfterFiveMm(), RULE_MM);
    add(facts, "creep", r.creepMm(), RULE_MM);
    add(facts, "moisture", r.moisturePercent(), MOISTURE_PEN_PERCENT);
    add(facts, "boiling-point", r.boilingPointC(), BOILING_TESTER_C);
    add(facts, "rotor-thickness", r.rotorThicknessMm(), MICROMETER_MM);
    add(facts, "run-out", r.runOutMm(), DIAL_GAUGE_MM);
    add(facts, "level-drop", r.levelDropMm(), RULE_MM);
    if (!r.padThicknessesMm().isEmpty()) {
      double least = Collections.min(r.padThicknessesMm());
      add(facts, "pad-thickness", least, CALIPER_GAUGE_MM);
      if (r.padThicknessesMm().size() > 1) {
        double most = Collections.max(r.padThicknessesMm());
        add(facts, "pad-difference", most - least, CALIPER_GAUGE_MM);
      }
    }
    if (!r.pistonAdvancesMm().isEmpty()) {
      double least = Collections.min(r.pistonAdvancesMm());
      double most = Collections.max(r.pistonAdvancesMm());
      add(facts, "piston-advance", least, CALIPER_GAUGE_MM);
      if (r.pistonAdvancesMm().size() > 1 && most > 0) {
        add(facts, "piston-advance-share", least / most, CALIPER_GAUGE_MM / most);
      }
    }
  }

  private static SoundBrake soundBrake(SoundThrow sound) {
    return new SoundBrake(sound.mm().low(), sound.mm().best(), sound.mm().high(), sound.forceN());
  }

  private static void addEstimates(List<Object> facts, List<SoftFinding> findings) {
    for (SoftFinding f : findings) {
      facts.add(new Estimate(f.symptom(), f.ifPresent(), f.limit(), f.unit()));
    }
  }

  private static void add(List<Object> facts, String reading, double value, double error) {
    if (!Double.isNaN(value)) {
      facts.add(new Reading(reading, value, error));
    }
  }

  private static void addHistory(List<Object> facts, CaseFile file, Vocabulary vocabulary) {
    List<Entry> entries = file.history();
    int newest = Integer.MAX_VALUE;
    for (Entry entry : entries) {
      if (!entry.work().isEmpty()) {
        newest = Math.min(newest, entry.daysAgo().orElse(UNDATED));
      }
    }
    List<Job> jobs = new ArrayList<>();
    List<Event> events = new ArrayList<>();
    for (Entry entry : entries) {
      int daysAgo = entry.daysAgo().orElse(UNDATED);
      boolean dated = entry.daysAgo().isPresent();
      if (entry.work().isEmpty()) {
        events.add(new Event(entry.event(), daysAgo, dated, entry.circumstances()));
      } else {
        jobs.add(
            new Job(
                entry.work(),
                daysAgo,
                dated,
                entry.fluid(),
                !Double.isNaN(entry.torqueNm()),
                daysAgo == newest,
                entry.outcome(),
                entry.circumstances(),
                Set.copyOf(entry.parts()),
                entry.by().equals(CaseFile.Entry.OWNER),
                vocabulary.doneBy(entry.work())));
      }
    }
    facts.addAll(jobs);
    facts.addAll(events);
    facts.add(new History(List.copyOf(jobs), List.copyOf(events), fluidAgeYears(file, vocabulary)));
  }
}
