package firmlever.casefile;

import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * One case: a brake, what it is used for, what is wrong with it and what was done to it before.
 *
 * <p>Numbers nobody recorded are NaN; texts nobody wrote are empty.
 *
 * @param misheard works and events that the complaint was heard to tell of, and does not
 * @param symptoms what was found, by symptom id, in the order of the file; those not listed were
 *     not checked
 * @param onlyTold of the symptoms those that a rider told and nobody looked for
 * @param why why the expectation must hold, as a mechanic would say it
 */
public record CaseFile(
    String id,
    LocalDate opened,
    Brake brake,
    Use use,
    String complaint,
    Set<String> misheard,
    Map<String, Presence> symptoms,
    Set<String> onlyTold,
    Readings readings,
    List<Entry> history,
    Optional<Outcome> outcome,
    String source,
    String why,
    Optional<String> knownMiss,
    Optional<Expectation> expectation,
    Optional<Claim> claim) {

  /** The same case with one finding more, or another one, that somebody has looked for. */
  public CaseFile with(String symptom, Presence presence) {
    Map<String, Presence> findings = new LinkedHashMap<>(symptoms);
    findings.put(symptom, presence);
    Set<String> told = new LinkedHashSet<>(onlyTold);
    told.remove(symptom);
    return with(findings, told, history);
  }

  /** The same case with these findings and this history. */
  public CaseFile with(
      Map<String, Presence> findings, Set<String> findingsOnlyTold, List<Entry> entries) {
    return new CaseFile(
        id,
        opened,
        brake,
        use,
        complaint,
        misheard,
        Collections.unmodifiableMap(findings),
        Collections.unmodifiableSet(findingsOnlyTold),
        readings,
        List.copyOf(entries),
        outcome,
        source,
        why,
        knownMiss,
        expectation,
        claim);
  }

  /** The same brake and complaint, and nothing that was found, measured or recorded. */
  public CaseFile complaintAlone() {
    return new CaseFile(
        id,
        opened,
        brake,
        use,
        complaint,
        misheard,
        Map.of(),
        Set.of(),
        Readings.NONE,
        List.of(),
        outcome,
        source,
        why,
        knownMiss,
        expectation,
        claim);
  }

  /** What is known of a symptom. */
  public enum Presence {
    PRESENT,
    ABSENT,
    NOT_CHECKED;

    /** The same said of the opposite. */
    Presence opposite() {
      return switch (this) {
        case PRESENT -> ABSENT;
        case ABSENT -> PRESENT;
        case NOT_CHECKED -> NOT_CHECKED;
      };
    }
  }

  /**
   * The brake.
   *
   * @param fluid what it is built for
   * @param fitted when it was fitted
   * @param caliperBoresMm bores of the caliper pistons in mm; one stands for all
   * @param makerFigures the maker's figures in mm or N·m, by name
   */
  public record Brake(
      String id,
      String position,
      Fluid fluid,
      Optional<LocalDate> fitted,
      String reservoir,
      double hoseLengthMm,
      double hoseBoreMm,
      String routing,
      double leverBoreMm,
      double leverRatio,
      int caliperPistons,
      List<Double> caliperBoresMm,
      double rotorDiameterMm,
      Map<String, Double> makerFigures,
      String lot) {}

  /** What the brake is used for. */
  public record Use(String terrain, double riderAndLoadKg, double ambientC, double altitudeM) {}

  /**
   * Measured values. Throws are at the lever tip.
   *
   * @param throwFirm the firm pull, and after it pulls at other forces if there were any
   * @param creepMm further travel over a 60 s hold
   * @param moisturePercent water in the fluid, by the tester
   * @param padThicknessesMm friction material of each pad
   */
  public record Readings(
      double throwLightMm,
      List<Pull> throwFirm,
      double throwAfterFiveMm,
      double creepMm,
      double moisturePercent,
      double boilingPointC,
      List<Double> padThicknessesMm,
      double rotorThicknessMm,
      double runOutMm,
      List<Double> pistonAdvancesMm,
      double levelDropMm) {
    /** Nothing was measured. */
    public static final Readings NONE =
        new Readings(
            Double.NaN,
            List.of(),
            Double.NaN,
            Double.NaN,
            Double.NaN,
            Double.NaN,
            List.of(),
            Double.NaN,
            Double.NaN,
            List.of(),
            Double.NaN);

    /** Throw at the firm pull, or NaN. */
    public double throwFirmMm() {
      return throwFirm.isEmpty() ? Double.NaN : throwFirm.get(0).throwMm();
    }
  }

  /** A pull: its throw in mm, and its force in N, NaN where no scale was used. */
  public record Pull(double throwMm, double forceN) {}

  /**
   * One line of the job record: a work or an event.
   *
   * @param daysAgo days before the case was opened; empty where no date was told
   * @param work id of the work; empty for an event
   * @param event id of the event; empty for a work
   * @param fluid what was put in
   * @param by code of who did it
   * @param torqueNm the torque on record, or NaN
   */
  public record Entry(
      OptionalInt daysAgo,
      String work,
      String event,
      Fluid fluid,
      String by,
      double torqueNm,
      List<String> parts,
      String lot,
      String outcome,
      Set<String> circumstances,
      String note) {}

  /**
   * How a closed case ended.
   *
   * @param by code of who did the works
   */
  public record Outcome(
      List<String> causes,
      List<String> works,
      String by,
      String confirmed,
      Optional<LocalDate> closed) {}

  /**
   * What is claimed under a warranty. Who claims is nowhere: it decides nothing.
   *
   * @param made the day of the claim; the day the case was opened where it is not told
   * @param part id of the part claimed for; empty where none is named
   * @param cause id of the cause claimed; empty where none is named
   * @param purchased the day of purchase
   * @param earlier how many claims were made on this brake before
   * @param evidence what was handed in, by reference, by kind of evidence
   */
  public record Claim(
      Optional<LocalDate> made,
      String part,
      String cause,
      Optional<LocalDate> purchased,
      OptionalInt earlier,
      Map<String, List<String>> evidence) {}

  /**
   * What the engine must conclude, in a case that is a test. A part that is not stated expects
   * nothing.
   *
   * @param first one of these is ranked first
   * @param top3 each is among the first three
   * @param likely each has a probability of at least one half
   * @param not each is not first and below 0.25
   * @param impossible each has probability zero
   * @param next the first action that can be done now is one of these
   * @param notNext none of these can be done now
   * @param blocked each is listed and waits for something
   * @param ride whether it may be ridden: {@code stop}, {@code not-cleared} or {@code fine}; empty
   *     where not stated
   * @param forbids each of these findings forbids riding
   * @param notLooked each must be looked for before it is cleared for riding
   * @param symptoms what the readings must have shown
   */
  public record Expectation(
      List<String> first,
      List<String> top3,
      List<String> likely,
      List<String> not,
      List<String> impossible,
      List<String> next,
      List<String> notNext,
      List<String> blocked,
      Optional<Boolean> stopRide,
      String ride,
      List<String> forbids,
      List<String> notLooked,
      Map<String, Presence> symptoms,
      Optional<Boolean> contradictory,
      List<String> cautions) {}
}
