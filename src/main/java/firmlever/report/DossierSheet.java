package firmlever.report;

import static firmlever.belief.Word.worded;

import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Outcome;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyRules.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Considered;
import firmlever.warranty.Dossier.Decided;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Dossier.Turn;
import firmlever.warranty.Further;
import firmlever.warranty.Policy;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Writes a dossier as a paper: what each side must read first stands first. */
final class DossierSheet {
  private static final double WORTH_NAMING = 0.3;
  private static final int NAMED = 3;

  private final Vocabulary vocabulary;

  DossierSheet(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  Sheet of(Dossier d) {
    Sheet sheet = new Sheet("Warranty dossier " + d.file().id());
    claim(sheet, d);
    decision(sheet, d);
    missing(sheet, d);
    turning(sheet, d);
    d.decided().forEach(each -> reasons(sheet, d, each));
    alternatives(sheet, d);
    work(sheet, d);
    sheet.section("Before anyone acts on this");
    sheet.items(
        Stream.of("maker-first", "acceptance-first", "not-sure-ask")
            .map(id -> vocabulary.cautions().get(id).text())
            .toList());
    origin(sheet, d);
    return sheet;
  }

  private void claim(Sheet sheet, Dossier d) {
    sheet.section("The claim in three sentences");
    sheet.say(brought(d));
    sheet.say(claimed(d));
    sheet.notice("Decision", concluded(d));
    sheet.notice("The law", Policy.LAW);
  }

  private String brought(Dossier d) {
    CaseFile file = d.file();
    List<String> known = new ArrayList<>();
    file.claim().flatMap(Claim::purchased).ifPresent(day -> known.add("bought " + day));
    file.brake().fitted().ifPresent(day -> known.add("fitted " + day));
    return "The "
        + d.diagnosis().brake()
        + (known.isEmpty() ? "" : " and " + String.join(", ", known))
        + ", came in on "
        + file.opened()
        + (file.complaint().isEmpty() ? "." : " with the words “" + file.complaint() + "”.");
  }

  private String claimed(Dossier d) {
    Claim claim = d.file().claim().orElse(null);
    String part = claim == null || claim.part().isEmpty() ? "" : part(claim.part());
    String cause = claim == null || claim.cause().isEmpty() ? "" : cause(claim.cause());
    String what =
        part.isEmpty() && cause.isEmpty()
            ? "The claim names neither part nor cause"
            : "Claimed is "
                + (part.isEmpty() ? "" : "the part “" + part + "”")
                + (part.isEmpty() || cause.isEmpty() ? "" : ", for ")
                + (cause.isEmpty() ? "" : "“" + cause + "”");
    return what
        + (claim == null || claim.made().isEmpty() ? "" : ", on " + claim.made().orElseThrow())
        + "; found is "
        + d.decided().stream()
            .map(each -> found(each.decision()))
            .collect(Collectors.joining(", and "))
        + ".";
  }

  private String found(Decision decision) {
    return cause(decision.cause())
        + (decision.confirmed()
            ? " (confirmed by the mended work)"
            : " (" + worded(decision.probability()) + ")");
  }

  private String concluded(Dossier d) {
    if (d.together().isPresent()) {
      return "The claim is "
          + d.together().orElseThrow().spoken()
          + ", by "
          + d.decided().stream()
              .map(each -> "clause " + each.decision().clause().id())
              .distinct()
              .collect(Collectors.joining(" and "))
          + ofPolicy(d);
    }
    return "The claim is split: "
        + d.decided().stream()
            .map(
                each ->
                    cause(each.decision().cause())
                        + " is "
                        + each.decision().result().spoken()
                        + " (clause "
                        + each.decision().clause().id()
                        + ")")
            .collect(Collectors.joining("; "))
        + ", by the clauses"
        + ofPolicy(d);
  }

  private static String ofPolicy(Dossier d) {
    return " of policy " + d.policy().id() + ".";
  }

  private void decision(Sheet sheet, Dossier d) {
    sheet.section("The decision, cause by cause");
    List<List<String>> rows = new ArrayList<>();
    for (Decided each : d.decided()) {
      Decision decision = each.decision();
      rows.add(
          List.of(
              cause(decision.cause()) + " (" + part(partOf(decision.cause())) + ")",
              sentence(decision.result().spoken()),
              decision.clause().id() + ": " + decision.clause().text(),
              sentence(String.join("; ", decision.why()))
                  + (decision.facts().isEmpty() ? "" : ". Facts used: " + facts(decision))));
    }
    sheet.table(
        d.decided().size() == 1
            ? "The decision, its clause and the facts it rests on"
            : "Causes that arrived together are decided one by one",
        List.of("Found", "Decision", "Clause", "Because"),
        rows);
    sheet.table(
        "Handed in with the claim, by reference",
        List.of("Evidence", "Reference"),
        d.file().claim().map(Claim::evidence).orElse(Map.of()).entrySet().stream()
            .map(
                e ->
                    List.of(
                        sentence(e.getKey().replace('-', ' ')), String.join("; ", e.getValue())))
            .toList());
    if (!d.diagnosis().contradictions().isEmpty()) {
      sheet.part("Findings that cannot all be true");
      sheet.items(d.diagnosis().contradictions().stream().map(c -> c.why()).toList());
    }
  }

  private String facts(Decision decision) {
    return decision.facts().stream().map(this::readable).collect(Collectors.joining("; "));
  }

  /** Ids of works and events within a sentence of a rule, as people call them. */
  private String readable(String sentence) {
    String id = sentence.split("[ ,]", 2)[0];
    String name = name(id);
    return name.equals(id) ? sentence : name + sentence.substring(id.length());
  }

  private void missing(Sheet sheet, Dossier d) {
    if (!d.missing().isEmpty()) {
      sheet.section("What to send");
      sheet.say("Nothing of this counts against the claimant; it is needed to decide.");
      List<String> items = new ArrayList<>();
      for (Missing each : d.missing()) {
        items.add(wanted(d, each));
        if (each == Missing.FINDINGS) {
          items.addAll(checks(d));
        }
      }
      sheet.items(items);
    }
  }

  /** The checks that tell the causes apart best, in the order to make them. */
  private List<String> checks(Dossier d) {
    return d.diagnosis().next().stream()
        .filter(step -> step.kind() == StepKind.CHECK)
        .limit(NAMED)
        .map(step -> vocabulary.symptoms().get(step.id()))
        .map(symptom -> "Of these first: " + symptom.name() + ". How: " + symptom.check())
        .toList();
  }

  private String wanted(Dossier d, Missing missing) {
    String clauses =
        d.decided().stream()
            .map(Decided::decision)
            .filter(decision -> decision.missing().contains(missing))
            .map(decision -> cause(decision.cause()))
            .distinct()
            .collect(Collectors.joining(", "));
    return sentence(missing.spoken()) + " (for: " + clauses + ").";
  }

  private void turning(Sheet sheet, Dossier d) {
    sheet.section("How firm it is, and what would turn it");
    d.stoppedEarly().forEach(sheet::say);
    for (Decided each : d.decided()) {
      Decision decision = each.decision();
      sheet.part(sentence(cause(decision.cause())));
      sheet.say(firmness(d, decision));
      if (each.turns().isEmpty()) {
        sheet.say("No three further findings of those tried would change this decision.");
      }
      if (!each.allTried()) {
        sheet.say("Not all was tried: " + WorkBudget.USED_UP + ".");
      }
      sheet.items(each.turns().stream().map(this::turn).toList());
    }
  }

  private static String firmness(Dossier d, Decision decision) {
    String held =
        String.format(
            Locale.ROOT,
            "With every number of the rules shaken, this cause stays likelier than not in %.0f of"
                + " %d trials.",
            decision.firmness() * d.draws(),
            d.draws());
    return decision.confirmed()
        ? "The mended work has confirmed this cause, so its probability ("
            + worded(decision.probability())
            + ") decides nothing. "
            + held
        : "Its probability is " + worded(decision.probability()) + ". " + held;
  }

  private String turn(Turn turn) {
    String then =
        turn.becomes()
            .map(result -> "it would be " + result.spoken())
            .orElse("this cause would no longer be in question");
    return "If "
        + turn.findings().stream().map(this::further).collect(Collectors.joining(", and "))
        + ": "
        + then
        + ".";
  }

  private String further(Further further) {
    return switch (further.kind()) {
      case CHECKED ->
          "“" + vocabulary.symptoms().get(further.id()).name() + "” is found " + further.value();
      case SENT_IN -> sentIn(further);
      case COMES_TO_LIGHT ->
          "it comes to light that the record lacks “"
              + name(further.id())
              + "”, "
              + further.value();
    };
  }

  private static String sentIn(Further further) {
    return switch (further.id()) {
      case "who-did-it" -> "the unsigned work was done by " + further.value();
      case "when-it-was" -> "the undated entry was " + further.value();
      case "purchase-date" ->
          further.value().equals("handed in")
              ? "the day of purchase is handed in with its proof"
              : "it was bought on " + further.value();
      case "fitted-date" -> "it was fitted on " + further.value();
      case "load" -> "rider and load weigh " + further.value();
      case "earlier-claims" -> "the number of earlier claims is " + further.value();
      case "wipe-pump-hold" -> "the record of a wipe-pump-hold round is handed in";
      case "service-record" -> "the whole service record is handed in and shows no fluid change";
      case "fluid-test" -> "a test of the fluid is handed in";
      default -> further.id() + " are handed in";
    };
  }

  private void reasons(Sheet sheet, Dossier d, Decided decided) {
    Decision decision = decided.decision();
    sheet.section("Why: " + cause(decision.cause()));
    sheet.table(
        "The clauses that speak of it, from the highest priority down to the one that settles it",
        List.of("Clause", "Holds?", "Because"),
        decision.considered().stream().map(this::considered).toList());
    if (decided.balance().isEmpty()) {
      sheet.say("The findings alone make this cause less likely than one in a thousand.");
      return;
    }
    CauseBelief cause = decided.balance().orElseThrow();
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "How common it is among brakes with a complaint",
            weight(cause.prior()),
            "",
            "rule book, " + cause.id() + ": how common"));
    Stream.concat(cause.history().stream(), cause.symptoms().stream())
        .sorted(Comparator.comparingDouble((Weight w) -> -w.weight()))
        .forEach(w -> rows.add(row(w)));
    rows.add(List.of("Sum: " + worded(cause.probability()), weight(cause.logOdds()), "", ""));
    sheet.sum(
        "The balance of evidence: above zero speaks for this cause, below zero against it; +0.7"
            + " doubles its odds",
        List.of("Finding", "#Weight", "Reason (it: this cause)", "Source"),
        rows);
  }

  private List<String> considered(Considered considered) {
    String holds =
        considered.state() == State.APPLIES
            ? "yes"
            : considered.state() == State.OPEN ? "not known" : "no";
    return List.of(
        considered.clause().id() + " " + considered.clause().kind().id().replace('-', ' '),
        holds,
        sentence(String.join("; ", considered.why())));
  }

  private List<String> row(Weight w) {
    String what =
        w.symptom().isEmpty()
            ? "Record: " + w.why()
            : sentence(vocabulary.symptoms().get(w.symptom()).said(w.present()));
    String source = w.rule().isEmpty() ? "" : w.source();
    return List.of(what, weight(w.weight()), w.symptom().isEmpty() ? "" : w.why(), source);
  }

  private void alternatives(Sheet sheet, Dossier d) {
    sheet.section("What else it could be, and why it falls");
    List<List<String>> rows = new ArrayList<>();
    for (CauseBelief cause : d.alternatives()) {
      rows.add(List.of(cause(cause.id()), worded(cause.probability()), whyItFalls(d, cause)));
    }
    rows.add(
        List.of(
            "no fault at all",
            worded(d.diagnosis().noFaultFound()),
            "what was found does not come about by itself"));
    sheet.table("Other causes considered", List.of("Cause", "Probability", "Why it falls"), rows);
  }

  private String whyItFalls(Dossier d, CauseBelief cause) {
    List<String> reasons = new ArrayList<>();
    if (d.decided().stream().anyMatch(each -> each.decision().confirmed())) {
      reasons.add("the mended work did not confirm it");
    }
    Stream.concat(cause.history().stream(), cause.symptoms().stream())
        .filter(w -> w.weight() <= -WORTH_NAMING)
        .sorted(Comparator.comparingDouble(Weight::weight))
        .limit(NAMED)
        .forEach(w -> reasons.add(against(w)));
    cause.symptoms().stream()
        .filter(w -> w.present() && w.alone() > WORTH_NAMING && w.weight() < w.alone() / 2)
        .limit(NAMED)
        .forEach(w -> reasons.add(symptom(w.symptom()) + " is explained by what was found"));
    reasons.add("how rare it is (" + weight(cause.prior()) + ")");
    return reasons.stream().distinct().collect(Collectors.joining("; "));
  }

  private String against(Weight w) {
    String what =
        w.symptom().isEmpty()
            ? w.why()
            : w.present()
                ? symptom(w.symptom()) + " needs another cause"
                : "no " + symptom(w.symptom());
    return what + " (" + weight(w.weight()) + ")";
  }

  private void work(Sheet sheet, Dossier d) {
    sheet.section("Work done, and the acceptance");
    List<List<String>> rows = new ArrayList<>();
    for (Entry entry : d.file().history()) {
      rows.add(
          List.of(
              entry.daysAgo().isPresent()
                  ? d.file().opened().minusDays(entry.daysAgo().getAsInt()).toString()
                  : "no day told",
              name(entry.work() + entry.event()),
              doneBy(d.policy(), entry),
              Double.isNaN(entry.torqueNm()) ? "" : figure(entry.torqueNm()) + " N·m",
              entry.outcome().equals("unknown")
                  ? ""
                  : vocabulary.outcomes().get(entry.outcome()).name()));
    }
    sheet.table(
        "Works and events on record before this case",
        List.of("Day", "What", "By", "#Torque", "Came of it"),
        rows);
    d.file()
        .outcome()
        .ifPresentOrElse(
            outcome -> sheet.say(closed(outcome)),
            () -> sheet.say("The case is open: nothing has been mended and accepted yet."));
    Map<String, Double> figures = d.file().brake().makerFigures();
    sheet.table(
        "Figures of the maker on record for this brake",
        List.of("Figure", "#Value"),
        figures.entrySet().stream()
            .map(
                e ->
                    List.of(
                        sentence(e.getKey().replace('-', ' ')),
                        figure(e.getValue()) + (e.getKey().endsWith("torque") ? " N·m" : " mm")))
            .toList());
  }

  private static String doneBy(Policy policy, Entry entry) {
    if (entry.by().isEmpty()) {
      return entry.work().isEmpty() ? "" : "nobody signed";
    }
    return policy.technicians().contains(entry.by()) ? "this shop" : "others";
  }

  private String closed(Outcome outcome) {
    return "Mended"
        + (outcome.works().isEmpty()
            ? ""
            : " by: " + outcome.works().stream().map(this::name).collect(Collectors.joining(", ")))
        + (outcome.closed().isEmpty() ? "" : "; given back on " + outcome.closed().orElseThrow())
        + ". Acceptance: "
        + (outcome.confirmed().isEmpty() ? "no values on record" : outcome.confirmed())
        + ".";
  }

  private void origin(Sheet sheet, Dossier d) {
    sheet.section("So that anyone can check it");
    sheet.say(
        "A word for a probability always carries its number in brackets. Firmness"
            + " is how often a cause stays likelier than not when every number of the rules is"
            + " moved by chance, always by the same chance.");
    sheet.say(
        "The same case, policy and rule base give this dossier again, byte for byte, on any day"
            + " and in any time zone: firmlever justify CASE --policy POLICY.");
    sheet.table(
        "What this dossier was made from",
        List.of("What", "Name", "SHA-256"),
        List.of(
            List.of("Case", d.file().id(), grouped(d.caseDigest())),
            List.of(
                "Policy", d.policy().id() + ": " + d.policy().name(), grouped(d.policy().digest())),
            List.of(
                "Rule base",
                "rules and vocabulary",
                grouped(d.diagnosis().rulebase().replaceFirst("^sha256:", "")))));
  }

  /** A digest in two groups, so that it fits its column. */
  private static String grouped(String digest) {
    return digest.length() == 64 ? digest.substring(0, 32) + " " + digest.substring(32) : digest;
  }

  private String partOf(String cause) {
    return vocabulary.causes().get(cause).part();
  }

  private String part(String id) {
    return vocabulary.parts().get(id).name();
  }

  private String cause(String id) {
    return vocabulary.causes().get(id).name();
  }

  private String symptom(String id) {
    return vocabulary.symptoms().get(id).name();
  }

  /** The name of a work or an event. */
  private String name(String id) {
    if (vocabulary.actions().containsKey(id)) {
      return vocabulary.actions().get(id).name();
    }
    if (vocabulary.works().containsKey(id)) {
      return vocabulary.works().get(id).name();
    }
    return vocabulary.events().containsKey(id) ? vocabulary.events().get(id).name() : id;
  }

  private static String weight(double weight) {
    return String.format(Locale.ROOT, "%+.2f", weight).replace('-', '−');
  }

  private static String figure(double value) {
    return value == Math.rint(value)
        ? String.format(Locale.ROOT, "%.0f", value)
        : String.format(Locale.ROOT, "%s", value);
  }

  private static String sentence(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
