package firmlever.diagnosis.report;

import firmlever.belief.Chance;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.WhyNot;
import firmlever.diagnosis.WhyNot.Check;
import firmlever.diagnosis.WhyNot.NotApplied;
import firmlever.document.JsonText;
import firmlever.rulebase.Judge.Judged;
import firmlever.rulebase.Judge.Verdict;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebook.Spoken;
import firmlever.sheet.JsonForm;
import firmlever.sheet.Page;
import firmlever.vocabulary.Vocabulary;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Why not this cause: some ten lines for the person at the stand, or all of it, or for programs.
 */
public final class WhyNotReport {
  private static final double FAINT = 0.01;
  public static final String FORMAT = "firmlever-whynot/1";

  private static final int SHOWN = 3;
  private static final int RAISES_SHOWN = 2;
  private static final double WORTH_WEIGHING = 0.1;
  private static final double WORTH_EXPLAINING = 0.5;

  private final Vocabulary vocabulary;
  private final Spoken spoken;
  private final Spoken brief;
  private final int width;
  private final boolean bold;

  public WhyNotReport(Vocabulary vocabulary, int width, boolean bold) {
    this.vocabulary = vocabulary;
    this.spoken = new Spoken(vocabulary, Integer.MAX_VALUE);
    this.brief = new Spoken(vocabulary, SHOWN - 1);
    this.width = width;
    this.bold = bold;
  }

  /** As text; {@code all} of it, or what tells most. */
  public String of(WhyNot w, boolean all) {
    Page page = new Page(width, bold);
    page.heading(w.caseId() + ": why not " + cause(w.cause()) + " (" + w.cause() + ")?");
    w.impossible()
        .ifPresentOrElse(
            i ->
                page.hanging(
                    "  ",
                    "It cannot be in this brake: "
                        + i.why()
                        + " (rule \""
                        + i.rule()
                        + "\", "
                        + i.source()
                        + ")."),
            () -> standing(page, w));
    w.belief().ifPresent(belief -> balance(page, w, belief, all));
    notApplied(page, w, all);
    checks(page, w, all);
    if (w.stopRide()) {
      page.hanging("  ", "Whatever the cause, this brake is not to be ridden: triage says why.");
    }
    page.hanging("  ", vocabulary.caution("maker-first").text());
    return page.toString();
  }

  private void standing(Page page, WhyNot w) {
    w.belief()
        .ifPresent(
            b ->
                page.hanging(
                    "  ",
                    String.format(
                            Locale.ROOT,
                            "Its chance: %s, number %d of %d; ",
                            Chance.withNumber(b.probability()),
                            w.rank(),
                            w.causes())
                        + (w.leader().equals(w.cause())
                            ? "it leads."
                            : leader(w.leader())
                                + " leads, "
                                + Chance.withNumber(w.leading())
                                + ".")));
  }

  private String leader(String id) {
    return id.equals(Vocabulary.NO_FAULT_FOUND) ? "no fault at all" : cause(id);
  }

  private void balance(Page page, WhyNot w, CauseBelief belief, boolean all) {
    long most = all ? Long.MAX_VALUE : SHOWN;
    List<Weight> weights =
        Stream.concat(belief.history().stream(), belief.symptoms().stream())
            .filter(each -> all || Math.abs(each.weight()) >= WORTH_WEIGHING)
            .sorted(Comparator.comparingDouble((Weight each) -> -Math.abs(each.weight())))
            .toList();
    Map<String, List<Weight>> explained =
        weights.stream()
            .filter(each -> each.alone() >= WORTH_EXPLAINING)
            .filter(each -> w.explainedBy().containsKey(each.symptom()))
            .collect(
                Collectors.groupingBy(
                    each -> w.explainedBy().get(each.symptom()),
                    LinkedHashMap::new,
                    Collectors.toList()));
    page.hanging("  against  ", signed(belief.prior()) + "  how rare it is in any brake");
    weights.stream()
        .filter(each -> each.weight() < 0)
        .limit(most)
        .forEach(each -> page.hanging("           ", weight(each)));
    explained.entrySet().stream()
        .limit(most)
        .forEach(
            each ->
                page.hanging(
                    "           ",
                    cause(each.getKey())
                        + " explains "
                        + each.getValue().stream()
                            .map(WhyNotReport.this::thinned)
                            .collect(Collectors.joining("; "))));
    List<Weight> inFavour =
        weights.stream()
            .filter(each -> each.weight() >= 0)
            .filter(each -> explained.values().stream().noneMatch(list -> list.contains(each)))
            .limit(most)
            .toList();
    page.hanging(
        "  for      ",
        inFavour.isEmpty()
            ? "nothing" + (explained.isEmpty() ? " found" : " else")
            : inFavour.stream()
                .map(each -> thing(each) + " " + signed(each.weight()))
                .collect(Collectors.joining("; ")));
  }

  /** With its sign; what rounds to nothing has none. */
  static String signed(double weight) {
    return String.format(Locale.ROOT, "%+.1f", weight).replaceFirst("^[-+]0\\.0$", "0.0");
  }

  private String thinned(Weight each) {
    return thing(each) + " (" + signed(each.weight()) + ", alone " + signed(each.alone()) + ")";
  }

  private String weight(Weight each) {
    return signed(each.weight())
        + "  "
        + thing(each)
        + (each.symptom().isEmpty() ? "" : ": " + each.why());
  }

  private String thing(Weight each) {
    return each.symptom().isEmpty()
        ? each.why()
        : (each.hinted() ? "perhaps " : "")
            + vocabulary.symptom(each.symptom()).said(each.present());
  }

