package firmlever.casefile;

import firmlever.document.Money;
import java.time.LocalDate;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;

/**
 * One case: a brake, what it is used for, what is wrong with it and what was done to it before.
 *
 * <p>Numbers nobody recorded are NaN; texts nobody wrote are empty.
 *
 * @param misheard works, events and symptoms only a rider can tell that the complaint was heard to
 *     tell of, and does not
 * @param symptoms what was found, by symptom id, in the order of the file; those not listed were
 *     not checked
 * @param onlyTold of the symptoms those that a rider told and nobody looked for
 * @param hinted symptoms of which the complaint leaves open whether they are there
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
    Set<String> hinted,
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
    return with(findings, findingsOnlyTold, hinted, entries);
  }

  /** The same case with these findings, hints and this history. */
  public CaseFile with(
      Map<String, Presence> findings,
      Set<String> findingsOnlyTold,
      Set<String> hints,
      List<Entry> entries) {
    return new CaseFile(
        id,
        opened,
        brake,
        use,
        complaint,
        misheard,
        Collections.unmodifiableMap(findings),
        Collections.unmodifiableSet(findingsOnlyTold),
        Collections.unmodifiableSet(hints),
        readings,
        List.copyOf(entries),
        outcome,
        source,
        why,
        knownMiss,
        expectation,
        claim);
  }

  /**
   * The same case without the codes of the people who worked on the brake; that it was the owner
   * stays. Words that somebody wrote stay too.
   */
  public CaseFile withoutPersons() {
    return new CaseFile(
        id,
        opened,
        brake,
        use,
        complaint,
        misheard,
        symptoms,
        onlyTold,
        hinted,
        readings,
        history.stream().map(Entry::withoutPerson).toList(),
        outcome.map(
            o -> new Outcome(o.causes(), o.works(), "", o.site(), o.confirmed(), o.closed())),
        source,
        why,
        knownMiss,
        expectation,
        Optional.empty());
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
   * @param reservoirFreeMl room above the fluid in the reservoir
   * @param caliperBoresMm bores of the caliper pistons in mm; one stands for all
   * @param makerFigures the maker's figures in mm or N·m, by name
   */
  public record Brake(
      String id,
      String position,
      Fluid fluid,
      Optional<LocalDate> fitted,
      String reservoir,
      double reservoirFreeMl,
      double hoseLengthMm,
      double hoseBoreMm,
      String routing,
      double leverBoreMm,
      double leverRatio,
      int caliperPistons,
      List<Double> caliperBoresMm,
      double rotorDiameterMm,
      Map<String, Double> makerFigures,
      String lot) {
    /** The same brake, fitted on this day. */
    public Brake fittedOn(LocalDate day) {
      return new Brake(
          id,
          position,
          fluid,
          Optional.of(day),
          reservoir,
          reservoirFreeMl,
          hoseLengthMm,
          hoseBoreMm,
          routing,
          leverBoreMm,
          leverRatio,
          caliperPistons,
          caliperBoresMm,
          rotorDiameterMm,
          makerFigures,
          lot);
    }
  }

  /**
   * What the brake is used for.
   *
   * @param dropM height lost on its usual or last long descent
   * @param slopePercent how steep that descent is
   */
  public record Use(
      String terrain,
      double riderAndLoadKg,
      double ambientC,
      double altitudeM,
      double dropM,
      double slopePercent) {
    /** Nothing is known of its use. */
    public static final Use UNKNOWN =
        new Use("", Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN);

    /** The same use under another load. */
    public Use carrying(double kilograms) {
      return new Use(terrain, kilograms, ambientC, altitudeM, dropM, slopePercent);
    }
  }

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
      String note) {
    /** Stands where a code would: the owner did it, whoever that is. */
    public static final String OWNER = "owner";

    private Entry withoutPerson() {
      return new Entry(
          daysAgo,
          work,
          event,
          fluid,
          by.equals(OWNER) ? by : "",
          torqueNm,
          parts,
          lot,
          outcome,
          circumstances,
          note);
    }
  }

  /**
   * How a closed case ended.
   *
   * @param by code of who did the works
   * @param site code of the place where they were done
   */
  public record Outcome(
      List<String> causes,
      List<String> works,
      String by,
      String site,
      String confirmed,
      Optional<LocalDate> closed) {}

  /**
   * What is claimed under a warranty. Texts that name nobody or nothing are empty. Who claims
   * decides nothing.
   *
   * @param number the number of the claim
   * @param claimant code of who claims
   * @param shop code of the shop that hands the claim in
   * @param holder {@code owner} or {@code hire}
   * @param purchased the day of purchase, as it is told; its proof is a paper
   * @param arose the day on which the fault first showed
   * @param made the day of the claim; the day the case was opened where it is not told
   * @param decided the day the claim was decided
   * @param part id of the part claimed for
   * @param complaint id of the symptom claimed for, where no part is
   * @param cause id of the cause claimed
   * @param earlier how many claims were made on this brake before
   * @param costs the works and parts claimed for, each with its price, all in one currency
   */
  public record Claim(
      String number,
      String claimant,
      String shop,
      String holder,
      Optional<LocalDate> purchased,
      Optional<LocalDate> arose,
      Optional<LocalDate> made,
      Optional<LocalDate> decided,
      String part,
      String complaint,
      String cause,
      OptionalInt earlier,
      List<Cost> costs,
      List<Attachment> attachments,
      List<Statement> statements) {

    /** The papers and statements of a kind, in words; none where nothing was handed in. */
    public List<String> handedIn(String kind) {
      return Stream.concat(
              attachments.stream().filter(a -> a.kind().equals(kind)).map(Attachment::file),
              statements.stream()
                  .filter(s -> s.kind().equals(kind))
                  .map(s -> "signed by " + s.by() + " on " + s.signed()))
          .toList();
    }

    /** The same claim with these dates, earlier claims and statements. */
    public Claim with(
        Optional<LocalDate> day,
        Optional<LocalDate> showed,
        OptionalInt before,
        List<Statement> signed) {
      return new Claim(
          number,
          claimant,
          shop,
          holder,
          day,
          showed,
          made,
          decided,
          part,
          complaint,
          cause,
          before,
          costs,
          attachments,
          signed);
    }
  }

  /**
   * A work or a part claimed for.
   *
   * @param work id of the work; empty for a part
   * @param part id of the part; empty for a work
   * @param minutes labour; 0 where none is told
   * @param causes ids of the causes it was for, where told
   */
  public record Cost(String work, String part, int minutes, Money price, List<String> causes) {}

  /** A paper that was handed in: a file beside the case, and the SHA-256 it had then. */
  public record Attachment(String file, String sha256, String kind) {}

  /**
   * What somebody signed.
   *
   * @param kind what it stands for: a kind of evidence, or {@code origin}
   * @param of for an origin, what the fault comes of: {@code made-so}, or a work or event
   * @param by code of who signed
   */
  public record Statement(String kind, String of, String by, LocalDate signed, String says) {
    /** Says what the fault comes of. */
    public static final String ORIGIN = "origin";

    /** The fault was in the part when it was made. */
    public static final String MADE_SO = "made-so";
  }

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
