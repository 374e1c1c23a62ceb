package firmlever.report;

import static firmlever.report.JsonReport.each;
import static firmlever.report.JsonReport.map;
import static firmlever.report.JsonReport.rounded;

import firmlever.document.JsonText;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Decided;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Dossier.Turn;
import firmlever.warranty.Outcome.Result;
import firmlever.warranty.Policy;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A dossier for programs, format {@code firmlever-dossier/1}. */
final class DossierJson {
  static final String FORMAT = "firmlever-dossier/1";

  String of(Dossier d) {
    return JsonText.of(
        map(
            "case", d.file().id(),
            "format", FORMAT,
            "outcome", d.word(),
            "decisions", each(d.decided(), DossierJson::decided),
            "missing", missing(d.missing()),
            "alternatives", each(d.alternatives(), JsonReport::cause),
            "no-fault-found", rounded(d.diagnosis().noFaultFound()),
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
                    "rulebase", d.diagnosis().rulebase())));
  }

  private static Map<String, Object> decided(Decided each) {
    Decision decision = each.decision();
    Map<String, Object> json = map("cause", decision.cause());
    json.putAll(result(decision.result()));
    json.putAll(
        map(
            "clause", decision.clause().id(),
            "clause-kind", decision.clause().kind().id(),
            "clause-text", decision.clause().text(),
            "why", decision.why(),
            "facts", decision.facts(),
            "missing", missing(decision.missing()),
            "probability", rounded(decision.probability()),
            "firmness", rounded(decision.firmness()),
            "confirmed", decision.confirmed(),
            "considered",
                each(
                    decision.considered(),
                    c ->
                        map(
                            "clause", c.clause().id(),
                            "holds", c.state().name().toLowerCase(Locale.ROOT),
                            "why", c.why(),
                            "rules", c.rules())),
            "turns", each(each.turns(), DossierJson::turn)));
    each.balance().ifPresent(balance -> json.put("balance", JsonReport.cause(balance)));
    return json;
  }

  private static Map<String, Object> result(Result result) {
    return map(
        "outcome", result.outcome().id(),
        "pays", result.pays().id(),
        "share-percent", result.sharePercent());
  }

  private static Map<String, Object> turn(Turn turn) {
    Map<String, Object> json =
        map(
            "findings",
            each(
                turn.findings(),
                f -> map("kind", f.kind().id(), "id", f.id(), "value", f.value())));
    json.put("becomes", turn.becomes().map(DossierJson::result).orElse(Map.of()));
    return json;
  }

  private static List<String> missing(List<Missing> missing) {
    return missing.stream().map(Missing::id).toList();
  }
}
