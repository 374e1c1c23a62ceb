package firmlever.warranty.report;

import static firmlever.belief.Chance.withNumber;
import static firmlever.rulebase.warranty.WarrantyFacts.counted;
import static firmlever.warranty.report.ClaimWords.sentence;
import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Outcome;
import firmlever.casefile.Fluid;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.document.Program;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.sheet.Sheet;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.CaseTold;
import firmlever.warranty.Costs;
import firmlever.warranty.Costs.Line;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Balanced;
import firmlever.warranty.Judged;
import firmlever.warranty.Judged.Considered;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Writes a dossier as a paper: what each side must read first stands first. */
final class DossierSheet {
  private static final double WORTH_NAMING = 0.3;
  private static final int NAMED = 3;

  private final Vocabulary vocabulary;
  private final ClaimWords words;

  DossierSheet(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.words = new ClaimWords(vocabulary);
  }

  Sheet of(Dossier d) {
    Sheet sheet = new Sheet("Warranty dossier of " + words.named(d));
    claim(sheet, d);
    decision(sheet, d);
    costs(sheet, d);
    found(sheet, d);
    handedIn(sheet, d.claim());
    missing(sheet, d);
    turning(sheet, d);
    int left = 0;
    for (int i = 0; i < d.balances().size(); i++) {
      Decision decision = d.judged().decisions().get(i);
      if (spokenOf(d, decision)) {
        reasons(sheet, d.judged(), decision, d.balances().get(i));
      } else {
        left++;
      }
    }
    if (left > 0) {
      sheet.say(
          "The clauses and the balance of "
              + counted(left, "less likely cause")
              + " are left out here; the dossier for programs (--json) holds them.");
    }
    alternatives(sheet, d);
    work(sheet, d);
    sheet.section("Before anyone acts on this");
    sheet.items(
        Stream.of("maker-first", "acceptance-first", "not-sure-ask")
            .map(id -> vocabulary.caution(id).text())
            .toList());
    origin(sheet, d);
    return sheet;
  }

  /** Whether the reasons of a decision are printed: it is likely, or somebody asks for it. */
  static boolean spokenOf(Dossier d, Decision decision) {
    return decision.probability() >= ClaimWords.LIKELY
        || d.judged().matters().stream()
            .anyMatch(matter -> ClaimWords.spokenOf(matter).contains(decision))
        || d.judged().decisions().get(0) == decision
        || d.claim().cause().equals(decision.cause())
        || d.costs().lines().stream()
            .anyMatch(line -> line.cost().causes().contains(decision.cause()));
  }

  private void claim(Sheet sheet, Dossier d) {
    sheet.section("The claim in short");
    sheet.say(brought(d));
    sheet.say(claimed(d));
    d.signed()
        .ifPresent(
            signed -> {
              sheet.notice(
                  "Decided",
                  d.followed()
                      ? "As recommended. " + ClaimWords.signedBy(signed)
                      : words.otherwise(d, "the claimant"));
              if (!signed.stands()) {
                sheet.say("Since it was signed:");
                sheet.items(
                    signed.changes().isEmpty()
                        ? List.of("the case file is another one, and nothing in it that decides")
                        : signed.changes());
              }
              if (!signed.stands()) {
                sheet.notice(
                    "Recommended when it was signed", sentence(signed.recommended()) + ".");
              }
            });
    sheet.notice(now("Recommended", d), words.concluded(d));
    if (!d.costs().lines().isEmpty()) {
      sheet.notice(
          "Of "
              + d.costs().total().orElseThrow().spoken()
              + (d.decidedOtherwise() ? now(", as recommended", d) : ""),
          sentence(words.totals(d.costs())) + ".");
    }
    sheet.items(ClaimWords.deadlines(d));
    sheet.notice("The law", Policy.LAW);
    sheet.table("The claim", List.of("What", "Told"), told(d));
  }

  /** Where the case has changed since it was signed, what is recommended may have, too. */
  private static String now(String recommended, Dossier d) {
    return recommended + (d.signed().filter(signed -> !signed.stands()).isPresent() ? " now" : "");
  }

  private String brought(Dossier d) {
    CaseFile file = d.file();
    return "The "
        + d.diagnosis().brake()
        + ", came in on "
        + file.opened()
        + (file.complaint().isEmpty() ? "." : " with the words “" + file.complaint() + "”.");
  }