  private void notApplied(Page page, WhyNot w, boolean all) {
    if (all) {
      w.notApplied().forEach(each -> inFull(page, each));
      page.hanging("  spoke    ", String.join("; ", w.applied()));
      return;
    }
    List<NotApplied> raises = w.notApplied().stream().filter(each -> each.times() > 1).toList();
    raises.stream().limit(RAISES_SHOWN).forEach(each -> page.hanging("  not met  ", inShort(each)));
    page.hanging(
        "  ",
        String.format(
            Locale.ROOT,
            "Of its %2$d rules %1$d spoke here; %3$d of the others would raise it (--all tells each).",
            w.applied().size(),
            w.applied().size() + w.notApplied().size(),
            raises.size()));
  }

  private String inShort(NotApplied each) {
    return times(each)
        + " with: "
        + each.judgement().conditions().stream()
            .filter(judged -> judged.verdict() != Verdict.MET)
            .findFirst()
            .map(
                judged ->
                    brief.condition(judged.condition())
                        + "; here "
                        + (judged.seen().isEmpty()
                            ? verdict(judged.verdict())
                            : spoken.facts(judged)))
            .orElse(each.judgement().rule().name());
  }

  private void inFull(Page page, NotApplied each) {
    RuleText rule = each.judgement().rule();
    page.hanging("  not met  ", times(each) + "  \"" + rule.name() + "\" (" + rule.source() + ")");
    for (Judged judged : each.judgement().conditions()) {
      page.hanging(
          "           ",
          "needed: "
              + spoken.condition(judged.condition())
              + " | seen: "
              + spoken.seen(judged)
              + " | "
              + verdict(judged.verdict()));
    }
  }

  private static String times(NotApplied each) {
    return each.times() == 0
        ? "impossible"
        : each.times() == 1 ? "told" : "×" + Spoken.number(each.times());
  }

  private static String verdict(Verdict verdict) {
    return switch (verdict) {
      case MET -> "met";
      case FALSE -> "not so";
      case NOT_CHECKED -> "not checked";
      case UNKNOWN -> "not known";
      case RESTS_ON_ANOTHER -> "rests on another";
      case NOT_JUDGED -> "not judged";
    };
  }

  private void checks(Page page, WhyNot w, boolean all) {
    List<Check> telling =
        w.checks().stream()
            .filter(each -> each.swing() >= FAINT)
            .limit(all ? Long.MAX_VALUE : 1)
            .toList();
    telling.forEach(each -> page.hanging("  ", check(w, each)));
    w.stoppedEarly().forEach(what -> page.hanging("  ", what));
    if (w.belief().isPresent() && w.stoppedEarly().isEmpty() && (all || telling.isEmpty())) {
      page.hanging(
          "  ",
          "No "
              + (telling.isEmpty() ? "single" : "other")
              + (w.stopRide() ? " check that needs no test ride" : " check")
              + " would change it by a hundredth.");
    }
  }

  private String check(WhyNot w, Check check) {
    double now = w.belief().map(CauseBelief::probability).orElse(0.0);
    String most =
        w.stoppedEarly().isEmpty()
            ? "The check that would change it most: "
            : "Of the checks worked out, the one that would change it most: ";
    return (w.checks().indexOf(check) == 0 ? most : "Check: ")
        + symptom(check.symptom())
        + String.format(
            Locale.ROOT,
            " (%d min; there in %.0f of 100). Now %.2f; if it is there %.2f, if not %.2f.",
            vocabulary.symptom(check.symptom()).minutes(),
            100 * check.chance(),
            now,
            check.ifPresent(),
            check.ifAbsent());
  }

  private String symptom(String id) {
    return vocabulary.symptom(id).name();
  }

  private String cause(String id) {
    return vocabulary.cause(id).name();
  }

  /** For programs. */
  public String json(WhyNot w) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("case", w.caseId());
    json.put("format", FORMAT);
    json.put("rulebase", w.rulebase());
    json.put("cause", w.cause());
    json.put("stop-ride", w.stopRide());
    w.impossible()
        .ifPresent(
            i ->
                json.put(
                    "impossible",
                    JsonForm.map("why", i.why(), "rule", i.rule(), "source", i.source())));
    w.belief()
        .ifPresent(
            belief -> {
              json.put("rank", w.rank());
              json.put("belief", JsonReport.cause(belief));
            });
    json.put(
        "leader", JsonForm.map("id", w.leader(), "probability", JsonForm.rounded(w.leading())));
    json.put("explained-by", w.explainedBy());
    json.put("not-applied", JsonForm.each(w.notApplied(), this::json));
    json.put("applied", w.applied());
    json.put(
        "checks",
        JsonForm.each(
            w.checks(),
            c ->
                JsonForm.map(
                    "symptom", c.symptom(),
                    "chance", JsonForm.rounded(c.chance()),
                    "if-present", JsonForm.rounded(c.ifPresent()),
                    "if-absent", JsonForm.rounded(c.ifAbsent()))));
    json.put("stopped-early", w.stoppedEarly());
    return JsonText.of(json);
  }

  private Map<String, Object> json(NotApplied each) {
    RuleText rule = each.judgement().rule();
    Map<String, Object> json =
        JsonForm.map("rule", rule.name(), "source", rule.source(), "times", each.times());
    Optional.of(each.why()).filter(why -> !why.isEmpty()).ifPresent(why -> json.put("why", why));
    json.put(
        "conditions",
        JsonForm.each(
            each.judgement().conditions(),
            judged ->
                JsonForm.map(
                    "condition", judged.condition().text(),
                    "needed", spoken.condition(judged.condition()),
                    "seen", spoken.seen(judged),
                    "verdict",
                        judged.verdict().name().toLowerCase(Locale.ROOT).replace('_', '-'))));
    return json;
  }
}
