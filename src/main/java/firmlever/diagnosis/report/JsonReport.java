package firmlever.diagnosis.report;

import static firmlever.sheet.JsonForm.each;
import static firmlever.sheet.JsonForm.id;
import static firmlever.sheet.JsonForm.map;
import static firmlever.sheet.JsonForm.rounded;

import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.RideVerdict;
import firmlever.document.JsonText;
import firmlever.hearing.report.HeardReport;
import firmlever.hydraulics.Interval;
import firmlever.hydraulics.ThrowEstimate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A diagnosis for programs, format {@code firmlever-diagnosis/2}. */
public final class JsonReport {
  private JsonReport() {}

  public static final String FORMAT = "firmlever-diagnosis/2";

  /** One diagnosis as an object. */
  public static String of(Diagnosis diagnosis) {
    return JsonText.of(object(diagnosis));
  }

  /** The diagnoses of a batch as an array, also where only one is left of it. */
  public static String of(List<Diagnosis> diagnoses) {
    return JsonText.of(diagnoses.stream().map(JsonReport::object).toList());
  }

  private static Map<String, Object> object(Diagnosis d) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("case", d.caseId());
    json.put("format", FORMAT);
    json.put("rulebase", d.rulebase());
    if (!d.overlay().isEmpty()) {
      json.put("overlay", d.overlay());
    }
    json.put("stop-ride", d.stopRide());
    json.put("ride", ride(d.ride()));
    json.put(
        "hazards",
        each(
            d.hazards(),
            h ->
                map(
                    "symptom",
                    h.symptom(),
                    "why",
                    h.why(),
                    "rule",
                    h.rule(),
                    "source",
                    h.source())));
    json.put("causes", each(d.causes(), JsonReport::cause));
    json.put(
        "impossible",
        each(
            d.impossible(),
            i -> map("id", i.cause(), "why", i.why(), "rule", i.rule(), "source", i.source())));
    json.put("no-fault-found", rounded(d.noFaultFound()));
    json.put(
        "together",
        each(
            d.together(), t -> map("causes", t.causes(), "probability", rounded(t.probability()))));
    json.put("next", each(d.next(), JsonReport::step));
    json.put(
        "would-change",
        each(
            d.turning(),
            t ->
                map(
                    "symptom", t.symptom(),
                    "if-present", t.ifPresent(),
                    "if-present-probability", rounded(t.ifPresentProbability()),
                    "if-absent", t.ifAbsent(),
                    "if-absent-probability", rounded(t.ifAbsentProbability()))));
    d.heard().ifPresent(heard -> json.put("heard", HeardReport.json(heard)));
    json.put("notes", d.notes());
    json.put(
        "contradictions",
        each(
            d.contradictions(),
            c -> map("symptoms", c.symptoms(), "why", c.why(), "rule", c.rule())));
    json.put(
        "concluded",
        each(
            d.concluded(),
            c ->
                map(
                    "symptom", c.symptom(),
                    "present", c.present(),
                    "probability", rounded(c.probability()),
                    "evidence", c.evidence(),
                    "why", c.why(),
                    "rule", c.rule(),
                    "source", c.source())));
    d.stability()
        .ifPresent(
            s ->
                json.put(
                    "stability",
                    map(
                        "first-cause", rounded(s.firstCause()),
                        "first-action", rounded(s.firstAction()),
                        "draws", s.draws(),
                        "seed", s.seed())));
    d.throwEstimate()
        .ifPresent(
            estimate -> {
              json.put("throw", lengthOfThrow(estimate));
              json.put("gas", gas(estimate));
            });
    json.put("cautions", d.cautions());
    json.put("stopped-early", d.stoppedEarly());
    return json;
  }

  static Map<String, Object> ride(RideVerdict ride) {
    return map(
        "verdict",
        ride.verdict().id(),
        "because",
        each(
            ride.because(),
            b ->
                b.isCause()
                    ? map("cause", b.id(), "probability", rounded(b.probability()), "why", b.why())
                    : map("symptom", b.id(), "why", b.why())),
        "not-looked",
        ride.notLooked());
  }

  /** What sound brakes of the kind take, and what this one took. */
  static Map<String, Object> lengthOfThrow(ThrowEstimate estimate) {
    Interval sound = estimate.sound().mm();
    Map<String, Object> json =
        map(
            "sound-low", ThrowWords.millimetres(sound.low()),
            "sound-middle", ThrowWords.millimetres(sound.best()),
            "sound-high", ThrowWords.millimetres(sound.high()),
            "force", ThrowWords.newtons(estimate.sound().forceN()));
    estimate.tookMm().ifPresent(mm -> json.put("took", ThrowWords.millimetres(mm)));
    estimate.makersMm().ifPresent(mm -> json.put("makers", ThrowWords.millimetres(mm)));
    return json;
  }

  static Map<String, Object> gas(ThrowEstimate estimate) {
    Interval gas = estimate.gasMl();
    Map<String, Object> json =
        map(
            "volume", ThrowWords.millilitres(gas.best()),
            "low", ThrowWords.millilitres(gas.low()),
            "high", ThrowWords.millilitres(gas.high()),
            "credible", estimate.fits(),
            "meaning", id(estimate.meaning()),
            "gas-rather-than-give", rounded(estimate.gasRatherThanGive()));
    estimate
        .wouldTell()
        .ifPresent(
            next ->
                json.put(
                    "would-tell",
                    map(
                        "reading", id(next.reading()),
                        "force", ThrowWords.newtons(next.forceN()),
                        "settles", rounded(next.settles()))));
    json.put(
        "assumed",
        each(
            estimate.assumptions(),
            a ->
                map("what", a.what(), "value", ThrowWords.quantity(a), "set-aside", a.setAside())));
    json.put("why", String.join(" ", ThrowWords.sentences(estimate)));
    return json;
  }

  public static Map<String, Object> cause(CauseBelief cause) {
    return map(
        "id",
        cause.id(),
        "probability",
        rounded(cause.probability()),
        "word",
        cause.word().spoken(),
        "log-odds",
        rounded(cause.logOdds()),
        "balance",
        map(
            "prior",
            rounded(cause.prior()),
            "history",
            each(
                cause.history(),
                w ->
                    map(
                        "weight", rounded(w.weight()),
                        "rule", w.rule(),
                        "source", w.source(),
                        "why", w.why())),
            "symptoms",
            each(cause.symptoms(), JsonReport::weight)));
  }

  private static Map<String, Object> weight(Weight w) {
    Map<String, Object> json =
        map(
            "symptom", w.symptom(),
            "present", w.present(),
            "weight", rounded(w.weight()),
            "alone", rounded(w.alone()));
    if (!w.rule().isEmpty()) {
      json.put("rule", w.rule());
      json.put("source", w.source());
    }
    if (w.hinted()) {
      json.put("hinted", true);
    }
    json.put("why", w.why());
    return json;
  }

  private static Map<String, Object> step(Step step) {
    Map<String, Object> json =
        map(
            "id", step.id(),
            "kind", step.kind() == StepKind.CHECK ? "check" : "work",
            "minutes", rounded(step.minutes()),
            "saves", rounded(step.saves()));
    if (step.kind() == StepKind.CHECK) {
      json.put("looks", step.looks());
    } else {
      json.put("blocked-by", step.blockedBy());
      json.put("forbidden", step.forbidden());
      json.put("cautions", step.cautions());
    }
    json.put("why", step.why());
    json.put(
        "leads-to",
        each(
            step.outcomes(),
            o ->
                map(
                    "result", o.result().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                    "symptom", o.symptom(),
                    "probability", rounded(o.probability()),
                    "next", o.next().orElse(""))));
    return json;
  }
}
