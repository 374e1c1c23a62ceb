package firmlever.warranty.report;

import static firmlever.rulebase.warranty.WarrantyFacts.counted;
import static firmlever.warranty.report.ClaimWords.sentence;

import firmlever.document.Money;
import firmlever.document.Program;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.sheet.Sheet;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.CaseTold;
import firmlever.warranty.Costs;
import firmlever.warranty.Costs.Line;
import firmlever.warranty.Dossier;
import firmlever.warranty.Further;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.Submitted;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Deadlines;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** The papers beside the dossier: a letter in plain words, and a summary on one page. */
final class ClaimLetter {
  private static final int SENTENCES = 3;

  /** What the heading of a summary says already, or nobody needs to sign. */
  private static final Set<String> HEADED =
      Set.of("Number", "Handed in by shop", "Held as", "Fitted");

  /** A line to write on by hand. */
  private static final String BLANK = "\u2026\u2026\u2026\u2026";

  private final ClaimWords words;

  ClaimLetter(Vocabulary vocabulary) {
    this.words = new ClaimWords(vocabulary);
  }

  /** The letter to the claimant. */
  Sheet letter(Dossier d) {
    Sheet sheet = new Sheet("Your " + words.named(d));
    sheet.table(
        "Fill in what is blank before this goes out",
        List.of("You, with name and address", "Shop, with its address", "Date of this letter"),
        List.of(
            List.of(
                (d.claim().claimant() + " " + BLANK + BLANK).strip(),
                BLANK + BLANK,
                d.decidedOn().map(LocalDate::toString).orElse(BLANK))));
    sheet.say(
        "On "
            + Submitted.claimDay(d.file())
            + " you claimed, for brake "
            + d.file().brake().id()
            + ", "
            + words.claimed(d.claim())
            + ".");
    if (d.decidedOtherwise()) {
      boolean left = d.override().filter(Award.ASKED::equals).isPresent();
      sheet.notice(left ? "We left it open" : "We decided", words.otherwise(d, "you"));
    } else {
      sheet.notice(
          headed(d), plain(d) + d.signed().map(s -> " " + ClaimWords.signedBy(s)).orElse(""));
      sheet.section("Why");
      sheet.items(reasons(d, true));
    }
    measured(sheet, d);
    costs(sheet, d, "you");
    papers(sheet, d);
    couldCount(sheet, d);
    sheet.together(
        end -> {
          end.section("If you do not agree");
          end.say(
              "Write to the shop and give the number of the claim. Say what you see otherwise, and send"
                  + " what shows it. Somebody who did not decide the first time reads it. "
                  + within(d, false)
                  + " The dossier, with every finding and clause, is yours on request.");
          end.notice("The law", toYou(Policy.LAW));
          signature(end, d);
          end.say("Made by firmlever " + Program.VERSION + ", by policy " + d.policy().id() + ".");
        });
    return sheet;
  }

  /** What the box with the decision is called. */
  private static String headed(Dossier d) {
    if (open(d) && !decided(d)) {
      return "Not decided yet";
    }
    return (d.followed() ? "We decided" : "What we propose")
        + (open(d) ? "; a part is not decided yet" : "");
  }

  /** Everything that a foreman must know to sign, on one page. */
  Sheet summary(Dossier d) {
    Sheet sheet = new Sheet("Summary of " + words.named(d));
    sheet.say(
        "Brake "
            + d.file().brake().id()
            + ". Claimed is "
            + words.claimed(d.claim())
            + ". "
            + DossierSheet.told(d).stream()
                .filter(row -> !HEADED.contains(row.get(0)))
                .map(row -> row.get(0) + ": " + row.get(1))
                .collect(Collectors.joining("; "))
            + ".");
    if (d.decidedOtherwise()) {
      sheet.notice("Decided", words.otherwise(d, "the claimant"));
    }
    // What is signed names who did; a line to sign on is needed only before.
    sheet.notice(
        d.followed() ? "Decided as recommended" : "Recommended",
        words.concluded(d)
            + d.signed()
                .filter(signed -> d.followed())
                .map(signed -> " " + ClaimWords.signedBy(signed))
                .orElse(""));
    sheet.section(d.decidedOtherwise() ? "Why that was recommended" : "Why");
    sheet.items(reasons(d, false));
    measured(sheet, d);
    costs(sheet, d, "the claimant");
    if (d.asks()) {
      sheet.section("Missing");
      sheet.items(
          d.missing().stream()
              .map(each -> words.wanted(d, each) + " " + ClaimWords.answers(each, "the claimant"))
              .toList());
    }
    if (d.policy().deadlines().isPresent()) {
      sheet.say(String.join(" ", ClaimWords.deadlines(d)));
    }
    sheet.notice("The law", Policy.LAW);
    if (d.signed().isEmpty()) {
      signature(sheet, d);
    }
    origin(sheet, d);
    return sheet;
  }

