package firmlever.warranty.report;

import static firmlever.belief.Chance.withNumber;
import static firmlever.rulebase.warranty.WarrantyFacts.counted;

import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Cost;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.Fluid;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.CaseTold;
import firmlever.warranty.Costs;
import firmlever.warranty.Dossier;
import firmlever.warranty.DueAnyway;
import firmlever.warranty.Further;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.Signed;
import firmlever.warranty.Submitted;
import firmlever.warranty.Turn;
import firmlever.warranty.policy.Deadlines;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What letter, summary and dossier say of a claim in the same words. */
final class ClaimWords {
  private final Vocabulary vocabulary;
  private final CaseTold told;

  ClaimWords(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.told = new CaseTold(vocabulary);
  }

  /** The claim by its number, and the case by its code. */
  String named(Dossier d) {
    return (d.claim().number().isEmpty() ? "claim without number" : "claim " + d.claim().number())
        + ", case "
        + d.file().id();
  }

  /** What is claimed, as part of a sentence. */
  String claimed(Claim claim) {
    if (!claim.part().isEmpty()) {
      return "the part “"
          + part(claim.part())
          + "”"
          + (claim.cause().isEmpty() ? "" : ", for “" + cause(claim.cause()) + "”");
    }
    if (!claim.complaint().isEmpty()) {
      return "“" + symptom(claim.complaint()) + "”";
    }
    return claim.cause().isEmpty()
        ? "the brake as a whole, with no part named"
        : "“" + cause(claim.cause()) + "”";
  }

  /** The decision in one sentence. */
  String concluded(Dossier d) {
    List<Matter> matters = d.judged().matters();
    String of = " of policy " + d.policy().id() + ".";
    if (d.judged().results().size() == 1) {
      return "The claim is "
          + matters.get(0).result().spoken()
          + ", by "
          + matters.stream()
              .map(matter -> "clause " + matter.clause().id())
              .distinct()
              .collect(Collectors.joining(" and "))
          + of;
    }
    return (Dossier.split(d.judged().results())
            ? "The claim is split: "
            : "The claim is decided in part: ")
        + matters.stream()
            .map(
                matter ->
                    causes(matter)
                        + " is "
                        + matter.result().spoken()
                        + " (clause "
                        + matter.clause().id()
                        + ")")
            .collect(Collectors.joining("; "))
        + ", by the clauses"
        + of;
  }

  /** The causes of a matter that are likely, or its likeliest. */
  String causes(Matter matter) {
    return matter.decisions().isEmpty()
        ? "nothing wrong"
        : likely(matter).stream()
                .map(each -> cause(each.cause()))
                .collect(Collectors.joining(" or "))
            + (others(matter) && named(matter) < 0.5 ? " or another fault" : "");
  }

  /** The same with chances: each fault its own, and one for all where there are several. */
  String withChances(Matter matter) {
    if (matter.decisions().isEmpty()) {
      return "nothing wrong, " + withNumber(matter.chance());
    }
    List<Decision> likely = likely(matter);
    String each =
        likely.stream()
            .map(d -> cause(d.cause()) + ", " + withNumber(d.probability()))
            .collect(Collectors.joining(", or "));
    return likely.size() == 1 && !others(matter)
        ? each
        : "one of these, "
            + withNumber(matter.chance())
            + ": "
            + each
            + (others(matter) ? ", or another fault" : "");
  }

  /** Whether much of the chance of a matter lies with faults too unlikely to be named. */
  private static boolean others(Matter matter) {
    return likely(matter).size() < matter.decisions().size()
        && matter.chance() - named(matter) > WORTH_NAMING;
  }

  private static double named(Matter matter) {
    return likely(matter).stream().mapToDouble(Decision::probability).sum();
  }

  private static final double WORTH_NAMING = 0.05;

  private static List<Decision> likely(Matter matter) {
    List<Decision> of = matter.decisions();
    return of.stream().filter(each -> each.probability() >= LIKELY || each == of.get(0)).toList();
  }

  /** Causes of less are not named. */
  static final double LIKELY = 0.2;

  /** The faults of a matter that a paper speaks of one by one; those left out are several. */
  static List<Decision> spokenOf(Matter matter) {
    List<Decision> likely = likely(matter);
    return likely.size() + 1 == matter.decisions().size() ? matter.decisions() : likely;
  }