  private String claimed(Dossier d) {
    List<Matter> matters = d.judged().matters();
    String found = matters.stream().map(words::withChances).collect(Collectors.joining("; and "));
    boolean nothing = matters.get(0).decisions().isEmpty();
    boolean asked = matters.size() == 1 && matters.get(0).chance() < d.policy().consider();
    return "Claimed is "
        + words.claimed(d.claim())
        + (nothing
            ? "; nothing wrong was found with it, " + withNumber(d.judged().none())
            : asked ? "; what is wrong with it is not known well enough" : "; found is " + found)
        + (d.beside().isEmpty()
            ? ""
            : "; found beside it, and not claimed, is "
                + d.beside().stream()
                    .map(c -> words.cause(c.id()) + ", " + withNumber(c.probability()))
                    .collect(Collectors.joining(", ")))
        + ".";
  }

  static List<List<String>> told(Dossier d) {
    Claim c = d.claim();
    List<List<String>> rows = new ArrayList<>();
    add(rows, "Number", c.number());
    add(rows, "Claimant", c.claimant());
    add(rows, "Handed in by shop", c.shop());
    add(rows, "Held as", c.holder());
    c.purchased().ifPresent(day -> add(rows, bought(c), day.toString()));
    d.file().brake().fitted().ifPresent(day -> add(rows, "Fitted", day.toString()));
    add(rows, "Fault first showed", c.arose().map(Object::toString).orElse("not told"));
    add(rows, "Came in", d.file().opened().toString());
    c.made().ifPresent(day -> add(rows, "Claimed", day.toString()));
    d.decidedOn().ifPresent(day -> add(rows, "Decided", day.toString()));
    if (c.earlier().isPresent()) {
      add(rows, "Claims before", String.valueOf(c.earlier().getAsInt()));
    }
    return rows;
  }

  /** A day of purchase, and what it rests on. */
  static String bought(Claim claim) {
    return claim.handedIn(Missing.PURCHASE_DATE.id()).isEmpty()
        ? "Bought, as told"
        : "Bought, with a proof handed in";
  }

  private static void add(List<List<String>> rows, String what, String value) {
    if (!value.isEmpty()) {
      rows.add(List.of(what, value));
    }
  }

  private void decision(Sheet sheet, Dossier d) {
    sheet.section(
        (d.decidedOtherwise() ? "The recommendation" : "The decision")
            + ", and the clauses it rests on");
    List<List<String>> rows = new ArrayList<>();
    for (Matter matter : d.judged().matters()) {
      if (matter.decisions().isEmpty()) {
        rows.add(
            List.of(
                "nothing wrong with what is claimed",
                sentence(matter.result().spoken()),
                clause(matter.clause()),
                "The chance that nothing claimed is wrong is " + withNumber(matter.chance())));
      }
      List<Decision> spokenOf = ClaimWords.spokenOf(matter);
      for (Decision each : spokenOf) {
        boolean first = each == matter.decisions().get(0);
        rows.add(
            List.of(
                words.cause(each.cause()) + ", " + withNumber(each.probability()),
                sentence(matter.result().spoken()),
                first ? clause(matter.clause()) : each.clause().id(),
                first && !matter.why().isEmpty()
                    ? sentence(words.open(matter))
                    : because(each) + due(d, each.cause())));
      }
      if (spokenOf.size() < matter.decisions().size()) {
        rows.add(others(d, matter));
      }
    }
    sheet.table(
        d.judged().matters().stream().anyMatch(matter -> matter.decisions().size() > 1)
            ? "Same decision: chances are added"
            : "What is recommended of each fault",
        List.of("Fault", "~Recommended", "Clause", "Because"),
        rows);
    elsewhere(sheet, d);
    if (!d.diagnosis().contradictions().isEmpty()) {
      sheet.part("Findings that cannot all be true");
      sheet.items(d.diagnosis().contradictions().stream().map(c -> c.why()).toList());
    }
  }

