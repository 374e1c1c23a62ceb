package firmlever.comeback.report;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Cluster;
import firmlever.comeback.Groups;
import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.Habit;
import firmlever.comeback.Learning;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.statistics.FairComparison.Check;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RiskDifference;
import firmlever.comeback.statistics.SurvivalCurve.Scale;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relation;
import firmlever.document.JsonText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The review for programs: {@code firmlever-review/1}. */
public final class ReviewJson {
  private ReviewJson() {}

  private static final int HABITS = 20;
  private static final int SHOWN = 20;
  private static final int DEAREST = 60;
  private static final double LEVEL = ReviewAnswers.LEVEL;

  /** The whole review as JSON text. */
  public static String of(Findings found, ReviewInput input) {
    Map<String, Object> top = map();
    top.put("format", "firmlever-review/1");
    top.put("records", input.records());
    top.put("rejected", input.rejected());
    top.put("skipped", input.skipped());
    top.put("remarks", input.remarks());
    top.put("files-not-read", input.filesNotRead());
    top.put("complaints-heard", input.heard());
    top.put("complaints-not-understood", input.unheard());
    top.put("visits", found.visits());
    top.put("brakes", found.brakes());
    top.put("with-outcome", found.recorded());
    top.put("from", found.from().toString());
    top.put("to", found.definition().end().toString());
    top.put("days", List.of(found.definition().shortDays(), found.definition().longDays()));
    top.put("within", proportion(found.within(), found.withinCases()));
    top.put("within-long", proportion(found.withinLong(), found.withinLongCases()));
    top.put("comebacks", found.all().count());
    Map<String, Object> reasons = map();
    for (Reason reason : Reason.OF_COMEBACKS) {
      reasons.put(reason.id(), cases(requireNonNull(found.reasons().get(reason))));
    }
    top.put("reasons", reasons);
    top.put("related", related(found));
    top.put("causes", found.causes().stream().map(n -> named("cause", n)).toList());
    top.put(
        "treated-and-found",
        found.matrix().stream()
            .map(
                cell -> {
                  Map<String, Object> each = map();
                  each.put("treated", cell.treated());
                  each.put("found", cell.found());
                  each.putAll(cases(cell.cases()));
                  return each;
                })
            .toList());
    top.put("diagnosis", diagnosis(found));
    top.put("avoidable", avoidable(found));
    top.put("not-back", curve(found));
    top.put(
        "mean-returns",
        found.meanReturns().steps().stream()
            .map(
                s -> {
                  Map<String, Object> each = map();
                  each.put("week", s.time());
                  each.put("at-risk", s.atRisk());
                  each.put("mean", s.mean());
                  each.put("low", s.interval(LEVEL).low());
                  each.put("high", s.interval(LEVEL).high());
                  return each;
                })
            .toList());
    top.put("months", months(found));
    found
        .trend()
        .ifPresent(
            t -> {
              Map<String, Object> each = map();
              each.put("laplace", t.laplace());
              each.put("chance", t.laplaceChance());
              each.put("shape", t.shape());
              top.put("trend", each);
            });
    found
        .weibull()
        .ifPresent(
            w -> {
              Map<String, Object> each = map();
              each.put("shape", w.shape());
              each.put("scale-days", w.scale());
              top.put("weibull", each);
            });
    found
        .nextMonth()
        .ifPresent(
            n -> {
              Map<String, Object> each = map();
              each.put("days", Backtest.DAYS);
              each.put("expected", n.expected());
              interval(each, n.interval(LEVEL));
              each.put("visits-out", n.units());
              top.put("forecast", each);
            });
    if (!found.changes().isEmpty()) {
      top.put("changes", found.changes().stream().map(ReviewJson::change).toList());
    }
    found.backtest().ifPresent(result -> top.put("backtest", backtest(result)));
    top.put("groups", found.brakeGroups().stream().map(ReviewJson::comparison).toList());
    top.put("verdicts-on-persons", check(found.persons()));
    top.put("verdicts-on-things", check(found.things()));
    top.put("patterns", found.clusters().stream().map(ReviewJson::cluster).toList());
    if (found.calibration().statements() > 0) {
      top.put("brier", found.calibration().brier());
      top.put("calibration-error", found.calibration().expectedError());
    }
    found.learning().ifPresent(learning -> top.put("learning", learning(learning)));
    return JsonText.of(top);
  }