  /** The faults that lead to another outcome than any that is decided on; too unlikely for it. */
  static List<Decision> elsewhere(Dossier d) {
    return d.judged().decisions().stream()
        .filter(each -> d.judged().matters().stream().noneMatch(m -> m.decisions().contains(each)))
        .toList();
  }

  /** The first of these faults, and how many more there are. */
  String some(List<Decision> decisions) {
    int more = decisions.size() - NAMED;
    // One more is named as soon as counted.
    return decisions.stream()
            .limit(more <= 1 ? decisions.size() : NAMED)
            .map(each -> cause(each.cause()))
            .collect(Collectors.joining(", "))
        + (more <= 1 ? "" : " and " + more + " more");
  }

  private static final int NAMED = 3;

  /** A work or part claimed for. */
  String line(Cost cost) {
    return cost.work().isEmpty()
        ? "part: " + part(cost.part())
        : name(cost.work()) + (cost.minutes() > 0 ? " (" + cost.minutes() + " min)" : "");
  }

  String payer(Payer payer) {
    return payer == Payer.OPEN ? "open" : "the " + payer.id();
  }

  /**
   * What was signed, by whom, when and why, where it is not what is recommended now.
   *
   * @param you how the claimant is called
   */
  String otherwise(Dossier d, String you) {
    Signed signed = d.signed().orElseThrow();
    String decided =
        d.override()
            .map(result -> overridden(result, you))
            .orElse(
                signed.override()
                    ? "“" + signed.decided() + "”"
                    : addressed(signed.decided(), you));
    return sentence(full(decided))
        + d.decidedCosts().map(costs -> ofAll(costs, you)).orElse("")
        + (signed.override() ? " Reason: " + full(signed.reason()) : "")
        + " "
        + signedBy(signed)
        + (signed.stands()
            ? ""
            : " It was decided on what was known then; what has changed since is not in it.");
  }

  private String overridden(Award result, String you) {
    return switch (result.outcome()) {
      case REFUSE, NOTHING_FOUND -> "not covered; " + pays(you);
      case COVER -> "covered; " + payer(result.pays()) + " pays";
      case GOODWILL ->
          "as goodwill "
              + payer(result.pays())
              + " pays "
              + result.sharePercent()
              + " %"
              + (result.sharePercent() == 100 ? "" : ", and " + pays(you) + " the rest");
      case ASK -> "not decided yet; more is asked for";
    };
  }

  /** A sentence of the dossier, said to the one who claims where that is who reads it. */
  static String addressed(String sentence, String you) {
    return you.equals("you")
        ? sentence.replace("the claimant's", "yours").replace("the claimant", you)
        : sentence;
  }

  private static String pays(String you) {
    return you.equals("you") ? "you pay" : you + " pays";
  }

  /** What each pays of the sum, as a sentence after another; empty where nothing has a price. */
  String ofAll(Costs costs, String you) {
    return costs
        .total()
        .map(
            total ->
                " Of "
                    + total.spoken()
                    + ", "
                    + totals(costs).replace("the claimant pays", pays(you))
                    + ".")
        .orElse("");
  }

  /** Who signed, and when; a sentence. */
  static String signedBy(Signed signed) {
    return "Signed by " + signed.by() + " (" + signed.role() + ") on " + signed.on() + ".";
  }

  private static String full(String text) {
    String said = text.strip();
    return said.matches("(?s).*[.!?]”?") ? said : said + ".";
  }

  /** What each pays, in words. */
  String totals(Costs costs) {
    return costs.totals().entrySet().stream()
        .map(
            e ->
                e.getKey() == Payer.OPEN
                    ? e.getValue().spoken() + " is open"
                    : payer(e.getKey()) + " pays " + e.getValue().spoken())
        .collect(Collectors.joining(", "));
  }

  /** What to send, and what for. */
  String wanted(Dossier d, Missing missing) {
    String matters =
        d.judged().matters().stream()
            .filter(matter -> matter.missing().contains(missing))
            .map(this::causes)
            .distinct()
            .collect(Collectors.joining(", "));
    return sentence(missing.spoken()) + (matters.isEmpty() ? "." : " (for: " + matters + ").");
  }

  /** What would change the claim, and which fault then becomes what. */
  String turn(Dossier d, Turn turn) {
    return "If "
        + turn.findings().stream().map(f -> further(d, f)).collect(Collectors.joining(", and "))
        + ": "
        + turn.after().stream().map(matter -> fate(d, matter)).collect(Collectors.joining("; "))
        + ".";
  }