  /** The faults of a matter that are not told one by one, in one line. */
  private static List<String> others(Dossier d, Matter matter) {
    List<Decision> others = new ArrayList<>(matter.decisions());
    others.removeAll(ClaimWords.spokenOf(matter));
    boolean all = matter.decisions().size() == d.judged().decisions().size();
    return List.of(
        String.format(
            Locale.ROOT,
            "%s (%d, each %s or less) lead to the same decision",
            all ? "all other possible causes" : "other possible causes",
            others.size(),
            withNumber(others.get(0).probability())),
        sentence(matter.result().spoken()),
        others.stream()
            .map(each -> each.clause().id())
            .distinct()
            .sorted()
            .collect(Collectors.joining(" or ")),
        "");
  }

  /** What the faults would come to that are too unlikely for a decision of their own. */
  private void elsewhere(Sheet sheet, Dossier d) {
    Map<Award, List<Decision>> byResult = new TreeMap<>();
    ClaimWords.elsewhere(d)
        .forEach(each -> byResult.computeIfAbsent(each.result(), r -> new ArrayList<>()).add(each));
    if (!byResult.isEmpty()) {
      sheet.say(
          "Less likely causes would be decided otherwise: "
              + byResult.entrySet().stream()
                  .map(e -> words.some(e.getValue()) + " would be " + e.getKey().spoken())
                  .collect(Collectors.joining("; "))
              + String.format(
                  Locale.ROOT,
                  ". That does not count here: the policy considers a decision from a chance of"
                      + " %.2f on.",
                  d.policy().consider()));
    }
  }

  private static String clause(Clause clause) {
    return clause.id() + ": " + clause.text();
  }

  private String due(Dossier d, String cause) {
    return d.due().stream()
        .filter(due -> due.cause().equals(cause))
        .map(due -> ". " + words.due(due))
        .collect(Collectors.joining());
  }

  private String because(Decision decision) {
    return sentence(words.reasons(decision.why()))
        + decision
            .follows()
            .map(
                by ->
                    ": "
                        + words.cause(by.cause())
                        + ", which is "
                        + by.result().spoken()
                        + " (clause "
                        + by.clause().id()
                        + ")")
            .orElse("")
        + (decision.facts().isEmpty() || decision.follows().isPresent()
            ? ""
            : ". Facts used: "
                + decision.facts().stream().map(words::readable).collect(Collectors.joining("; ")));
  }

  private void costs(Sheet sheet, Dossier d) {
    if (d.costs().lines().isEmpty()) {
      return;
    }
    sheet.section("Who pays what");
    String currency = d.costs().total().orElseThrow().currency().getCurrencyCode();
    if (d.decidedOtherwise()) {
      d.decidedCosts()
          .ifPresentOrElse(
              costs -> lines(sheet, costs, false, "By the decision, in " + currency),
              () ->
                  sheet.say(
                      "What each pays by the decision follows from its words, and is not reckoned"
                          + " here."));
    }
    lines(
        sheet,
        d.costs(),
        true,
        (d.decidedOtherwise() ? now("As recommended", d) + ", in " : "In ")
            + currency
            + "; each work is for the faults it mends, each part for those that sit in it");
  }

  /** The lines of a claim, the payers beside the price. */
  private void lines(Sheet sheet, Costs costs, boolean reasoned, String caption) {
    List<Payer> payers = List.copyOf(costs.totals().keySet());
    List<String> head = new ArrayList<>(List.of("Work or part", "#Price"));
    payers.forEach(payer -> head.add("#" + sentence(payer.id())));
    if (reasoned) {
      head.addAll(List.of("For", "Clause"));
    }
    List<List<String>> rows = new ArrayList<>();
    for (Line line : costs.lines()) {
      List<String> row = new ArrayList<>();
      row.add(words.line(line.cost()));
      row.add(line.cost().price().amount().toPlainString());
      payers.forEach(
          payer ->
              row.add(
                  line.pays().containsKey(payer)
                      ? line.pays().get(payer).amount().toPlainString()
                      : ""));
      if (reasoned) {
        row.add(
            line.causes().isEmpty()
                ? line.clause().isPresent() ? "nothing found" : "not told"
                : line.causes().stream().map(words::cause).collect(Collectors.joining(", ")));
        row.add(line.clause().map(Clause::id).orElse("open"));
      }
      rows.add(row);
    }
    List<String> sum = new ArrayList<>(List.of("Sum"));
    sum.add(costs.total().orElseThrow().amount().toPlainString());
    payers.forEach(
        payer -> sum.add(requireNonNull(costs.totals().get(payer)).amount().toPlainString()));
    if (reasoned) {
      sum.addAll(List.of("", ""));
    }
    rows.add(sum);
    sheet.sum(caption, head, rows);
  }