  /** Whether something is open still. */
  private static boolean open(Dossier d) {
    return d.judged().results().contains(Award.ASKED) || d.costs().totals().containsKey(Payer.OPEN);
  }

  /** Whether something is decided already. */
  private static boolean decided(Dossier d) {
    return d.judged().results().stream().anyMatch(result -> !result.equals(Award.ASKED));
  }

  /** The decision as one would say it across the counter. */
  private String plain(Dossier d) {
    return (decided(d) ? matters(d) : "We need more to decide; what it is stands below.")
        + words.ofAll(d.costs(), "you")
        + (!d.costs().lines().isEmpty() && open(d) && decided(d)
            ? " Only what is called open is not decided yet; the rest is."
            : "");
  }

  private String matters(Dossier d) {
    return d.judged().matters().stream()
        .map(
            matter ->
                sentence(
                    switch (matter.result().outcome()) {
                      case COVER ->
                          words.causes(matter)
                              + ": "
                              + words.payer(matter.result().pays())
                              + " pays.";
                      case GOODWILL ->
                          String.format(
                              Locale.ROOT,
                              "%s: the period is over; as goodwill %s pays %d %%%s, and you pay"
                                  + " the rest.",
                              words.causes(matter),
                              words.payer(matter.result().pays()),
                              matter.result().sharePercent(),
                              matter
                                  .clause()
                                  .terms()
                                  .cap()
                                  .map(cap -> ", at most " + cap.spoken())
                                  .orElse(""));
                      case REFUSE -> words.causes(matter) + ": not covered; you pay.";
                      case NOTHING_FOUND ->
                          "we found nothing wrong with what you claimed for; looking is paid by "
                              + called(matter.result().pays(), "you")
                              + (d.costs().lines().isEmpty()
                                  ? "; no price of it stands in this claim."
                                  : ".");
                      case ASK -> words.causes(matter) + ": not decided yet; we need more.";
                    }))
        .collect(Collectors.joining(" "));
  }

  /** Three sentences at most: for each outcome its clause, and what makes it hold. */
  private List<String> reasons(Dossier d, boolean toClaimant) {
    List<String> reasons = new ArrayList<>();
    for (Matter matter : d.judged().matters()) {
      // Chances are for those who check the decision; they stand in the dossier.
      boolean unsure = toClaimant && matter.clause().kind() == Clause.Kind.CERTAINTY;
      String clause =
          "Clause "
              + matter.clause().id()
              + ": "
              + (unsure
                  ? "we decide once the cause is sure enough."
                  : "“" + matter.clause().text() + "”");
      if (matter.decisions().isEmpty()) {
        reasons.add(clause);
        continue;
      }
      Decision lead = matter.decisions().get(0);
      String why =
          unsure
              ? "which fault it is, is not sure enough yet"
              : matter.why().isEmpty() ? words.readable(lead.why().get(0)) : words.open(matter);
      String follows =
          lead.follows()
              .filter(by -> matter.why().isEmpty())
              .map(by -> ": " + words.cause(by.cause()))
              .orElse("");
      String facts =
          lead.facts().isEmpty() || !follows.isEmpty() || !matter.why().isEmpty()
              ? ""
              : " ("
                  + lead.facts().stream().map(words::readable).collect(Collectors.joining("; "))
                  + ")";
      String due =
          d.due().stream()
              .filter(
                  each -> matter.decisions().stream().anyMatch(x -> x.cause().equals(each.cause())))
              .map(each -> words.due(each) + " ")
              .distinct()
              .collect(Collectors.joining());
      String others =
          !matter.result().equals(Award.ASKED)
                  && matter.decisions().size() > ClaimWords.spokenOf(matter).size()
                  && matter.decisions().size() == d.judged().decisions().size()
              ? "All other possible causes lead to the same decision. "
              : "";
      String reason = words.causes(matter) + ": " + why + follows + facts + ". " + due + others;
      reasons.add(
          sentence(toClaimant ? toYou(reason).replaceAll(", probability [0-9.]+", "") : reason)
              + clause);
    }
    return reasons.stream().limit(SENTENCES).toList();
  }

  private static void measured(Sheet sheet, Dossier d) {
    List<List<String>> readings = CaseTold.readings(d.file());
    if (!readings.isEmpty()) {
      sheet.say(
          "Measured: "
              + readings.stream()
                  .map(row -> String.join(" ", row))
                  .collect(Collectors.joining("; "))
              + ".");
    }
  }

