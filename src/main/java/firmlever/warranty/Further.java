package firmlever.warranty;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Brake;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFile.Statement;
import firmlever.casefile.CaseFile.Use;
import firmlever.casefile.Fluid;
import firmlever.rulebase.warranty.WarrantyFacts;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * A further finding: something nobody has told yet, and that would be added to the case.
 *
 * @param kind what sort of finding
 * @param id id of the symptom, of the missing fact, or of the work or event
 * @param value what it would say
 * @param touchesBelief whether the diagnosis can change by it
 * @param entry the entry of the record that would come to light; empty for any other kind
 */
public record Further(
    Kind kind,
    String id,
    String value,
    boolean touchesBelief,
    Optional<Entry> entry,
    UnaryOperator<CaseFile> edit) {

  /** Where a further finding comes from. */
  public enum Kind {
    /** A symptom is looked for. */
    CHECKED,
    /** A missing fact is sent in. */
    SENT_IN,
    /** A work or event that nobody has told comes to light. */
    COMES_TO_LIGHT;

    public String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** The case with this finding in it. */
  public CaseFile addedTo(CaseFile file) {
    return edit.apply(file);
  }

  static Further answer(String symptom, boolean present) {
    return new Further(
        Kind.CHECKED,
        symptom,
        present ? "present" : "absent",
        true,
        Optional.empty(),
        file -> file.with(symptom, present ? Presence.PRESENT : Presence.ABSENT));
  }

  static Further fitted(LocalDate day) {
    return sent(
        Missing.FITTED_DATE,
        day.toString(),
        true,
        file -> {
          Brake brake = file.brake().fittedOn(day);
          return copy(file, brake, file.use(), file.symptoms(), file.history(), file.claim());
        });
  }

  static Further load(double kilograms) {
    return sent(
        Missing.LOAD,
        String.format(Locale.ROOT, "%.0f kg", kilograms),
        true,
        file -> {
          Use use = file.use().carrying(kilograms);
          return copy(file, file.brake(), use, file.symptoms(), file.history(), file.claim());
        });
  }

  private static Further purchased(LocalDate day) {
    return sent(
        Missing.PURCHASE_DATE,
        day.toString(),
        false,
        file ->
            withClaim(file, c -> c.with(Optional.of(day), c.arose(), c.earlier(), c.statements())));
  }

  /** The day of purchase, and the proof of it. */
  static Further boughtWithProof(LocalDate day) {
    Further bought = purchased(day);
    Further proof = evidence(Missing.PURCHASE_DATE);
    return sent(
        Missing.PURCHASE_DATE, day.toString(), false, file -> proof.addedTo(bought.addedTo(file)));
  }

  static Further arose(LocalDate day) {
    return sent(
        Missing.AROSE,
        day.toString(),
        false,
        file ->
            withClaim(
                file, c -> c.with(c.purchased(), Optional.of(day), c.earlier(), c.statements())));
  }

  static Further earlierClaims(int count) {
    return sent(
        Missing.EARLIER_CLAIMS,
        String.valueOf(count),
        false,
        file ->
            withClaim(
                file,
                c -> c.with(c.purchased(), c.arose(), OptionalInt.of(count), c.statements())));
  }

  /** A piece of evidence handed in, signed. */
  static Further evidence(Missing evidence) {
    return sent(evidence, "handed in", false, file -> signed(file, evidence.id(), "", "handed-in"));
  }

  /** A statement of one of this shop, of what the fault comes of. */
  static Further origin(String of, String spoken, String by) {
    return sent(Missing.ORIGIN, spoken, false, file -> signed(file, Statement.ORIGIN, of, by));
  }

  private static CaseFile signed(CaseFile file, String kind, String of, String by) {
    return withClaim(
        file,
        c -> {
          List<Statement> all = new ArrayList<>(c.statements());
          all.add(new Statement(kind, of, by, file.opened(), ""));
          return c.with(c.purchased(), c.arose(), c.earlier(), List.copyOf(all));
        });
  }

  /** Whose work it was, for every work on record that nobody signed. */
  static Further doneBy(String code, String spoken) {
    return sent(
        Missing.WHO_DID_IT,
        spoken,
        false,
        file ->
            withHistory(
                file,
                e -> e.by().isEmpty() && e.event().isEmpty() ? edited(e, e.daysAgo(), code) : e));
  }

  /** Which fluid was put in, for every work on record that nobody told it of. */
  static Further fluid(Fluid fluid, Vocabulary vocabulary) {
    return sent(
        Missing.WHICH_FLUID,
        fluid.id(),
        true,
        file -> withHistory(file, e -> Traces.fillsUntold(e, vocabulary) ? filled(e, fluid) : e));
  }

  private static Entry filled(Entry e, Fluid fluid) {
    return new Entry(
        e.daysAgo(),
        e.work(),
        e.event(),
        fluid,
        e.by(),
        e.torqueNm(),
        e.parts(),
        e.lot(),
        e.outcome(),
        e.circumstances(),
        e.note());
  }

  /** The day, for every entry of the record that has none. */
  static Further daysAgo(int days) {
    return sent(
        Missing.WHEN_IT_WAS,
        WarrantyFacts.counted(days, "day") + " before the case",
        true,
        file ->
            withHistory(
                file, e -> e.daysAgo().isPresent() ? e : edited(e, OptionalInt.of(days), e.by())));
  }

  /** An event that nobody has told. */
  static Further event(String event, int daysAgo, Fluid fluid) {
    return unknown(
        event,
        new Entry(
            OptionalInt.of(daysAgo),
            "",
            event,
            fluid,
            "",
            Double.NaN,
            List.of(),
            "",
            "unknown",
            Set.of(),
            ""),
        fluid == Fluid.UNKNOWN ? "" : ", with " + fluid.id());
  }

  /** A work of this shop that nobody has told. */
  static Further ownWork(String work, int daysAgo, String code, Fluid fluid) {
    return unknown(
        work,
        new Entry(
            OptionalInt.of(daysAgo),
            work,
            "",
            fluid,
            code,
            Double.NaN,
            List.of(),
            "",
            "unknown",
            Set.of(),
            ""),
        " by this shop" + (fluid == Fluid.UNKNOWN ? "" : ", with " + fluid.id()));
  }

  private static Further unknown(String id, Entry entry, String how) {
    return new Further(
        Kind.COMES_TO_LIGHT,
        id,
        WarrantyFacts.counted(entry.daysAgo().getAsInt(), "day") + " before the case" + how,
        true,
        Optional.of(entry),
        file -> {
          List<Entry> history = new ArrayList<>(file.history());
          history.add(entry);
          return copy(file, file.brake(), file.use(), file.symptoms(), history, file.claim());
        });
  }

  private static Further sent(
      Missing missing, String value, boolean touchesBelief, UnaryOperator<CaseFile> edit) {
    return new Further(Kind.SENT_IN, missing.id(), value, touchesBelief, Optional.empty(), edit);
  }

  /** The missing fact of that spelling in files. */
  public static Missing missing(String id) {
    return Missing.valueOf(id.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  private static Entry edited(Entry e, OptionalInt daysAgo, String by) {
    return new Entry(
        daysAgo,
        e.work(),
        e.event(),
        e.fluid(),
        by,
        e.torqueNm(),
        e.parts(),
        e.lot(),
        e.outcome(),
        e.circumstances(),
        e.note());
  }

  private static CaseFile withHistory(CaseFile file, UnaryOperator<Entry> edit) {
    List<Entry> history = file.history().stream().map(edit).toList();
    return copy(file, file.brake(), file.use(), file.symptoms(), history, file.claim());
  }

  private static CaseFile withClaim(CaseFile file, UnaryOperator<Claim> edit) {
    return copy(
        file, file.brake(), file.use(), file.symptoms(), file.history(), file.claim().map(edit));
  }

  private static CaseFile copy(
      CaseFile f,
      Brake brake,
      Use use,
      Map<String, Presence> symptoms,
      List<Entry> history,
      Optional<Claim> claim) {
    return new CaseFile(
        f.id(),
        f.opened(),
        brake,
        use,
        f.complaint(),
        f.misheard(),
        symptoms,
        f.onlyTold(),
        f.hinted(),
        f.readings(),
        history,
        f.outcome(),
        f.source(),
        f.why(),
        f.knownMiss(),
        f.expectation(),
        claim);
  }
}