  private static Map<String, Object> change(ChangeSeries.Effect effect) {
    Map<String, Object> each = map();
    each.put("day", effect.change().day().toString());
    each.put("words", effect.change().words());
    each.put("days", effect.days());
    each.put("same-work", difference(effect.after(), effect.chance()));
    each.put("later-half-before", difference(effect.earlier(), effect.earlierChance()));
    each.put(
        "steps",
        effect.steps().stream()
            .map(
                s -> {
                  Map<String, Object> step = map();
                  step.put("from", s.from().toString());
                  step.putAll(proportion(s.count(), Cases.NONE));
                  return step;
                })
            .toList());
    return each;
  }

  private static Map<String, Object> difference(RiskDifference difference, double chance) {
    Map<String, Object> each = map();
    each.put("events", difference.own().events());
    each.put("of", difference.own().trials());
    each.put("before-events", difference.others().events());
    each.put("before-of", difference.others().trials());
    each.put("difference", difference.difference());
    interval(each, difference.interval(LEVEL));
    each.put("chance", chance);
    return each;
  }

  private static Map<String, Object> backtest(Backtest.Result result) {
    Map<String, Object> each = map();
    each.put("held", result.held().events());
    each.put("of", result.held().trials());
    each.put(
        "trials",
        result.trials().stream()
            .map(
                t -> {
                  Map<String, Object> trial = map();
                  trial.put("until", t.day().toString());
                  trial.put("expected", t.expected());
                  interval(trial, t.interval());
                  trial.put("came", t.came());
                  trial.put("held", t.held());
                  return trial;
                })
            .toList());
    return each;
  }

  private static Map<String, Object> map() {
    return new LinkedHashMap<>();
  }

  private static Map<String, Object> proportion(Proportion count, Cases cases) {
    Map<String, Object> each = map();
    each.put("events", count.events());
    each.put("of", count.trials());
    count.rate().ifPresent(rate -> each.put("rate", rate));
    interval(each, count.wilson(LEVEL));
    each.put("cases", ids(cases));
    return each;
  }

  private static void interval(Map<String, Object> into, Interval interval) {
    into.put("low", interval.low());
    into.put("high", interval.high());
  }

  private static Map<String, Object> cases(Cases cases) {
    Map<String, Object> each = map();
    each.put("count", cases.count());
    each.put("cases", ids(cases));
    return each;
  }

  private static List<String> ids(Cases cases) {
    return cases.shown().stream().limit(SHOWN).map(Comeback::second).toList();
  }

  private static Map<String, Object> related(Findings found) {
    Map<String, Object> each = map();
    each.put("from-chance", Relation.RELATED_FROM);
    each.put("fault-brings-other", Relation.BRINGS);
    each.put("anew-in-days", Relation.ANEW_IN_DAYS);
    for (Relation.Ground ground : Relation.Ground.values()) {
      Map<String, Object> judged = cases(requireNonNull(found.relations().get(ground)));
      judged.put("comeback", ground.related());
      each.put(ground.id(), judged);
    }
    return each;
  }

  private static Map<String, Object> named(String kind, Findings.Named named) {
    Map<String, Object> each = map();
    each.put(kind, named.id());
    each.putAll(cases(named.cases()));
    return each;
  }

  private static Map<String, Object> diagnosis(Findings found) {
    Map<String, Object> each = map();
    each.put("true-cause-first", proportion(found.first(), Cases.NONE));
    each.put("true-cause-in-first-three", proportion(found.firstThree(), Cases.NONE));
    Map<String, Object> wrong = map();
    wrong.put("all", cases(found.wrong().all()));
    wrong.put("first", cases(found.wrong().first()));
    wrong.put("first-three", cases(found.wrong().three()));
    wrong.put("plan-leads-to-it", cases(found.wrong().planned()));
    each.put("wrong-cause", wrong);
    each.put("checks-left-out", found.checks().stream().map(n -> named("check", n)).toList());
    each.put("too-many-symptoms", found.tooManySymptoms());
    return each;
  }