  /** Who pays what; {@code you} is what the claimant is called. */
  private void costs(Sheet sheet, Dossier d, String you) {
    if (d.costs().lines().isEmpty()) {
      return;
    }
    String currency = d.costs().total().orElseThrow().currency().getCurrencyCode();
    Optional<Costs> settled = d.decidedCosts();
    Costs costs = settled.orElse(d.costs());
    List<List<String>> rows = new ArrayList<>();
    for (Line line : costs.lines()) {
      rows.add(
          row(
              settled.isPresent(),
              sentence(words.line(line.cost())),
              line.cost().price(),
              line.pays().entrySet().stream()
                  .map(
                      e ->
                          called(e.getKey(), you)
                              + (line.pays().size() == 1
                                  ? ""
                                  : " " + e.getValue().amount().toPlainString()))
                  .collect(Collectors.joining(", "))));
    }
    rows.add(
        row(
            settled.isPresent(),
            "Sum",
            costs.total().orElseThrow(),
            costs.totals().entrySet().stream()
                .map(e -> called(e.getKey(), you) + " " + e.getValue().amount().toPlainString())
                .collect(Collectors.joining(", "))));
    sheet.section(settled.isPresent() ? "Who pays what" : "What it is about");
    sheet.sum(
        "In "
            + currency
            + (settled.isPresent() ? "" : "; who pays follows from the decision above"),
        settled.isPresent()
            ? List.of("Work or part", "#Price", "Paid by")
            : List.of("Work or part", "#Price"),
        rows);
  }

  /** A line of the table; without a payer where the decision does not say who pays it. */
  private static List<String> row(boolean settled, String what, Money price, String payers) {
    String amount = price.amount().toPlainString();
    return settled ? List.of(what, amount, payers) : List.of(what, amount);
  }

  private String called(Payer payer, String you) {
    return payer == Payer.CLAIMANT ? you : words.payer(payer);
  }

  private void papers(Sheet sheet, Dossier d) {
    if (!d.asks()) {
      return;
    }
    sheet.section("What is missing, and who can answer it");
    sheet.items(
        d.missing().stream()
            .map(each -> words.wanted(d, each) + " " + ClaimWords.answers(each, "you"))
            .toList());
    sheet.say(
        "Nothing is counted before it is here; what it says may then speak for your claim or"
            + " against it. "
            + within(d, true));
  }

  /** A sentence of the dossier, said to the claimant. */
  private static String toYou(String sentence) {
    return ClaimWords.addressed(sentence, "you");
  }

  /**
   * What else can be told or sent in, where that would change something. Which answer pays is not
   * said: it is asked for as it is, not as it would help.
   */
  private void couldCount(Sheet sheet, Dossier d) {
    List<Missing> asked = d.missing();
    List<String> more =
        d.turns().stream()
            .flatMap(turn -> turn.findings().stream())
            .filter(finding -> finding.kind() == Further.Kind.SENT_IN)
            .map(finding -> Further.missing(finding.id()))
            .distinct()
            .filter(each -> !asked.contains(each))
            .sorted()
            .map(each -> sentence(each.spoken()) + ". " + ClaimWords.answers(each, "you"))
            .toList();
    if (!more.isEmpty() && !d.decidedOtherwise()) {
      sheet.section("What else would count, for your claim or against it");
      sheet.items(more);
    }
  }

  /** By when, in working days, and the day itself where the day of the decision is told. */
  private static String within(Dossier d, boolean forPapers) {
    if (d.policy().deadlines().isEmpty()) {
      return "The policy names no day by which.";
    }
    Deadlines deadlines = d.policy().deadlines().orElseThrow();
    int days = forPapers ? deadlines.papers() : deadlines.objection();
    return "You have "
        + counted(days, "working day")
        + " from the date of this letter"
        + ClaimWords.answered(d, deadlines, days)
        + ".";
  }

  private static void signature(Sheet sheet, Dossier d) {
    sheet.table(
        d.signed().isPresent()
            ? "A person has decided"
            : "A person decides; this is a recommendation until it is signed",
        List.of("Signed by (code)", "Role", "Day"),
        List.of(
            d.signed()
                .map(signed -> List.of(signed.by(), signed.role(), signed.on().toString()))
                .orElse(List.of(BLANK, BLANK, BLANK))));
  }

  private static void origin(Sheet sheet, Dossier d) {
    sheet.say(
        "Made by firmlever "
            + Program.VERSION
            + ". SHA-256 begins with: case "
            + d.caseDigest().substring(0, 16)
            + ", policy "
            + d.policy().digest().substring(0, 16)
            + ", rule base "
            + d.diagnosis().rulebase().replaceFirst("^sha256:", "").substring(0, 16)
            + ".");
  }
}
