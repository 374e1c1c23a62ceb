package firmlever.warranty.policy;

import static firmlever.document.Shape.code;
import static firmlever.document.Shape.date;
import static firmlever.document.Shape.flag;
import static firmlever.document.Shape.kinds;
import static firmlever.document.Shape.list;
import static firmlever.document.Shape.measure;
import static firmlever.document.Shape.money;
import static firmlever.document.Shape.number;
import static firmlever.document.Shape.oneOf;
import static firmlever.document.Shape.text;
import static firmlever.document.Shape.whole;

import firmlever.casefile.CaseFormat;
import firmlever.document.Measures.Kind;
import firmlever.document.Shape;
import firmlever.vocabulary.Vocabulary;
import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The form of a policy file, {@code firmlever-policy/1}. Bounds are those of absurdity, as for case
 * files.
 */
public final class PolicyFormat {
  private PolicyFormat() {}

  public static final String FORMAT = "firmlever-policy/1";

  private static final Shape MONTHS = whole(0, 600);
  private static final Shape DAYS = whole(1, 20_000);
  private static final Shape PAYS = oneOf("one who pays", List.of("maker", "shop", "claimant"));
  private static final Shape SIGNER =
      Shape.object()
          .needs("code", code(), "the code of the person")
          .needs("role", text(60), "the role")
          .may("overrides", flag(), "whether they may decide otherwise than is recommended");
  private static final Shape BASIS = oneOf("a first day", List.of("fitted", "purchased"));

  /** The shape of a policy file, with the ids of the vocabulary in it. */
  public static Shape.Fields shape(Vocabulary vocabulary) {
    return Shape.object()
        .needs("format", oneOf("a format", List.of(FORMAT)), "the format of the file")
        .needs("id", code(), "the code of the policy")
        .needs("name", text(200), "what the policy is called")
        .needs("valid-from", date(), "the first day of purchase that falls under it")
        .may("valid-until", date(), "the last such day")
        .needs("technicians", list(0, code()), "the codes of the shop's own people")
        .needs("consider", number(0.05, 0.95), "from which chance on an outcome is in question")
        .needs("caused", number(0.5, 0.99), "the chance that a work or event brought the fault")
        .may("deadlines", deadlines(), "how long everybody has, in working days")
        .may("signers", list(1, SIGNER), "who may sign a decision")
        .needs("clauses", list(1, clause(vocabulary)), "the clauses");
  }

  /** The JSON Schema of a policy file. */
  public static Map<String, Object> schema(Vocabulary vocabulary) {
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", FORMAT);
    schema.putAll(shape(vocabulary).schema());
    return schema;
  }

  private static Shape clause(Vocabulary vocabulary) {
    Shape share = number(0, 1);
    Shape demands = list(1, oneOf("a kind of evidence", CaseFormat.EVIDENCE));
    Shape works = list(1, oneOf("a work", vocabulary.recordedWorks()));
    Map<String, Shape.Fields> kinds = new LinkedHashMap<>();
    for (Clause.Kind kind : Clause.Kind.values()) {
      Shape.Fields common = common(kind, vocabulary);
      kinds.put(
          kind.id(),
          switch (kind) {
            case CERTAINTY ->
                common
                    .needs("probability", share, "the probability a cause must have")
                    .needs("firmness", share, "the firmness it must have");
            case EVIDENCE -> common.needs("demands", demands, "the evidence that must be there");
            case PERIOD ->
                common
                    .needs("months", whole(1, 600), "the length of the period")
                    .needs("from", BASIS, "the day it runs from");
            case WEAR ->
                common
                    .may("from", BASIS, "the day the months are counted from")
                    .may("from-month", MONTHS, "after how many months it counts as wear");
            case WRONG_FLUID ->
                common.may(
                    "put-in-by", oneOf("one who put it in", List.of("others", "shop")), "by whom");
            case CONSEQUENCE, NOTHING_FOUND, OTHERWISE -> common;
            case CRASH, OPENED_BY_OTHERS, REPEAT_REPAIR ->
                common.needs("days", DAYS, "how many days back it counts");
            case NEGLECT ->
                common.needs("years", number(0.1, 50), "years without a change of fluid");
            case BEYOND_DUTY ->
                common.needs("most-load", measure(Kind.MASS, 10, 500), "the most rider and load");
            case OWN_WORK ->
                common
                    .needs("works", works, "the works that bring such a fault")
                    .needs("days", DAYS, "how many days back it counts");
            case GOODWILL ->
                common
                    .needs("from", BASIS, "the day the months are counted from")
                    .needs("from-month", MONTHS, "the first month of goodwill")
                    .needs("until-month", MONTHS, "the month in which it ends")
                    .needs("most-claims", whole(0, 100), "the most earlier claims")
                    .needs("share", measure(Kind.SHARE, 1, 100), "the share of the cost borne");
          });
    }
    return kinds("kind", "a kind of clause", kinds);
  }

  private static Shape.Fields common(Clause.Kind kind, Vocabulary vocabulary) {
    Shape.Fields common =
        Shape.object()
            .needs("id", code(), "the number of the clause")
            .needs("text", text(1000), "the wording of the clause");
    if (kind == Clause.Kind.NOTHING_FOUND) {
      return common.may("pays", PAYS, "who pays what the looking cost");
    }
    if (kind == Clause.Kind.OTHERWISE) {
      return withOutcome(common);
    }
    common
        .needs("priority", whole(0, 1000), "which clause goes first: the higher")
        .may(
            "causes",
            list(1, oneOf("a cause", vocabulary.causes().keySet())),
            "the causes it speaks of")
        .may(
            "parts",
            list(1, oneOf("a part", vocabulary.parts().keySet())),
            "the parts whose causes it speaks of");
    return kind.asks() || kind == Clause.Kind.CONSEQUENCE ? common : withOutcome(common);
  }

  private static Shape.Fields withOutcome(Shape.Fields common) {
    return common
        .needs(
            "outcome",
            oneOf("an outcome", List.of("cover", "refuse", "goodwill")),
            "what holds where the clause does")
        .may("cap", money(), "the most that is paid under it in one claim")
        .may("pays", PAYS, "who pays");
  }

  private static Shape deadlines() {
    Shape days = whole(1, 250);
    List<String> weekdays = Arrays.stream(DayOfWeek.values()).map(PolicyFormat::name).toList();
    return Shape.object()
        .needs("answer", days, "from the claim until it must be answered")
        .needs("papers", days, "from the answer until what is asked for must be in")
        .needs("objection", days, "from the answer within which it may be objected to")
        .needs("rest", list(0, oneOf("a day of the week", weekdays)), "the days of rest")
        .needs("free-days", list(0, date()), "other days on which nobody works")
        .needs("until", date(), "the last day the free days are told for");
  }

  static String name(DayOfWeek day) {
    return day.name().toLowerCase(Locale.ROOT);
  }
}