  /** What a matter would come to; faults of it that are decided so already stand by themselves. */
  private String fate(Dossier d, Matter after) {
    if (after.decisions().isEmpty()) {
      return causes(after) + " would be found: " + after.result().spoken();
    }
    List<Decision> likely = likely(after);
    return Stream.of(true, false)
        .map(
            stays -> {
              String names =
                  likely.stream()
                      .filter(each -> decidedSo(d, each.cause(), after.result()) == stays)
                      .map(each -> cause(each.cause()))
                      .collect(Collectors.joining(" or "));
              return names.isEmpty()
                  ? ""
                  : names + (stays ? " would stay " : " would be ") + after.result().spoken();
            })
        .filter(said -> !said.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private static boolean decidedSo(Dossier d, String cause, Award result) {
    return d.judged().matters().stream()
        .filter(matter -> matter.result().equals(result))
        .flatMap(matter -> matter.decisions().stream())
        .anyMatch(each -> each.cause().equals(cause));
  }

  /** Why the claimant bears a part that other faults may have harmed as well; a sentence. */
  String due(DueAnyway due) {
    boolean pads = due.part().equals("pads");
    return (pads ? "A pad has " : "The rotor is ")
        + CaseTold.figure(due.measuredMm())
        + (pads
            ? " mm of friction material left, already below the limit of "
            : " mm thick, already below the limit of ")
        + CaseTold.limit(due.limit())
        + ", so "
        + (pads ? "new pads were" : "a new rotor was")
        + " due anyway"
        + (due.others().isEmpty()
            ? ""
            : ", whatever the fault “"
                + due.others().stream().map(this::cause).collect(Collectors.joining("” or “"))
                + "” did to "
                + (pads ? "them" : "it"))
        + ".";
  }

  /** Reasons, where what they rest on is said once: “the first, and the second: the same”. */
  String reasons(List<String> why) {
    Map<String, List<String>> headsByGround = new LinkedHashMap<>();
    for (String each : why) {
      int colon = each.indexOf(": ");
      headsByGround
          .computeIfAbsent(colon < 0 ? "" : each.substring(colon), ground -> new ArrayList<>())
          .add(colon < 0 ? each : each.substring(0, colon));
    }
    return readable(
        headsByGround.entrySet().stream()
            .map(
                e -> String.join(e.getKey().isEmpty() ? "; " : ", and ", e.getValue()) + e.getKey())
            .collect(Collectors.joining("; ")));
  }

  /** Why a matter is open; empty where it is decided. */
  String open(Matter matter) {
    return matter.why().isEmpty() ? "" : reasons(List.of(matter.why().split("; ")));
  }

  /** Who can answer what is missing, as a sentence. */
  static String answers(Missing missing, String claimant) {
    return sentence(
        switch (missing) {
          case PURCHASE_DATE, SERVICE_RECORD, AROSE, LOAD, PRIOR_APPROVAL ->
              claimant + " can answer this.";
          case WIPE_PUMP_HOLD, READINGS, FLUID_TEST, ORIGIN, WHAT_FOR, FINDINGS ->
              "the shop answers this.";
          case FITTED_DATE, EARLIER_CLAIMS, PHOTOS -> claimant + " or the shop can answer this.";
          case WHO_DID_IT, WHICH_FLUID, WHEN_IT_WAS ->
              claimant + " can answer this, by a bill; or the shop, by its own record of the work.";
        });
  }

  /** By when what must be done, in working days and, as far as they are known, as days. */
  static List<String> deadlines(Dossier d) {
    if (d.policy().deadlines().isEmpty()) {
      return List.of();
    }
    Deadlines deadlines = d.policy().deadlines().orElseThrow();
    LocalDate claimed = Submitted.claimDay(d.file());
    List<String> all = new ArrayList<>();
    all.add(
        "The shop must answer within "
            + counted(deadlines.answer(), "working day")
            + " of the claim"
            + until(deadlines, claimed, deadlines.answer())
            + ".");
    if (d.asks()) {
      all.add(
          "What is missing must be in within "
              + counted(deadlines.papers(), "working day")
              + " of the date of the answer"
              + answered(d, deadlines, deadlines.papers())
              + ".");
    }
    all.add(
        "The claimant may object within "
            + counted(deadlines.objection(), "working day")
            + " of the date of the answer"
            + answered(d, deadlines, deadlines.objection())
            + ".");
    return all;
  }

  /** The day itself, where the day of the answer is told. */
  static String answered(Dossier d, Deadlines deadlines, int days) {
    return d.decidedOn().map(day -> until(deadlines, day, days)).orElse("");
  }

  private static String until(Deadlines deadlines, LocalDate day, int days) {
    // Where the calendar may end before, only the number of days is told.
    return day.plusDays(2L * days + 20).isAfter(deadlines.until())
        ? ""
        : ", until " + deadlines.after(day, days);
  }

  private String further(Dossier d, Further further) {
    return switch (further.kind()) {
      case CHECKED ->
          (d.file().outcome().isPresent() ? "a check had shown “" : "a check shows “")
              + vocabulary.symptom(further.id()).said(further.value().equals("present"))
              + "”";
      case SENT_IN -> further.id().equals("arose") ? showed(d, further) : sentIn(further);
      case COMES_TO_LIGHT -> untold(d.policy(), further.entry().orElseThrow());
    };
  }

  /** Something that was done or happened, and of which nobody has told. */
  private String untold(Policy policy, Entry entry) {
    String id = entry.work() + entry.event();
    boolean event = entry.work().isEmpty();
    String by = policy.technicians().contains(entry.by()) ? "this shop " : "somebody else ";
    String day = counted(entry.daysAgo().orElseThrow(), "day") + " before the case";
    return (event ? "" : by)
        + vocabulary
            .done(id)
            .orElse(event ? "this happened: “" + name(id) + "”," : "did “" + name(id) + "”")
        + " "
        + day
        + (entry.fluid() == Fluid.UNKNOWN ? "" : ", with " + entry.fluid().spoken() + " put in")
        + ", and nobody wrote it down";
  }

  /** A day on which the fault may have shown, and whether it is the last or first of its kind. */
  private static String showed(Dossier d, Further further) {
    LocalDate day = LocalDate.parse(further.value());
    List<Award> on = outcomesOn(d, day);
    boolean last = differs(on, outcomesOn(d, day.plusDays(1)));
    boolean first = differs(on, outcomesOn(d, day.minusDays(1)));
    return "the fault first showed "
        + (last == first ? "on " : last ? "as late as " : "as early as ")
        + day;
  }

  private static boolean differs(List<Award> one, List<Award> other) {
    return !one.isEmpty() && !other.isEmpty() && !one.equals(other);
  }

  /**
   * What the claim would come to by that day alone; empty where that was not tried or turns
   * nothing.
   */
  private static List<Award> outcomesOn(Dossier d, LocalDate day) {
    return d.turns().stream()
        .filter(turn -> turn.findings().size() == 1)
        .filter(turn -> turn.findings().get(0).id().equals("arose"))
        .filter(turn -> turn.findings().get(0).value().equals(day.toString()))
        .findFirst()
        .map(Turn::becomes)
        .orElse(List.of());
  }

  private static String sentIn(Further further) {
    return switch (further.id()) {
      case "origin" -> "one of this shop signs that the fault comes of: " + further.value();
      case "prior-approval" -> "the approval before the work is handed in";
      case "who-did-it" -> "the unsigned work was done by " + further.value();
      case "which-fluid" -> "the fluid put in and not told was " + further.value();
      case "when-it-was" -> "the undated entry was " + further.value();
      case "purchase-date" ->
          further.value().equals("handed in")
              ? "the day of purchase is handed in with its proof"
              : "it was bought on " + further.value() + ", with the proof";
      case "fitted-date" -> "it was fitted on " + further.value();
      case "load" -> "rider and load weigh " + further.value();
      case "earlier-claims" -> "the number of earlier claims is " + further.value();
      case "wipe-pump-hold" -> "the record of a wipe-pump-hold round is handed in";
      case "service-record" -> "the whole service record is handed in and shows no fluid change";
      case "fluid-test" -> "a test of the fluid is handed in";
      default -> further.id() + " are handed in";
    };
  }

  String part(String id) {
    return vocabulary.part(id).name();
  }

  String cause(String id) {
    return vocabulary.cause(id).name();
  }

  String symptom(String id) {
    return vocabulary.symptom(id).name();
  }

  /** The name of a work or an event. */
  String name(String id) {
    return told.called(id);
  }

  /** Ids of works, events and faults within a sentence of a rule, as people call them. */
  String readable(String sentence) {
    return told.readable(sentence);
  }

  static String sentence(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
