package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.MeanCumulativeFunction.Step;
import firmlever.comeback.statistics.ProportionChart.Point;
import firmlever.comeback.statistics.ProportionChart.Signal;
import firmlever.comeback.statistics.SurvivalCurve.Scale;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import java.util.List;
import java.util.Locale;

/** Comebacks over time: since the brake went back, month by month, and again and again. */
final class TimePart {
  private final PageWriter page;
  private final Findings found;
  private final ReviewAnswers words;

  TimePart(PageWriter page, Findings found, ReviewAnswers words) {
    this.page = page;
    this.found = found;
    this.words = words;
  }

  void toTheComeback() {
    page.section(
        "time",
        "Time to the comeback",
        "Of 100 brakes given back, so many had come back by that day. Brakes not yet back count as"
            + " long as they could be watched (Kaplan and Meier; limits after Greenwood, on a"
            + " log-log scale). The shares on the first screen count only visits followed to the end"
            + " of the time, and so may differ a little.");
    page.chart(
        "Share of brakes back by the day, with 95 % limits.", ReviewCharts.timeToComeback(found));
    page.table("Back again by the day", "day", "back, of 100", "95 % limits");
    for (int day : new int[] {3, 7, 14, 30, 60, 90, 120}) {
      Interval limits = found.curve().interval(day, ReviewAnswers.LEVEL, Scale.LOG_LOG);
      page.row(
          String.valueOf(day),
          Numbers.ofHundred(1 - found.curve().survival(day)),
          Numbers.span(100 * (1 - limits.high()), 100 * (1 - limits.low())));
    }
    page.endTable();
    found
        .weibull()
        .ifPresent(
            fit ->
                page.p(
                    String.format(
                        Locale.ROOT,
                        "A Weibull fit has the shape %.2f (%.2f to %.2f): %s.",
                        fit.shape(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).low(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).high(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).high() < 1
                            ? "below 1: of those that come back, most come back early; the curve does not"
                                + " say why"
                            : fit.shapeInterval(ReviewAnswers.LEVEL).low() > 1
                                ? "above 1: the longer a brake is out, the likelier it comes back; the curve"
                                    + " does not say why"
                                : "about 1: they come back at any time alike")));
    found.backtest().ifPresent(this::backtest);
    page.endSection();
  }

  private void backtest(Backtest.Result result) {
    page.heading("The forecast tried on the past");
    page.p(ReviewAnswers.backtest(result));
    page.table(
        "Returns within " + Backtest.DAYS + " days after each day",
        "as if today were",
        "expected",
        "95 % limits",
        "came",
        "held");
    for (Backtest.Trial trial : result.trials()) {
      page.row(
          trial.day().toString(),
          Numbers.tenth(trial.expected()),
          Numbers.span(trial.interval().low(), trial.interval().high()),
          ReviewAnswers.number(trial.came()),
          trial.held() ? "yes" : "<strong>no</strong>");
    }
    page.endTable();
  }

  void months() {
    if (found.chart().isEmpty()) {
      return;
    }
    page.section(
        "months",
        "Month by month",
        "Comebacks within "
            + found.definition().shortDays()
            + " days, by the month in which the brake went back. A month is marked where not all of"
            + " its days are in the data or could be followed: its rate rests on few jobs and sets"
            + " no limits for the others. The limits are exact for the jobs"
            + " of each month: outside them a month of a steady shop falls at most 27 times in"
            + " 10\u202f000.");
    page.chart(
        "Comebacks of each month with the limits of chance; a month with * is not whole.",
        ReviewCharts.control(found));
    page.fold("Table: month by month");
    page.table(
        "Comebacks by month", "month", "comebacks", "jobs", "of 100", "limits of chance", "signal");
    for (int i = 0; i < found.months().size(); i++) {
      Findings.Month month = found.months().get(i);
      Point point = found.chart().orElseThrow().points().get(i);
      page.row(
          month.month() + (month.whole() ? "" : " (not whole)"),
          page.link(
              ReviewAnswers.number(month.count().events()),
              "Month " + month.month(),
              month.cases()),
          ReviewAnswers.number(month.count().trials()),
          Numbers.ofHundred(month.count()),
          Numbers.ofHundred(point.limits()),
          point.signal() == Signal.NONE
              ? "none"
              : point.signal() == Signal.HIGH
                  ? "<strong>above</strong>"
                  : "<strong>below</strong>");
    }
    page.endTable();
    page.endFold();
    found.trend().ifPresent(trend -> page.p(ReviewAnswers.reckoned(trend)));
    found.changes().forEach(this::change);
    page.endSection();
  }

  private void change(ChangeSeries.Effect effect) {
    page.heading("Change: " + effect.change().words());
    page.p(words.changed(effect));
    page.p(ReviewAnswers.movedBefore(effect));
    if (effect.steps().isEmpty()) {
      return;
    }
    page.fold("Table: before and after");
    page.table(
        "Before and after: " + effect.change().words(),
        ChangeSeries.STEP_DAYS + " days from",
        "when",
        "comebacks",
        "jobs",
        "of 100 (95 %)");
    for (ChangeSeries.Step step : effect.steps()) {
      page.row(
          step.from().toString(),
          step.from().isBefore(effect.change().day()) ? "before" : "after",
          ReviewAnswers.number(step.count().events()),
          ReviewAnswers.number(step.count().trials()),
          Numbers.withLimits(step.count()));
    }
    page.endTable();
    page.endFold();
  }

  void repeated() {
    List<Step> steps = found.meanReturns().steps();
    if (steps.isEmpty()) {
      return;
    }
    page.section(
        "repeated",
        "Repeated returns",
        "Mean number of related returns of one brake since its first visit, with robust limits:"
            + " some brakes may return more often than others.");
    page.chart("Mean returns of one brake over weeks.", ReviewCharts.meanReturns(found));
    page.table("Mean returns", "week", "brakes watched", "returns of one brake", "95 % limits");
    for (int i = 0; i < steps.size(); i += Math.max(1, steps.size() / 10)) {
      Step step = steps.get(i);
      Interval limits = step.interval(ReviewAnswers.LEVEL);
      page.row(
          String.valueOf((int) step.time()),
          ReviewAnswers.number(step.atRisk()),
          String.format(Locale.ROOT, "%.2f", step.mean()),
          String.format(Locale.ROOT, "%.2f to %.2f", limits.low(), limits.high()));
    }
    page.endTable();
    page.endSection();
  }
}