  private static Map<String, Object> avoidable(Findings found) {
    Map<String, Object> each = map();
    each.put("count", found.avoidable().count());
    each.put("minutes", found.minutesSaved());
    each.put("comeback-minutes", found.costs().comebackMinutes());
    each.put("avoidable-by-chance", paired(found.chanceLevel().avoidable()));
    each.put("wrong-cause-by-chance", paired(found.chanceLevel().wrongCause()));
    each.put("stood-first-by-chance", paired(found.chanceLevel().stoodFirst()));
    each.put("beyond-chance", found.chanceLevel().beyondChance());
    each.put("habits", found.habits().stream().limit(HABITS).map(ReviewJson::habit).toList());
    each.put("kinds", found.avoidableKinds().stream().map(n -> named("kind", n)).toList());
    each.put(
        "shown",
        found.avoidable().shown().stream().limit(DEAREST).map(ReviewJson::comeback).toList());
    return each;
  }

  private static Map<String, Object> paired(PairedShare level) {
    Map<String, Object> each = map();
    each.put("judged", level.units());
    each.put("seen", level.first().rate().orElse(0));
    each.put("by-chance", level.second().rate().orElse(0));
    each.put("beyond", level.difference());
    interval(each, level.interval(LEVEL));
    return each;
  }

  private static Map<String, Object> habit(Habit habit) {
    Map<String, Object> each = map();
    each.put("check", habit.check());
    each.put(habit.place().afterWork() ? "after-work" : "complaint", habit.place().id());
    each.putAll(cases(habit.caught()));
    each.put("checks", habit.checks());
    each.put("cost-minutes", habit.costMinutes());
    each.put("gain-minutes", habit.gainMinutes());
    each.put("net-minutes", habit.netMinutes());
    each.put("break-even-checks", habit.breakEvenChecks());
    return each;
  }

  private static Map<String, Object> comeback(Comeback c) {
    Map<String, Object> each = map();
    each.put("brake", c.brake());
    each.put("first", c.first());
    each.put("second", c.second());
    each.put("also-after", c.alsoAfter());
    each.put("related-by", c.relation().ground().id());
    if (!Double.isNaN(c.relation().chance())) {
      each.put("related-chance", c.relation().chance());
    }
    each.put("days", c.days());
    each.put("treated", c.treated());
    each.put("found", c.found());
    each.put("reason", c.reason().id());
    each.put("place", c.place());
    each.put("probability", c.probability());
    each.put("check", c.check());
    each.put("minutes", c.minutesSaved());
    each.put("sentence", c.sentence());
    return each;
  }

  private static List<Object> curve(Findings found) {
    List<Object> steps = new ArrayList<>();
    for (int day = 0; day <= ReviewAnswers.CURVE_DAYS; day += 5) {
      Map<String, Object> each = map();
      each.put("day", day);
      each.put("not-back", found.curve().survival(day));
      interval(each, found.curve().interval(day, LEVEL, Scale.LOG_LOG));
      steps.add(each);
    }
    return steps;
  }

  private static List<Object> months(Findings found) {
    List<Object> months = new ArrayList<>();
    for (int i = 0; i < found.months().size(); i++) {
      Findings.Month month = found.months().get(i);
      Map<String, Object> each = map();
      each.put("month", month.month().toString());
      each.put("whole", month.whole());
      each.putAll(proportion(month.count(), month.cases()));
      int at = i;
      found
          .chart()
          .ifPresent(
              chart -> {
                each.put("limit-low", chart.points().get(at).limits().low());
                each.put("limit-high", chart.points().get(at).limits().high());
                each.put(
                    "signal",
                    chart.points().get(at).signal().name().toLowerCase(java.util.Locale.ROOT));
              });
      months.add(each);
    }
    return months;
  }