  /** Every value and finding a decision may rest on. */
  private void found(Sheet sheet, Dossier d) {
    sheet.section("What was found and measured");
    sheet.table("Measured", List.of("What", "#Value"), CaseTold.readings(d.file()));
    sheet.table(
        "Looked for",
        List.of("Finding", "Seen"),
        d.file().symptoms().entrySet().stream()
            .map(
                e ->
                    switch (e.getValue()) {
                      case PRESENT -> seen(e.getKey(), true, "");
                      case ABSENT -> seen(e.getKey(), false, "");
                      case NOT_CHECKED ->
                          List.of(sentence(words.symptom(e.getKey())), "not looked for");
                    })
            .toList());
    Set<String> weighed =
        d.balances().stream()
            .flatMap(each -> each.balance().stream())
            .flatMap(balance -> balance.symptoms().stream())
            .map(Weight::symptom)
            .collect(Collectors.toSet());
    sheet.table(
        "Follows from readings, record and the findings above, and is weighed too",
        List.of("Finding", "~Seen", "Because"),
        d.diagnosis().concluded().stream()
            .filter(each -> weighed.contains(each.symptom()))
            .map(
                each ->
                    Stream.concat(
                            seen(each.symptom(), each.present(), "likely ").stream(),
                            Stream.of(sentence(each.why())))
                        .toList())
            .toList());
  }

  /** A finding and how it was seen; what is named by an absence is not denied, but said turned. */
  private List<String> seen(String id, boolean present, String likely) {
    boolean turned = !present && vocabulary.symptom(id).namesAnAbsence();
    return List.of(
        sentence(vocabulary.symptom(id).said(!turned)),
        likely + (present || turned ? "there" : "not there"));
  }

  private static void handedIn(Sheet sheet, Claim claim) {
    sheet.section("What was handed in");
    if (claim.attachments().isEmpty() && claim.statements().isEmpty()) {
      sheet.say("No paper and no signed statement.");
    }
    sheet.table(
        "Papers",
        List.of("Kind", "File", "SHA-256"),
        claim.attachments().stream()
            .map(
                paper ->
                    List.of(
                        sentence(paper.kind().replace('-', ' ')),
                        paper.file(),
                        grouped(paper.sha256())))
            .toList());
    sheet.table(
        "Signed statements",
        List.of("Kind", "By", "On", "Says"),
        claim.statements().stream()
            .map(
                s ->
                    List.of(
                        sentence(s.kind().replace('-', ' ')),
                        s.by(),
                        s.signed().toString(),
                        (s.of().isEmpty() ? "" : s.of() + ": ") + s.says()))
            .toList());
  }

