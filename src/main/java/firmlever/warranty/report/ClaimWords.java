package firmlever.warranty.report;

import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Cost;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.Dossier;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Dossier.Matter;
import firmlever.warranty.Dossier.Turn;
import firmlever.warranty.Further;
import firmlever.warranty.Outcome.Payer;
import firmlever.warranty.Outcome.Result;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What letter, summary and dossier say of a claim in the same words. */
final class ClaimWords {
  private final Vocabulary vocabulary;

  ClaimWords(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
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
      return "that “" + symptom(claim.complaint()) + "” is there";
    }
    return claim.cause().isEmpty()
        ? "the brake, with no part named"
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
    return (Dossier.word(d.judged().results()).equals("split")
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
    List<Decision> of = matter.decisions();
    return of.isEmpty()
        ? "nothing wrong"
        : of.stream()
            .filter(each -> each.probability() >= LIKELY || each == of.get(0))
            .map(each -> cause(each.cause()))
            .collect(Collectors.joining(" or "));
  }

  private static final double LIKELY = 0.2;

  /** A work or part claimed for. */
  String line(Cost cost) {
    return cost.work().isEmpty()
        ? "part: " + part(cost.part())
        : name(cost.work()) + (cost.minutes() > 0 ? " (" + cost.minutes() + " min)" : "");
  }

  String payer(Payer payer) {
    return payer == Payer.OPEN ? "open" : "the " + payer.id();
  }

  /** What each pays, in words. */
  String totals(Dossier d) {
    return d.costs().totals().entrySet().stream()
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

  String turn(Turn turn) {
    return "If "
        + turn.findings().stream().map(this::further).collect(Collectors.joining(", and "))
        + ": the claim would be "
        + turn.becomes().stream().map(Result::spoken).collect(Collectors.joining("; and "))
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
      case "arose" -> "the fault first showed on " + further.value();
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
    return vocabulary.parts().get(id).name();
  }

  String cause(String id) {
    return vocabulary.causes().get(id).name();
  }

  String symptom(String id) {
    return vocabulary.symptoms().get(id).name();
  }

  /** The name of a work or an event. */
  String name(String id) {
    if (vocabulary.actions().containsKey(id)) {
      return vocabulary.actions().get(id).name();
    }
    if (vocabulary.works().containsKey(id)) {
      return vocabulary.works().get(id).name();
    }
    return vocabulary.events().containsKey(id) ? vocabulary.events().get(id).name() : id;
  }

  /** Ids of works, events and faults within a sentence of a rule, as people call them. */
  String readable(String sentence) {
    String said = sentence;
    for (String word : sentence.split("[ ,:;()]+")) {
      if (word.contains("-")) {
        String name = vocabulary.causes().containsKey(word) ? cause(word) : name(word);
        said = said.replace(word, name);
      }
    }
    return said;
  }

  static String sentence(String text) {
    return text.isEmpty()
        ? text
        : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