  private static Map<String, Object> comparison(Comparison comparison) {
    Map<String, Object> each = map();
    each.put("by", comparison.trait().id());
    comparison.paces().ifPresent(test -> each.put("log-rank-chance", test.chance()));
    each.put("held-against", comparison.trait().likeWords());
    List<Object> groups = new ArrayList<>();
    for (Standing standing : comparison.standings()) {
      Map<String, Object> group = map();
      group.put("group", standing.name());
      group.putAll(proportion(standing.count(), standing.cases()));
      group.put("drawn-in", standing.shrunk().mean());
      standing.others().rate().ifPresent(rate -> group.put("all-others", rate));
      group.put("all-others-chance", standing.plainChance());
      group.put("compared", standing.like().contrast().own().trials());
      group.put("compared-events", standing.like().contrast().own().events());
      group.put("as-others", standing.like().contrast().asOthers());
      group.put("chance", standing.like().contrast().chance());
      group.put("adjusted-chance", standing.like().adjusted());
      group.put(
          "verdict",
          standing.like().verdict().name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
      groups.add(group);
    }
    each.put("groups", groups);
    return each;
  }

  private static Map<String, Object> check(Check check) {
    Map<String, Object> each = map();
    each.put("tests", check.tests());
    each.put("verdicts", check.verdicts());
    each.put("false-share", Groups.FALSE_SHARE);
    each.put("shuffles", check.anyByChance().trials());
    each.put("by-chance", check.byChance());
    each.put("shuffles-with-any", check.anyByChance().events());
    return each;
  }

  private static Map<String, Object> cluster(Cluster cluster) {
    Map<String, Object> each = map();
    each.put("by", cluster.trait().id());
    each.put("value", cluster.value());
    each.put("cause", cluster.cause());
    each.put("returns", cluster.returns());
    each.put("expected", cluster.expected());
    each.put("visits", cluster.visits());
    each.put("adjusted-chance", cluster.adjusted());
    each.put("compared", cluster.compared());
    each.put("cases", ids(cluster.cases()));
    var skeleton = cluster.eightDisciplines();
    Map<String, Object> eight = map();
    eight.put("problem", skeleton.problem());
    eight.put("containment", skeleton.containment());
    eight.put("root-cause-candidates", skeleton.rootCauses());
    eight.put("escape-point", skeleton.escapePoint());
    eight.put("corrective", skeleton.corrective());
    eight.put("preventive", skeleton.preventive());
    each.put("8d", eight);
    return each;
  }

  private static Map<String, Object> learning(Learning learning) {
    Map<String, Object> each = map();
    each.put("visits", learning.visits());
    each.put("elicited-worth-cases", learning.weight());
    each.put(
        "rates",
        learning.rates().stream()
            .map(
                r -> {
                  Map<String, Object> rate = map();
                  rate.put("cause", r.cause());
                  rate.put("rule", r.rule());
                  rate.put("now", r.now());
                  rate.put("proposed", r.proposed());
                  interval(rate, r.range());
                  rate.put("seen", r.seen());
                  rate.put("expected", r.expected());
                  rate.put("effect-of-100", r.effect());
                  rate.put("differs", r.differs());
                  return rate;
                })
            .toList());
    each.put(
        "trust",
        learning.trusts().stream()
            .map(
                t -> {
                  Map<String, Object> trust = map();
                  trust.put("recorder", t.recorder());
                  trust.put("weight", t.weight());
                  return trust;
                })
            .toList());
    each.put(
        "left-out",
        learning.leftOut().stream()
            .map(
                o -> {
                  Map<String, Object> out = map();
                  out.put("cause", o.cause());
                  out.put("recorder", o.recorder());
                  out.put("seen", o.seen());
                  out.put("expected", o.expected());
                  out.put("others-times", o.others());
                  return out;
                })
            .toList());
    each.put("held-back", learning.before().statements());
    if (learning.before().statements() > 0) {
      each.put("brier-before", learning.before().brier());
      each.put("brier-after", learning.after().brier());
      each.put("calibration-error-before", learning.before().expectedError());
      each.put("calibration-error-after", learning.after().expectedError());
    }
    each.put("cases-checked", learning.casesChecked());
    each.put(
        "cases-changed",
        learning.checked().stream()
            .map(
                c -> {
                  Map<String, Object> changed = map();
                  changed.put("case", c.id());
                  changed.put("met-before", c.metBefore());
                  changed.put("missed-after", c.missedAfter());
                  return changed;
                })
            .toList());
    return each;
  }
}
