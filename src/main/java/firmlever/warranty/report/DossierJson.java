package firmlever.warranty.report;

import static firmlever.sheet.JsonForm.each;
import static firmlever.sheet.JsonForm.map;
import static firmlever.sheet.JsonForm.rounded;

import firmlever.casefile.CaseFile.Claim;
import firmlever.diagnosis.report.JsonReport;
import firmlever.document.JsonText;
import firmlever.document.Program;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.warranty.Costs;
import firmlever.warranty.Costs.Line;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Balanced;
import firmlever.warranty.DueAnyway;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.Signed;
import firmlever.warranty.Turn;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A dossier for programs, format {@code firmlever-dossier/2}. */
final class DossierJson {
  static final String FORMAT = "firmlever-dossier/2";

  String of(Dossier d) {
    return JsonText.of(object(d));
  }

  static Map<String, Object> object(Dossier d) {
    List<Object> decisions = new ArrayList<>();
    for (int i = 0; i < d.balances().size(); i++) {
      decisions.add(decision(d.judged().decisions().get(i), d.balances().get(i)));
    }
    Map<String, Object> json = recommended(d, decisions);
    d.signed().ifPresent(signed -> json.put("signed", signed(d, signed)));
    return json;
  }

  /** What a person signed last, beside what is recommended. */
  private static Map<String, Object> signed(Dossier d, Signed signed) {
    Map<String, Object> json =
        map(
            "by", signed.by(),
            "role", signed.role(),
            "on", signed.on().toString(),
            "recommended", signed.recommended(),
            "decided", signed.decided(),
            "reason", signed.reason(),
            "case-unchanged", signed.stands(),
            "changes", signed.changes());
    d.override().ifPresent(result -> json.putAll(result(result)));
    d.decidedCosts().ifPresent(costs -> json.put("costs", costs(costs)));
    return json;
  }

  private static Map<String, Object> recommended(Dossier d, List<Object> decisions) {
    return map(
        "case", d.file().id(),
        "format", FORMAT,
        "made-by", "firmlever " + Program.VERSION,
        "claim", claim(d.claim()),
        "outcome", d.word(),
        "matters", each(d.judged().matters(), DossierJson::matter),
        "decisions", decisions,
        "nothing-wrong", rounded(d.judged().none()),
        "confirmed-by", d.judged().confirmedBy(),
        "costs", costs(d.costs()),
        "due-anyway", each(d.due(), DossierJson::due),
        "missing", missing(d.missing()),
        "turns", each(d.turns(), DossierJson::turn),
        "beside", each(d.beside(), JsonReport::cause),
        "alternatives", each(d.alternatives(), JsonReport::cause),
        "contradictions",
            each(
                d.diagnosis().contradictions(),
                c -> map("symptoms", c.symptoms(), "why", c.why(), "rule", c.rule())),
        "law", Policy.LAW,
        "draws", d.draws(),
        "stopped-early", d.stoppedEarly(),
        "policy", d.policy().id(),
        "digests",
            map(
                "case", "sha256:" + d.caseDigest(),
                "policy", "sha256:" + d.policy().digest(),
                "rulebase", d.diagnosis().rulebase()));
  }

  private static Map<String, Object> claim(Claim claim) {
    return map(
        "number", claim.number(),
        "claimant", claim.claimant(),
        "shop", claim.shop(),
        "holder", claim.holder(),
        "part", claim.part(),
        "complaint", claim.complaint(),
        "cause", claim.cause());
  }

  private static Map<String, Object> matter(Matter matter) {
    Map<String, Object> json = result(matter.result());
    json.putAll(
        map(
            "causes", matter.decisions().stream().map(Decision::cause).toList(),
            "clause", matter.clause().id(),
            "clause-kind", matter.clause().kind().id(),
            "clause-text", matter.clause().text(),
            "chance", rounded(matter.chance()),
            "firmness", rounded(matter.firmness()),
            "missing", missing(matter.missing()),
            "why", matter.why()));
    return json;
  }

  private static Map<String, Object> decision(Decision decision, Balanced balanced) {
    Map<String, Object> json = map("cause", decision.cause());
    json.putAll(result(decision.result()));
    json.putAll(
        map(
            "clause", decision.clause().id(),
            "clause-kind", decision.clause().kind().id(),
            "follows", decision.follows().map(Decision::cause).orElse(""),
            "why", decision.why(),
            "facts", decision.facts(),
            "missing", missing(decision.missing()),
            "probability", rounded(decision.probability()),
            "confirmed", rounded(balanced.confirmed()),
            "considered",
                each(
                    decision.considered(),
                    c ->
                        map(
                            "clause", c.clause().id(),
                            "holds", c.state().name().toLowerCase(Locale.ROOT),
                            "why", c.why(),
                            "rules", c.rules()))));
    balanced.balance().ifPresent(balance -> json.put("balance", JsonReport.cause(balance)));
    return json;
  }

  private static Map<String, Object> costs(Costs costs) {
    Map<String, Object> totals = new LinkedHashMap<>();
    costs.totals().forEach((payer, sum) -> totals.put(payer.id(), sum.spoken()));
    return map(
        "total",
        costs.total().map(sum -> (Object) sum.spoken()).orElse(""),
        "pays",
        totals,
        "lines",
        each(costs.lines(), DossierJson::line));
  }

  private static Map<String, Object> line(Line line) {
    Map<String, Object> pays = new LinkedHashMap<>();
    for (Payer payer : Payer.values()) {
      if (line.pays().containsKey(payer)) {
        pays.put(payer.id(), line.pays().get(payer).spoken());
      }
    }
    return map(
        "work", line.cost().work(),
        "part", line.cost().part(),
        "price", line.cost().price().spoken(),
        "causes", line.causes(),
        "outcome", line.result().outcome().id(),
        "clause", line.clause().map(Clause::id).orElse(""),
        "pays", pays,
        "missing", missing(line.missing().stream().sorted().toList()));
  }

  static Map<String, Object> result(Award result) {
    return map(
        "outcome", result.outcome().id(),
        "pays", result.pays().id(),
        "share-percent", result.sharePercent());
  }

  private static Map<String, Object> turn(Turn turn) {
    return map(
        "findings",
        each(turn.findings(), f -> map("kind", f.kind().id(), "id", f.id(), "value", f.value())),
        "becomes",
        each(turn.becomes(), DossierJson::result),
        "faults",
        each(
            turn.after(),
            matter -> {
              Map<String, Object> json =
                  map("causes", matter.decisions().stream().map(Decision::cause).toList());
              json.putAll(result(matter.result()));
              return json;
            }));
  }

  private static Map<String, Object> due(DueAnyway due) {
    return map(
        "cause", due.cause(),
        "part", due.part(),
        "measured-mm", due.measuredMm(),
        "limit-mm", due.limit().mm(),
        "limit-of-maker", due.limit().makers(),
        "whatever-others", due.others());
  }

  private static List<String> missing(Collection<Missing> missing) {
    return missing.stream().map(Missing::id).toList();
  }
}