  private void missing(Sheet sheet, Dossier d) {
    if (!d.missing().isEmpty()) {
      sheet.section(
          d.asks()
              ? "What to send"
              : "What the recommendation asks for, and the decision does without");
      sheet.say(
          "Nothing is counted for or against the claim before it is here; what it says may then"
              + " speak for the claim or against it.");
      List<String> items = new ArrayList<>();
      for (Missing each : d.missing()) {
        items.add(words.wanted(d, each) + " " + ClaimWords.answers(each, "the claimant"));
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

  private void turning(Sheet sheet, Dossier d) {
    sheet.section(
        "How firm "
            + (d.decidedOtherwise() ? "the recommendation" : "it")
            + " is, and what would turn it");
    d.stoppedEarly().forEach(sheet::say);
    for (Matter matter : d.judged().matters()) {
      sheet.say(
          String.format(
              Locale.ROOT,
              "%s. With every number of the rules shaken that stays likelier than not in"
                  + " %.0f of %d trials.",
              sentence(words.withChances(matter)),
              matter.firmness() * d.draws(),
              d.draws()));
    }
    if (!d.judged().confirmedBy().isEmpty()) {
      sheet.say(
          sentence(d.judged().confirmedBy())
              + " counts as evidence, and stands in the balance below.");
    }
    if (d.turns().isEmpty()) {
      sheet.say("No three further findings of those tried would change the decision.");
    }
    sheet.items(d.turns().stream().map(turn -> words.turn(d, turn)).toList());
  }

  private void reasons(Sheet sheet, Judged judged, Decision decision, Balanced balanced) {
    sheet.section("Why: " + words.cause(decision.cause()));
    sheet.table(
        "The clauses that speak of it, from the highest priority down to the one that settles it",
        List.of("Clause", "~Does it hold?", "Because"),
        decision.considered().stream().map(this::considered).toList());
    if (balanced.balance().isEmpty()) {
      sheet.say("The findings alone make this cause less likely than one in a thousand.");
      return;
    }
    CauseBelief cause = balanced.balance().orElseThrow();
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "How common it is among brakes with a complaint",
            "",
            weight(cause.prior()),
            "rule book, " + cause.id() + ": how common"));
    Stream.concat(cause.history().stream(), cause.symptoms().stream())
        .sorted(Comparator.comparingDouble((Weight w) -> -w.weight()))
        .forEach(w -> rows.add(row(w)));
    if (!judged.confirmedBy().isEmpty()) {
      rows.add(
          List.of(sentence(judged.confirmedBy()), "", weight(balanced.confirmed()), "from memory"));
    }
    rows.add(
        List.of(
            "Sum: " + withNumber(decision.probability()),
            "",
            weight(cause.logOdds() + balanced.confirmed()),
            ""));
    sheet.sum(
        "The balance of evidence: above zero speaks for this cause, below zero against it; +0.7"
            + " doubles its odds; each figure is rounded",
        List.of("Finding", "~How it goes with the fault", "#Weight", "Source"),
        rows);
  }

  private List<String> considered(Considered considered) {
    boolean asks = considered.clause().kind().asks();
    String holds =
        switch (considered.state()) {
          case APPLIES -> asks ? "asks for more" : "holds";
          case OPEN -> "not known";
          case FAILS -> asks ? "satisfied" : "does not hold";
        };
    return List.of(
        considered.clause().id() + " " + considered.clause().kind().id().replace('-', ' '),
        holds,
        sentence(words.reasons(considered.why())));
  }

  private List<String> row(Weight w) {
    String what =
        w.symptom().isEmpty()
            ? "Record: " + w.why()
            : sentence(
                (w.hinted() ? "perhaps, by the complaint: " : "")
                    + vocabulary.symptom(w.symptom()).said(w.present()));
    String source = w.rule().isEmpty() ? "" : w.source();
    return List.of(what, w.symptom().isEmpty() ? "" : w.why(), weight(w.weight()), source);
  }

  private void alternatives(Sheet sheet, Dossier d) {
    sheet.section("What else it could be, and what speaks against it");
    List<List<String>> rows = new ArrayList<>();
    if (d.alternatives().stream().anyMatch(cause -> !explained(cause).isEmpty())) {
      sheet.say(
          "What was found stays found. Where a fault above can explain a finding alone, that finding"
              + " says little for a further fault; its chance is then that of a fault of its own,"
              + " beside those above.");
    }
    for (CauseBelief cause : d.alternatives()) {
      rows.add(
          List.of(
              words.cause(cause.id()),
              withNumber(cause.probability())
                  + (explained(cause).isEmpty() ? "" : " as a fault of its own"),
              against(d, cause)));
    }
    rows.add(
        List.of(
            "nothing wrong with what is claimed",
            withNumber(d.judged().none()),
            d.judged().none() >= 0.5
                ? "nothing speaks against it, for nothing wrong was found"
                : "what was found speaks against it"));
    sheet.table(
        "Other causes considered"
            + (d.judged().confirmedBy().isEmpty() ? "" : ", by the findings alone"),
        List.of("Cause", "~Chance", "~What speaks against it"),
        rows);
  }

  /** What speaks against a cause; what is not unlikely is not called fallen. */
  private String against(Dossier d, CauseBelief cause) {
    List<String> reasons = new ArrayList<>();
    if (cause.probability() >= ClaimWords.LIKELY) {
      reasons.add("not ruled out, and no decision rests on it");
    }
    Stream.concat(cause.history().stream(), cause.symptoms().stream())
        .filter(w -> w.weight() <= -WORTH_NAMING)
        .sorted(Comparator.comparingDouble(Weight::weight))
        .limit(NAMED)
        .forEach(w -> reasons.add(against(w)));
    Map<String, List<String>> byExplaining = new LinkedHashMap<>();
    explained(cause)
        .forEach(
            w ->
                byExplaining
                    .computeIfAbsent(explaining(d, w.symptom()), by -> new ArrayList<>())
                    .add("“" + words.symptom(w.symptom()) + "”"));
    byExplaining.forEach(
        (by, what) ->
            reasons.add(
                String.join(" and ", what)
                    + (what.size() == 1 ? " is found, but " : " are found, but ")
                    + by
                    + (what.size() == 1 ? " can explain it alone" : " can explain them alone")));
    reasons.add("few brakes have it (" + weight(cause.prior()) + ")");
    return reasons.stream().distinct().collect(Collectors.joining("; "));
  }

  /** The findings that would speak for a cause, were they not explained by another one. */
  private static List<Weight> explained(CauseBelief cause) {
    return cause.symptoms().stream()
        .filter(w -> w.present() && w.alone() > WORTH_NAMING && w.weight() < w.alone() / 2)
        .limit(NAMED)
        .toList();
  }

  /** The faults found that show a symptom; where none does, it is one of the other causes. */
  private String explaining(Dossier d, String symptom) {
    String found =
        d.balances().stream()
            .flatMap(each -> each.balance().stream())
            .filter(each -> found(d, each.id()))
            .filter(
                each ->
                    each.symptoms().stream()
                        .anyMatch(w -> w.symptom().equals(symptom) && !w.rule().isEmpty()))
            .map(each -> words.cause(each.id()))
            .collect(Collectors.joining(" or "));
    return found.isEmpty() ? "another cause" : found;
  }

  private static boolean found(Dossier d, String cause) {
    return d.judged().decisions().stream()
        .anyMatch(
            each -> each.cause().equals(cause) && each.probability() >= d.policy().consider());
  }

  private String against(Weight w) {
    String what =
        w.symptom().isEmpty()
            ? w.why()
            : w.present()
                ? "“" + words.symptom(w.symptom()) + "” needs another cause"
                : vocabulary.symptom(w.symptom()).said(false);
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
              words.name(entry.work() + entry.event()),
              entry.fluid() == Fluid.UNKNOWN ? "" : entry.fluid().spoken(),
              doneBy(d.policy(), entry),
              Double.isNaN(entry.torqueNm()) ? "" : CaseTold.figure(entry.torqueNm()) + " N·m",
              entry.outcome().equals("unknown") ? "" : vocabulary.outcome(entry.outcome()).name()));
    }
    sheet.table(
        "Works and events on record before this case",
        List.of("Day", "~What", "Fluid put in", "~By whom", "#Torque", "~Came of it"),
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
                        CaseTold.figure(e.getValue())
                            + (e.getKey().endsWith("torque") ? " N·m" : " mm")))
            .toList());
  }

  private static String doneBy(Policy policy, Entry entry) {
    if (entry.by().isEmpty()) {
      return entry.work().isEmpty() ? "" : "nobody wrote down by whom";
    }
    return policy.technicians().contains(entry.by()) ? "by this shop" : "by others";
  }

  private String closed(Outcome outcome) {
    return (outcome.works().isEmpty()
            ? "Nothing mended"
            : "Mended by: "
                + outcome.works().stream().map(words::name).collect(Collectors.joining(", ")))
        + (outcome.closed().isEmpty() ? "" : "; given back on " + outcome.closed().orElseThrow())
        + ". Acceptance: "
        + (outcome.confirmed().isEmpty() ? "no values on record" : outcome.confirmed())
        + ".";
  }

  private void origin(Sheet sheet, Dossier d) {
    sheet.section("So that anyone can check it");
    sheet.say(
        "Made by firmlever "
            + Program.VERSION
            + ". A word for a probability always carries its number in brackets. Firmness"
            + " is how often a cause stays likelier than not when every number of the rules is"
            + " moved by chance, always by the same chance.");
    sheet.say(
        "The same case, policy and rule base"
            + (d.signed().isEmpty() ? "" : ", and the same history,")
            + " give this dossier again, byte for byte, on any day"
            + " and in any time zone: firmlever justify CASE --policy POLICY"
            + (d.signed().isEmpty() ? "." : " --history HISTORY."));
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

  private static String weight(double weight) {
    return String.format(Locale.ROOT, "%+.2f", weight).replace('-', '−');
  }
}
