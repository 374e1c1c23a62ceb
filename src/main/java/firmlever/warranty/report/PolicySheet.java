package firmlever.warranty.report;

import static firmlever.rulebase.warranty.WarrantyFacts.counted;
import static firmlever.warranty.report.ClaimWords.sentence;

import firmlever.sheet.Sheet;
import firmlever.sheet.SheetText;
import firmlever.vocabulary.Vocabulary;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Clause.Terms;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import firmlever.warranty.policy.PolicyGaps;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A policy as a table, what is odd about it, and what it makes of claims. */
public final class PolicySheet {
  private final Vocabulary vocabulary;

  public PolicySheet(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
  }

  /**
   * A claim tried.
   *
   * @param word what it comes to
   * @param clauses numbers of the clauses that decide
   * @param before the same by the other policy; empty where there is none
   */
  public record Tried(String claim, String word, String clauses, String before) {}

  /** For a terminal. */
  public String text(Policy policy, List<Tried> tried, int width, boolean bold) {
    Sheet sheet = new Sheet("Policy " + policy.id());
    sheet.say(
        policy.name()
            + ". For brakes bought from "
            + policy.validFrom()
            + policy.validUntil().map(day -> " to " + day).orElse(" on")
            + ".");
    sheet.notice("The law", Policy.LAW);
    sheet.section("The clauses, in the order in which they go");
    sheet.table(
        "A clause of higher rank goes first",
        List.of("Clause", "#Rank", "Kind", "Then", "Figures", "Speaks of", "Wording"),
        policy.clauses().stream().map(this::row).toList());
    sheet.section("Who may sign");
    sheet.items(
        policy.signers().stream()
            .map(
                signer ->
                    signer.code()
                        + " ("
                        + signer.role()
                        + ")"
                        + (signer.overrides()
                            ? ": signs, and may decide otherwise than is recommended"
                            : ": signs what is recommended"))
            .toList());
    sheet.section("To look at");
    List<String> gaps = PolicyGaps.of(policy, vocabulary);
    if (gaps.isEmpty()) {
      sheet.say("No gap and no overlap was found.");
    }
    sheet.items(gaps);
    if (!tried.isEmpty()) {
      boolean against = tried.stream().anyMatch(each -> !each.before().isEmpty());
      sheet.section("Tried on " + counted(tried.size(), "claim"));
      List<List<String>> rows = new ArrayList<>();
      for (Tried each : tried) {
        boolean differs = against && !each.before().equals(each.word() + ", " + each.clauses());
        if (!against || differs) {
          rows.add(
              against
                  ? List.of(each.claim(), each.before(), each.word() + ", " + each.clauses())
                  : List.of(each.claim(), each.word(), each.clauses()));
        }
      }
      sheet.table(
          against ? "Decided otherwise than by the other policy" : "What each comes to",
          against
              ? List.of("Claim", "The other", "This one")
              : List.of("Claim", "Outcome", "Clauses"),
          rows);
      if (against) {
        sheet.say(rows.size() + " of " + counted(tried.size(), "claim") + " decided otherwise.");
      }
    }
    return SheetText.of(sheet, width, bold);
  }

  private List<String> row(Clause clause) {
    return List.of(
        clause.id(),
        clause.priority() < 0 ? "last" : String.valueOf(clause.priority()),
        sentence(clause.kind().id().replace('-', ' ')),
        clause.result().map(Award::spoken).map(ClaimWords::sentence).orElse("As what brought it"),
        figures(clause),
        clause.causes().size() == vocabulary.causes().size()
            ? "all causes"
            : counted(clause.causes().size(), "cause"),
        clause.text());
  }

  private static String figures(Clause clause) {
    Terms t = clause.terms();
    List<String> figures = new ArrayList<>();
    add(figures, t.months() > 0, counted(t.months(), "month") + " from " + t.basis().spoken());
    add(figures, t.untilMonth() > 0, "months " + t.fromMonth() + " to " + t.untilMonth());
    add(figures, t.untilMonth() == 0 && t.fromMonth() > 0, "from month " + t.fromMonth());
    add(figures, t.days() > 0, counted(t.days(), "day"));
    add(figures, t.years() > 0, plain(t.years()) + (t.years() == 1 ? " year" : " years"));
    add(figures, t.mostKg() > 0, plain(t.mostKg()) + " kg");
    add(figures, t.probability() > 0, "chance " + plain(t.probability()));
    add(figures, t.firmness() > 0, "firmness " + plain(t.firmness()));
    t.cap().ifPresent(cap -> figures.add("at most " + cap.spoken()));
    t.demands().forEach(demand -> figures.add(demand.id()));
    return sentence(String.join(", ", figures));
  }

  private static void add(List<String> figures, boolean known, String figure) {
    if (known) {
      figures.add(figure);
    }
  }

  private static String plain(double value) {
    return String.format(Locale.ROOT, value == Math.rint(value) ? "%.0f" : "%s", value);
  }
}
