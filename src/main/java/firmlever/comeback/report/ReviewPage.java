package firmlever.comeback.report;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Backtest;
import firmlever.comeback.ChangeSeries;
import firmlever.comeback.Comeback;
import firmlever.comeback.EightDisciplines;
import firmlever.comeback.Findings;
import firmlever.comeback.Findings.Cluster;
import firmlever.comeback.Findings.Comparison;
import firmlever.comeback.Findings.MatrixCell;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Findings.Standing;
import firmlever.comeback.Habit;
import firmlever.comeback.Learning;
import firmlever.comeback.Reason;
import firmlever.comeback.Relation;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.Trait;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.MeanCumulativeFunction.Step;
import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.statistics.ProportionChart.Point;
import firmlever.comeback.statistics.ProportionChart.Signal;
import firmlever.comeback.statistics.SurvivalCurve.Scale;
import firmlever.document.Limit;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;

/**
 * The review as one page that needs nothing else: six answers first, then each figure with its
 * chart and table, and at the end the cases behind every number.
 */
public final class ReviewPage {
  private static final int MATRIX = 9;
  private static final int GROUPS = 14;
  private static final int KINDS = 20;
  private static final int HABITS = 12;
  private static final int RATES = 12;
  private static final int DEAREST = 60;

  private final Findings found;
  private final ReviewInput input;
  private final ReviewAnswers words;
  private final Vocabulary vocabulary;
  private final StringBuilder page = new StringBuilder(1 << 18);
  private final Map<String, String> anchors = new LinkedHashMap<>();
  private final Map<String, Cases> shelves = new LinkedHashMap<>();
  private final String jobs;
  private int charts;
  private int rows;

  private ReviewPage(Findings found, ReviewInput input, Vocabulary vocabulary, String jobs) {
    this.jobs = jobs;
    this.found = found;
    this.input = input;
    this.vocabulary = vocabulary;
    this.words = new ReviewAnswers(found, vocabulary);
  }

  /** The whole page. */
  public static String of(Findings found, ReviewInput input, Vocabulary vocabulary) {
    return of(found, input, vocabulary, "");
  }

  /**
   * The whole page, on a server that has a page for each case.
   *
   * @param jobs address of those pages, up to the code of the case; empty for none
   */
  public static String of(Findings found, ReviewInput input, Vocabulary vocabulary, String jobs) {
    return new ReviewPage(found, input, vocabulary, jobs).render();
  }

  private String render() {
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
        .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .append("<title>Review of comebacks, ")
        .append(found.from() + " to " + found.definition().end())
        .append("</title>\n<style>\n")
        .append(STYLE)
        .append("</style>\n</head>\n<body>\n<header>\n<h1>Review of comebacks</h1>\n");
    p(input.sentence(found));
    page.append("</header>\n<main>\n");
    answers();
    contents();
    time();
    months();
    causes();
    matrix();
    groups();
    patterns();
    avoidable();
    diagnosis();
    repeated();
    found.learning().ifPresent(this::learning);
    definitions();
    cases();
    page.append("</main>\n<footer>");
    p(ReviewText.CAUTION);
    return page.append("</footer>\n</body>\n</html>\n").toString();
  }

  private void answers() {
    page.append("<section class=\"answers\" aria-label=\"Six answers\">\n");
    for (ReviewAnswers.Answer answer : words.answers()) {
      page.append("<article><h2>").append(escaped(answer.question())).append("</h2>\n");
      answer.sayings().forEach(this::saying);
      if (!answer.more().isEmpty()) {
        folded("more");
        answer.more().forEach(this::saying);
        page.append("</details>\n");
      }
      page.append("</article>\n");
    }
    page.append("</section>\n");
  }

  private void saying(Saying saying) {
    page.append("<p>");
    for (Saying.Part part : saying.parts()) {
      page.append(
          part.title().isEmpty()
              ? escaped(part.text())
              : link(part.text(), part.title(), part.cases()));
    }
    page.append("</p>\n");
  }

  private void contents() {
    page.append("<nav aria-label=\"Contents\"><ul>");
    String[][] parts = {
      {"time", "Time to the comeback"},
      {"months", "Month by month"},
      {"causes", "True causes"},
      {"matrix", "Treated and found"},
      {"groups", "Groups"},
      {"patterns", "Patterns"},
      {"avoidable", "Avoidable comebacks"},
      {"diagnosis", "What could be known"},
      {"repeated", "Repeated returns"},
      {"definitions", "What the words mean"},
      {"cases", "Cases"}
    };
    for (String[] part : parts) {
      page.append("<li><a href=\"#" + part[0] + "\">" + part[1] + "</a></li>");
    }
    page.append("</ul></nav>\n");
  }

  private void section(String id, String title, String lead) {
    page.append("<section id=\"" + id + "\">\n<h2>" + escaped(title) + "</h2>\n");
    p(lead);
  }

  private void chart(String title, String svg) {
    charts++;
    page.append(
            "<figure aria-labelledby=\"chart"
                + charts
                + "\"><div class=\"chart\" tabindex=\"0\" role=\"region\" aria-label=\""
                + escaped(title)
                + "\">")
        .append(svg)
        .append("</div><figcaption id=\"chart" + charts + "\">" + escaped(title))
        .append(" The table below holds the same numbers.</figcaption></figure>\n");
  }

  private void table(String caption, String... heads) {
    page.append(
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Table: "
            + escaped(caption)
            + "\"><table><caption>"
            + escaped(caption)
            + "</caption><thead><tr>");
    for (String head : heads) {
      page.append("<th scope=\"col\">" + escaped(head) + "</th>");
    }
    page.append("</tr></thead><tbody>\n");
    rows = 0;
  }

  /** Whether the table has room for one more row; what it has not is told below it. */
  private boolean room() {
    return ++rows <= Limit.PAGE_ROWS.most();
  }

  /** A row; the first cell is its head, the others may hold links. */
  private void row(String head, String... cells) {
    if (!room()) {
      return;
    }
    page.append("<tr><th scope=\"row\">" + escaped(head) + "</th>");
    for (String cell : cells) {
      page.append("<td>" + cell + "</td>");
    }
    page.append("</tr>\n");
  }

  private void endTable() {
    endTable(rows - Limit.PAGE_ROWS.most());
  }

  /** Ends a table from which so many rows were left out. */
  private void endTable(long leftOut) {
    page.append("</tbody></table></div>\n");
    if (leftOut > 0) {
      p(
          ReviewAnswers.number(leftOut)
              + (leftOut == 1 ? " more row stands" : " more rows stand")
              + " in the tables that --csv writes.");
    }
  }

  private void folded(String summary) {
    page.append("<details><summary>" + escaped(summary) + "</summary>\n");
  }

  private void end() {
    page.append("</section>\n");
  }

  private void time() {
    section(
        "time",
        "Time to the comeback",
        "Of 100 brakes given back, so many had come back by that day. Brakes not yet back count as"
            + " long as they could be watched (Kaplan and Meier; limits after Greenwood, on a"
            + " log-log scale).");
    chart("Share of brakes back by the day, with 95 % limits.", ReviewCharts.timeToComeback(found));
    table("Back again by the day", "day", "back, of 100", "95 % limits");
    for (int day : new int[] {3, 7, 14, 30, 60, 90, 120}) {
      Interval limits = found.curve().interval(day, ReviewAnswers.LEVEL, Scale.LOG_LOG);
      row(
          String.valueOf(day),
          tenth(100 * (1 - found.curve().survival(day))),
          tenth(100 * (1 - limits.high())) + " to " + tenth(100 * (1 - limits.low())));
    }
    endTable();
    found
        .weibull()
        .ifPresent(
            fit ->
                p(
                    String.format(
                        Locale.ROOT,
                        "A Weibull fit has the shape %.2f (%.2f to %.2f): %s.",
                        fit.shape(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).low(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).high(),
                        fit.shapeInterval(ReviewAnswers.LEVEL).high() < 1
                            ? "below 1, so most come back early, as after work that was not right"
                            : fit.shapeInterval(ReviewAnswers.LEVEL).low() > 1
                                ? "above 1, so they come back with wear"
                                : "about 1, so they come back at any time alike")));
    found.backtest().ifPresent(this::backtest);
    end();
  }

  private void backtest(Backtest.Result result) {
    page.append("<h3>The forecast tried on the past</h3>\n");
    p(ReviewAnswers.backtest(result));
    table(
        "Returns within " + Backtest.DAYS + " days after each day",
        "as if today were",
        "expected",
        "95 % limits",
        "came",
        "held");
    for (Backtest.Trial trial : result.trials()) {
      row(
          trial.day().toString(),
          tenth(trial.expected()),
          tenth(trial.interval().low()) + " to " + tenth(trial.interval().high()),
          ReviewAnswers.number(trial.came()),
          trial.held() ? "yes" : "<strong>no</strong>");
    }
    endTable();
  }

  private void months() {
    if (found.chart().isEmpty()) {
      return;
    }
    section(
        "months",
        "Month by month",
        "Comebacks within "
            + found.definition().shortDays()
            + " days, by the month in which the brake went back. A month is marked where not all of"
            + " its days are in the data or could be followed: its rate rests on few jobs and sets"
            + " no limits for the others. The limits are exact for the jobs"
            + " of each month: outside them a month of a steady shop falls at most 27 times in"
            + " 10\u202f000.");
    chart(
        "Comebacks of each month with the limits of chance; a month with * is not whole.",
        ReviewCharts.control(found));
    folded("Table: month by month");
    table(
        "Comebacks by month", "month", "comebacks", "jobs", "of 100", "limits of chance", "signal");
    for (int i = 0; i < found.months().size(); i++) {
      Findings.Month month = found.months().get(i);
      Point point = found.chart().orElseThrow().points().get(i);
      row(
          month.month() + (month.whole() ? "" : " (not whole)"),
          link(
              ReviewAnswers.number(month.count().events()),
              "Month " + month.month(),
              month.cases()),
          ReviewAnswers.number(month.count().trials()),
          tenth(100 * month.count().rate().orElse(0)),
          tenth(100 * point.limits().low()) + " to " + tenth(100 * point.limits().high()),
          point.signal() == Signal.NONE
              ? "none"
              : point.signal() == Signal.HIGH
                  ? "<strong>above</strong>"
                  : "<strong>below</strong>");
    }
    endTable();
    page.append("</details>\n");
    found.trend().ifPresent(trend -> p(ReviewAnswers.reckoned(trend)));
    found.changes().forEach(this::change);
    end();
  }

  private void change(ChangeSeries.Effect effect) {
    page.append("<h3>" + escaped("Change: " + effect.change().words()) + "</h3>\n");
    p(words.changed(effect));
    p(ReviewAnswers.movedBefore(effect));
    if (effect.steps().isEmpty()) {
      return;
    }
    folded("Table: before and after");
    table(
        "Before and after: " + effect.change().words(),
        ChangeSeries.STEP_DAYS + " days from",
        "when",
        "comebacks",
        "jobs",
        "of 100 (95 %)");
    for (ChangeSeries.Step step : effect.steps()) {
      row(
          step.from().toString(),
          step.from().isBefore(effect.change().day()) ? "before" : "after",
          ReviewAnswers.number(step.count().events()),
          ReviewAnswers.number(step.count().trials()),
          tenth(100 * step.count().rate().orElse(0))
              + " ("
              + ReviewAnswers.range(step.count().wilson(ReviewAnswers.LEVEL))
              + ")");
    }
    endTable();
    page.append("</details>\n");
  }

  private void causes() {
    section(
        "causes",
        "True causes and reasons",
        "What was found when the brake was back, of all comebacks within "
            + found.definition().longDays()
            + " days.");
    if (found.causes().stream().anyMatch(cause -> !cause.id().equals(Comeback.NONE))) {
      chart("True causes of the comebacks, commonest first.", ReviewCharts.pareto(found, words));
    }
    table("True causes", "cause", "comebacks", "of 100", "together, of 100");
    long all = Math.max(1, found.all().count());
    long sum = 0;
    for (Named cause : found.causes()) {
      sum += cause.cases().count();
      row(
          words.cause(cause.id()),
          link(
              ReviewAnswers.number(cause.cases().count()),
              "Came back with " + words.cause(cause.id()),
              cause.cases()),
          tenth(100.0 * cause.cases().count() / all),
          tenth(100.0 * sum / all));
    }
    endTable();
    table("Reasons", "reason", "comebacks", "of 100", "told by");
    for (Reason reason : Reason.OF_COMEBACKS) {
      Cases cases = requireNonNull(found.reasons().get(reason));
      row(
          reason.words(),
          link(ReviewAnswers.number(cases.count()), "Reason: " + reason.words(), cases),
          tenth(100.0 * cases.count() / all),
          escaped(reason.test()));
    }
    endTable();
    end();
  }

  private void matrix() {
    List<String> treated = largest(MatrixCell::treated);
    List<String> truth = largest(MatrixCell::found);
    if (treated.isEmpty() || truth.isEmpty()) {
      return;
    }
    section(
        "matrix",
        "Treated and found",
        "Rows: what was treated at the first visit. Columns: what was found at the second. On the"
            + " falling line the same cause was found again; everything beside it was something"
            + " else. The commonest are shown.");
    chart(
        "Treated against found: the darker, the more comebacks.",
        ReviewCharts.matrix(treated, truth, found.matrix(), words));
    List<String> heads = new ArrayList<>(List.of("treated \\ found"));
    truth.forEach(f -> heads.add(words.cause(f)));
    table("Treated against found", heads.toArray(String[]::new));
    for (String t : treated) {
      List<String> cells = new ArrayList<>();
      for (String f : truth) {
        cells.add(
            found.matrix().stream()
                .filter(c -> c.treated().equals(t) && c.found().equals(f))
                .findFirst()
                .map(
                    c ->
                        link(
                            ReviewAnswers.number(c.cases().count()),
                            "Treated " + words.cause(t) + ", found " + words.cause(f),
                            c.cases()))
                .orElse("·"));
      }
      row(words.cause(t), cells.toArray(String[]::new));
    }
    endTable();
    end();
  }

  private List<String> largest(java.util.function.Function<MatrixCell, String> side) {
    Map<String, Long> sums =
        found.matrix().stream()
            .filter(c -> !side.apply(c).equals(Comeback.NONE))
            .collect(Collectors.groupingBy(side, Collectors.summingLong(c -> c.cases().count())));
    ToLongFunction<String> sum = sums::get;
    return sums.keySet().stream()
        .sorted(
            java.util.Comparator.comparingLong(sum)
                .reversed()
                .thenComparing(java.util.Comparator.naturalOrder()))
        .limit(MATRIX)
        .toList();
  }

  private void groups() {
    section(
        "groups",
        "Groups held against others of their kind",
        "Comebacks within "
            + found.definition().shortDays()
            + " days. The likely rate is what may be expected of a group: the fewer its visits, the"
            + " more it leans towards the rate of all (shrunk by an empirical Bayes prior). \"Of 100\" and \"all others\" are plain rates; all others are all visits of"
            + " the other groups, outliers included. The verdict rests on another comparison: only"
            + " visits alike in what stands below each heading are held against each other"
            + " (Mantel and Haenszel's strata, exact test), and what others would have had there is"
            + " shown beside what the group had. The chances are adjusted for all groups of all"
            + " traits together, technicians for themselves (Benjamini and Hochberg), so that on"
            + " average no more than 5 of 100 verdicts are chance. A verdict must also hold when"
            + " any one other group is left out; on a work or cause, when any one technician is.");
    p(words.check("Technicians", found.persons()));
    p(words.check("All other groups", found.things()));
    int at = 0;
    for (Comparison comparison : found.brakeGroups()) {
      List<Integer> shown = ReviewAnswers.shown(comparison, GROUPS);
      page.append("<h3>By " + escaped(comparison.trait().words()) + "</h3>\n");
      if (comparison.trait().ofPersons() && shown.isEmpty()) {
        p(words.nobodyNamed());
        continue;
      }
      p("Held against " + comparison.trait().likeWords() + ".");
      comparison
          .paces()
          // The paces are not held within the same work: that would be unfair to persons.
          .filter(test -> !comparison.trait().ofPersons())
          .ifPresent(
              test ->
                  p(
                      "Time to the comeback: "
                          + (test.chance() <= Findings.FALSE_SHARE
                              ? "the groups do not keep the same pace"
                              : "no difference in pace is shown")
                          + " (log-rank test, chance "
                          + ReviewAnswers.chance(test.chance())
                          + ")."));
      if (chartWorth(comparison.trait()) && shown.size() > 1) {
        chart(
            "Likely comeback rate by " + comparison.trait().words() + ", with 95 % intervals.",
            ReviewCharts.groups(comparison, shown, words, at++));
      }
      table(
          "By " + comparison.trait().words(),
          comparison.trait().words(),
          "comebacks",
          "jobs",
          "of 100",
          "all others",
          "likely rate (95 %)",
          "had, of those compared",
          "others would have had",
          "adjusted chance",
          "verdict");
      for (int i : shown) {
        Standing standing = comparison.standings().get(i);
        Interval limits = standing.shrunk().interval(ReviewAnswers.LEVEL);
        String name = words.group(comparison.trait(), standing.name());
        row(
            name,
            link(
                ReviewAnswers.number(standing.count().events()),
                "By " + comparison.trait().words() + ": " + name,
                standing.cases()),
            ReviewAnswers.number(standing.count().trials()),
            tenth(100 * standing.count().rate().orElse(0)),
            tenth(100 * standing.others().rate().orElse(0)),
            tenth(100 * standing.shrunk().mean())
                + " ("
                + tenth(100 * limits.low())
                + " to "
                + tenth(100 * limits.high())
                + ")",
            ReviewAnswers.number(standing.like().contrast().own().events())
                + " of "
                + ReviewAnswers.number(standing.like().contrast().own().trials()),
            tenth(standing.like().contrast().asOthers()),
            ReviewAnswers.chance(standing.like().adjusted()),
            emphasised(ReviewAnswers.verdict(standing.like().verdict())));
      }
      endTable();
      int left = comparison.standings().size() - shown.size();
      if (left > 0 && comparison.trait().ofPersons()) {
        p("Of " + left + " others no difference is shown; their figures are left out here.");
      } else if (left > 0) {
        p(left + " more groups are in the tables that --csv writes.");
      }
    }
    end();
  }

  private static boolean chartWorth(Trait trait) {
    return trait == Trait.TECHNICIAN
        || trait == Trait.SITE
        || trait == Trait.LOT
        || trait == Trait.WORK
        || trait == Trait.SEASON;
  }

  private static String emphasised(String verdict) {
    return verdict.equals("no difference shown") ? verdict : "<strong>" + verdict + "</strong>";
  }

  private void patterns() {
    section(
        "patterns",
        "Patterns",
        "Lots, technicians and seasons after which more brakes come back than brakes of the same"
            + " age with the same kind of complaint do elsewhere. Each brake counts once for each"
            + " cause. A pattern is named from 5 returns and one and a half times the usual number;"
            + " the clearest is taken out before the next is looked for.");
    if (found.clusters().isEmpty()) {
      p("None is shown.");
    }
    for (Cluster cluster : found.clusters()) {
      EightDisciplines eight = cluster.eightDisciplines();
      page.append("<article class=\"pattern\"><h3>")
          .append(escaped(words.title(cluster).substring("Pattern: ".length())))
          .append("</h3>\n<p>")
          .append(escaped(words.sentence(cluster)))
          .append(" ")
          .append(
              link(
                  "The " + ReviewAnswers.number(cluster.returns()) + " returns",
                  words.title(cluster),
                  cluster.cases()))
          .append(".</p>\n<dl>");
      define("Problem (D2)", eight.problem());
      define("Containment (D3)", eight.containment());
      define("Root causes to look into (D4)", String.join("; ", eight.rootCauses()));
      define("Escape point (D4)", eight.escapePoint());
      define("Corrective action (D5, D6)", eight.corrective());
      define("Prevention (D7)", eight.preventive());
      page.append("</dl></article>\n");
    }
    end();
  }

  private void define(String term, String text) {
    page.append("<dt>" + escaped(term) + "</dt><dd>" + escaped(text) + "</dd>\n");
  }

  private void avoidable() {
    section(
        "avoidable",
        "Avoidable comebacks",
        "A comeback is called avoidable where "
            + ReviewAnswers.AVOIDABLE
            + ". That alone would call some avoidable by chance, so a sample is judged a second"
            + " time, each comeback with what the second visit of another brake found that first"
            + " came with the same kind of complaint (limits after Agresti and Min). Minutes: "
            + found.costs().comebackMinutes()
            + " for the comeback (from memory; set your own with --comeback-minutes) and the first"
            + " visit's works that do not mend the cause, less the checks that would have been"
            + " made.");
    table(
        "Beyond chance",
        "judged",
        "comebacks",
        "seen, of 100",
        "by chance, of 100",
        "beyond chance, of 100 (95 %)");
    beyondChance("avoidable", found.chanceLevel().avoidable());
    beyondChance("wrong cause treated", found.chanceLevel().wrongCause());
    beyondChance(
        "wrong cause treated, what was known pointed to the true one first",
        found.chanceLevel().stoodFirst());
    endTable();
    habits();
    p(
        "What a foreman would say: first the commonest kinds, with the latest of each, then the dearest.");
    table("Kinds of avoidable comebacks", "how many", "latest", "what to say");
    for (Findings.Named kind : found.avoidableKinds().stream().limit(KINDS).toList()) {
      Comeback latest = kind.cases().shown().get(0);
      page.append("<tr><th scope=\"row\">")
          .append(
              link(
                  ReviewAnswers.number(kind.cases().count()),
                  "Avoidable comebacks: treated for "
                      + words.cause(latest.treatedFirst())
                      + ", was "
                      + words.cause(latest.foundFirst()),
                  kind.cases()))
          .append("</th><td>")
          .append(escaped(latest.first() + " to " + latest.second()))
          .append("</td><td class=\"wide\">")
          .append(escaped(latest.sentence()))
          .append("</td></tr>\n");
    }
    endTable();
    table("Dearest avoidable comebacks", "visits", "days", "minutes", "what to say");
    for (Comeback each : found.avoidable().shown().stream().limit(DEAREST).toList()) {
      page.append(
          "<tr><th scope=\"row\"><a href=\"#"
              + rowId(each)
              + "\">"
              + escaped(each.first() + " to " + each.second())
              + "</a></th><td>"
              + days(each)
              + "</td><td>"
              + each.minutesSaved()
              + "</td><td class=\"wide\">"
              + escaped(each.sentence())
              + "</td></tr>\n");
    }
    endTable();
    shelve("Avoidable comebacks", found.avoidable());
    end();
  }

  private void beyondChance(String what, PairedShare level) {
    Interval limits = level.interval(ReviewAnswers.LEVEL);
    row(
        what,
        ReviewAnswers.number(level.units()),
        tenth(100 * level.first().rate().orElse(0)),
        tenth(100 * level.second().rate().orElse(0)),
        tenth(100 * level.difference())
            + " ("
            + tenth(100 * limits.low())
            + " to "
            + tenth(100 * limits.high())
            + ")");
  }

  private void habits() {
    if (found.habits().isEmpty()) {
      return;
    }
    table(
        "Checks as habits, those that save most first; what they catch counts at its share beyond"
            + " chance",
        "check",
        "when",
        "would have caught",
        "more checks",
        "takes, h",
        "saves, h",
        "net, h",
        "pays up to so many checks");
    for (Habit habit : found.habits().stream().limit(HABITS).toList()) {
      String name = words.symptom(habit.check());
      row(
          name,
          escaped(words.place(habit.place())),
          link(
              ReviewAnswers.number(habit.caught().count()),
              "A habit would catch: " + name + ", " + words.place(habit.place()),
              habit.caught()),
          ReviewAnswers.number(habit.checks()),
          tenth(habit.costMinutes() / 60),
          tenth(habit.gainMinutes() / 60),
          tenth(habit.netMinutes() / 60),
          ReviewAnswers.number((long) habit.breakEvenChecks()));
    }
    endTable();
  }

  private void diagnosis() {
    section(
        "diagnosis",
        "What could be known at the first visit",
        "Every visit was diagnosed again with what was known before the work, and held against what"
            + " turned out to be true.");
    table("Diagnosed again", "question", "yes", "of", "of 100 (95 %)");
    share("what was known pointed to the true cause first of all", found.first());
    share("the true cause was among the first three", found.firstThree());
    endTable();
    if (!found.checks().isEmpty()) {
      table("Checks left out", "check", "minutes", "comebacks it would have caught");
      for (Named check : found.checks().stream().limit(12).toList()) {
        row(
            words.symptom(check.id()),
            String.valueOf(vocabulary.symptom(check.id()).minutes()),
            link(
                ReviewAnswers.number(check.cases().count()),
                "Left out: " + words.symptom(check.id()),
                check.cases()));
      }
      endTable();
    }
    if (found.calibration().statements() > 0) {
      calibration("Stated and seen, all causes of all visits", found.calibration());
    }
    end();
  }

  private void calibration(String caption, Calibration calibration) {
    table(caption, "stated probability", "statements", "stated on average", "came true");
    for (int i = 0; i < calibration.bins().size(); i++) {
      Calibration.Bin bin = calibration.bins().get(i);
      long n = bin.outcomes().trials();
      row(
          String.format(Locale.ROOT, "%.1f to %.1f", i / 10.0, (i + 1) / 10.0),
          ReviewAnswers.number(n),
          n == 0 ? "·" : String.format(Locale.ROOT, "%.3f", bin.stated().value() / n),
          n == 0 ? "·" : String.format(Locale.ROOT, "%.3f", bin.outcomes().rate().orElse(0)));
    }
    endTable();
  }

  private void share(String question, firmlever.comeback.statistics.Proportion count) {
    row(
        question,
        ReviewAnswers.number(count.events()),
        ReviewAnswers.number(count.trials()),
        count.trials() == 0
            ? "·"
            : tenth(100 * count.rate().orElse(0))
                + " ("
                + ReviewAnswers.range(count.wilson(ReviewAnswers.LEVEL))
                + ")");
  }

  private void repeated() {
    List<Step> steps = found.meanReturns().steps();
    if (steps.isEmpty()) {
      return;
    }
    section(
        "repeated",
        "Repeated returns",
        "Mean number of related returns of one brake since its first visit, with robust limits:"
            + " some brakes may return more often than others.");
    chart("Mean returns of one brake over weeks.", ReviewCharts.meanReturns(found));
    table("Mean returns", "week", "brakes watched", "returns of one brake", "95 % limits");
    for (int i = 0; i < steps.size(); i += Math.max(1, steps.size() / 10)) {
      Step step = steps.get(i);
      Interval limits = step.interval(ReviewAnswers.LEVEL);
      row(
          String.valueOf((int) step.time()),
          ReviewAnswers.number(step.atRisk()),
          String.format(Locale.ROOT, "%.2f", step.mean()),
          String.format(Locale.ROOT, "%.2f to %.2f", limits.low(), limits.high()));
    }
    endTable();
    end();
  }

  private void learning(Learning learning) {
    section(
        "learning",
        "What the rules could learn",
        String.format(
            Locale.ROOT,
            "From %s visits with a known cause. The elicited shares are worth %.1f expected cases of"
                + " each cause, which is learned from all causes together; a cause that few of these"
                + " jobs could have shown stays near its elicited share, seen or not. A visit counts"
                + " as much as the word of who wrote it down has held at second visits, and less"
                + " where it could be followed for %d days only. One proposal moves a share at most"
                + " %.0f times. Nothing is changed until a person has read the proposal; those of"
                + " most effect stand first, the rest is in its folder.",
            ReviewAnswers.number(learning.visits()),
            learning.weight(),
            found.definition().shortDays(),
            Learning.AT_MOST_TIMES));
    table(
        "Base rates, of 100 brakes",
        "cause",
        "now",
        "proposed (95 %)",
        "seen",
        "expected",
        "effect: of 100 visits");
    for (Learning.Rate rate :
        learning.rates().stream().filter(Learning.Rate::differs).limit(RATES).toList()) {
      row(
          words.cause(rate.cause()),
          tenth(rate.now()),
          String.format(
              Locale.ROOT,
              "%.1f (%.1f to %.1f)",
              rate.proposed(),
              rate.range().low(),
              rate.range().high()),
          ReviewAnswers.number(rate.seen()),
          tenth(rate.expected()),
          String.format(Locale.ROOT, "%.2f", rate.effect()));
    }
    endTable();
    p(ReviewAnswers.learned(learning));
    if (!learning.trusts().isEmpty()) {
      p(
          String.format(
              Locale.ROOT,
              "What the words of %d recorders count: from %.2f to %.2f.",
              learning.trusts().size(),
              learning.trusts().stream().mapToDouble(Learning.Trusted::weight).min().orElse(0),
              learning.trusts().stream().mapToDouble(Learning.Trusted::weight).max().orElse(0)));
    }
    for (Learning.LeftOut each : learning.leftOut()) {
      p(
          String.format(
              Locale.ROOT,
              "Not learned from: %s as one recorder wrote it down, %d times where %.1f were"
                  + " expected; all others wrote it down %.1f times as often as expected.",
              words.cause(each.cause()),
              each.seen(),
              each.expected(),
              each.others()));
    }
    p(
        learning.checked().size()
            + " of "
            + learning.casesChecked()
            + " case files with an expectation would change their verdict.");
    end();
  }

  private void definitions() {
    section(
        "definitions",
        "What the words mean",
        "A comeback is the same brake, opened again within "
            + found.definition().shortDays()
            + " or "
            + found.definition().longDays()
            + " days of going back, where that has to do with the visit before. Rates count only"
            + " visits that could be followed to the end of the window; the data end on "
            + found.definition().end()
            + ". Intervals of rates are Wilson's, at 95 %.");
    p(RELATED);
    table("How the returns were judged", "judged by", "returns", "counts as a comeback");
    for (Relation.Ground ground : Relation.Ground.values()) {
      row(
          ground.words(),
          link(
              ReviewAnswers.number(requireNonNull(found.relations().get(ground)).count()),
              "Judged: " + ground.words(),
              found.relations().get(ground)),
          ground.related() ? "yes" : "no");
    }
    endTable();
    page.append("<dl>");
    for (Reason reason : Reason.OF_COMEBACKS) {
      define(reason.words(), reason.test());
    }
    page.append("</dl>\n");
    end();
  }

  private static final String RELATED =
      String.format(
          Locale.ROOT,
          "A return has to do with an earlier visit where the cause found at the return was there"
              + " then or was brought in with a chance of %.2f or more, so at least twice as likely"
              + " as that it came anew. What was known at the earlier visit gives the chance that"
              + " it was there; the rules say what a work brings in, and which fault brings which"
              + " other (in %.0f of 100 cases, from memory). A fault comes anew at any day alike,"
              + " in %d days as often as brakes have it that are brought (from memory): the later"
              + " the return, the likelier it is new. Beside, something must lead back: what was"
              + " known then spoke for the cause, or the visit brought it in, or the complaint is of"
              + " the same kind. The same cause again always counts. Where a"
              + " return names no cause, or nothing is on record of the earlier complaint, the"
              + " complaint decides: it is of the same kind, or none is recorded. A return counts"
              + " once, for the last visit it has to do with.",
          Relation.RELATED_FROM,
          100 * Relation.BRINGS,
          Relation.ANEW_IN_DAYS);

  /** How a return was judged, in a cell. */
  private static String judged(Relation relation) {
    return Double.isNaN(relation.chance())
        ? "by the complaint"
        : relation.ground() == Relation.Ground.SAME_CAUSE
            ? "same cause"
            : String.format(Locale.ROOT, "%.2f", relation.chance());
  }

  private void cases() {
    section(
        "cases",
        "Cases behind the numbers",
        "Each number above leads to its cases here, the latest first, and each case to its row in"
            + " the table at the end, which has room for "
            + Limit.PAGE_ROWS.most()
            + ": the dearest avoidable ones, then the latest behind each number in turn. The table"
            + " comebacks.csv that --csv writes holds all. Who did the work is told only of persons"
            + " of whom a difference from colleagues is shown. \"Said\""
            + " is what the program says of the later cause from what was known at the first"
            + " visit: its place among all causes and its chance. \"Related\" is the chance that it"
            + " was there then or was brought in; returns below the limit are no comebacks.");
    Set<Comeback> named = named();
    TreeSet<Comeback> all = new TreeSet<>(Comeback.LATEST_FIRST);
    shelves.values().forEach(cases -> all.addAll(cases.shown()));
    shelves.forEach(
        (title, cases) -> {
          List<Comeback> shown = cases.shown().stream().filter(named::contains).toList();
          page.append(
              "<details><summary>"
                  + escaped(title)
                  + ": "
                  + ReviewAnswers.number(cases.count())
                  + "</summary><p id=\""
                  + anchors.get(title)
                  + "\">");
          page.append(
              shown.stream()
                  .map(c -> "<a href=\"#" + rowId(c) + "\">" + escaped(c.second()) + "</a>")
                  .collect(Collectors.joining(", ")));
          long more = cases.count() - shown.size();
          page.append(
              (cases.count() == 0 ? "No case." : "")
                  + (more > 0
                      ? (shown.isEmpty() ? "" : " and ") + ReviewAnswers.number(more) + " more"
                      : "")
                  + "</p></details>\n");
        });
    table(
        "Comebacks named on this page, the latest first",
        "back as",
        "back on",
        "from",
        "days",
        "by",
        "complaint then",
        "seen then",
        "treated",
        "done",
        "complaint again",
        "found",
        "done again",
        "reason",
        "related",
        "said",
        "left out");
    for (Comeback c : named) {
      page.append("<tr id=\"" + rowId(c) + "\"><th scope=\"row\">" + job(c.second()) + "</th>");
      for (String cell :
          List.of(
              c.opened().toString(),
              c.first()
                  + (c.alsoAfter().isEmpty()
                      ? ""
                      : " (also after " + String.join(", ", c.alsoAfter()) + ")"),
              days(c),
              words.named(c.by()) ? c.by() : "·",
              c.before().complaint(),
              all(c.before().present(), words::symptom),
              all(c.treated(), words::cause),
              all(c.works(), words::work),
              c.after().complaint(),
              all(c.found(), words::cause),
              all(c.after().works(), words::work),
              c.reason().words(),
              judged(c.relation()),
              c.place() == 0
                  ? "·"
                  : c.place() + String.format(Locale.ROOT, " (%.0f of 100)", 100 * c.probability()),
              c.check().isEmpty() ? "·" : words.symptom(c.check()))) {
        page.append("<td>" + escaped(cell) + "</td>");
      }
      page.append("</tr>\n");
    }
    endTable(all.size() - named.size());
    end();
  }

  /**
   * The cases there is room for: the dearest avoidable ones, which other tables point to, then the
   * first behind each number, then the second, and so on.
   */
  private Set<Comeback> named() {
    int most = Limit.PAGE_ROWS.most();
    Set<Comeback> named = new TreeSet<>(Comeback.LATEST_FIRST);
    found.avoidable().shown().stream().limit(DEAREST).forEach(named::add);
    for (int i = 0; i < Findings.CASES_SHOWN && named.size() < most; i++) {
      for (Cases cases : shelves.values()) {
        if (i < cases.shown().size() && named.size() < most) {
          named.add(cases.shown().get(i));
        }
      }
    }
    return named;
  }

  private static String all(List<String> ids, java.util.function.UnaryOperator<String> words) {
    return ids.stream().map(words).collect(Collectors.joining(", "));
  }

  private String link(String text, String title, Cases cases) {
    if (cases.count() == 0) {
      return escaped(text);
    }
    shelve(title, cases);
    return "<a href=\"#" + anchors.get(title) + "\">" + escaped(text) + "</a>";
  }

  private void shelve(String title, Cases cases) {
    anchors.computeIfAbsent(title, t -> "k" + (anchors.size() + 1));
    shelves.put(title, cases);
  }

  private String job(String id) {
    return jobs.isEmpty()
        ? escaped(id)
        : "<a id=\"job-"
            + escaped(id)
            + "\" href=\""
            + escaped(jobs + id)
            + "\">"
            + escaped(id)
            + "</a>";
  }

  private static String rowId(Comeback comeback) {
    return "c-" + escaped(comeback.brake() + "/" + comeback.first() + "/" + comeback.second());
  }

  private static String days(Comeback comeback) {
    return comeback.days() < 1 ? "same day" : String.valueOf((int) comeback.days());
  }

  private static String tenth(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }

  private void p(String text) {
    page.append("<p>" + escaped(text) + "</p>\n");
  }

  static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  private static final String STYLE =
      """
      :root { color-scheme: light; --ink: #1c2b33; --deep: #0b5563; --paper: #faf9f5; --rule: #c9d0d2; }
      * { box-sizing: border-box; }
      body { margin: 0; font: 16px/1.5 system-ui, sans-serif; color: var(--ink); background: var(--paper); }
      header, main, footer { max-width: 68rem; margin: 0 auto; padding: 0 1rem; }
      header { padding-top: 1.2rem; }
      h1 { font-size: 1.7rem; margin: 0 0 .3rem; }
      h2 { font-size: 1.15rem; margin: 0 0 .4rem; color: var(--deep); }
      section > h2 { font-size: 1.4rem; margin-top: 2.2rem; border-top: 2px solid var(--deep); padding-top: .7rem; }
      h3 { margin: 1.4rem 0 .3rem; font-size: 1.05rem; }
      p { margin: .3rem 0 .6rem; max-width: 48rem; }
      a { color: #07495a; text-decoration-thickness: 1px; text-underline-offset: 2px; }
      .answers { display: grid; grid-template-columns: repeat(auto-fit, minmax(19rem, 1fr)); gap: .9rem; margin-top: 1rem; }
      .answers article { background: #fff; border: 1px solid var(--rule); border-top: 4px solid var(--deep); padding: .8rem 1rem; }
      .answers p { margin: 0 0 .5rem; font-size: .95rem; }
      .answers a { font-weight: 700; white-space: nowrap; }
      nav ul { list-style: none; display: flex; flex-wrap: wrap; gap: .3rem 1.1rem; padding: 0; margin: 1.2rem 0 0; }
      figure { margin: .8rem 0; }
      .chart { overflow-x: auto; background: #fff; border: 1px solid var(--rule); }
      .chart svg { display: block; width: 100%; min-width: 34rem; max-width: 52rem; height: auto; margin: 0 auto; }
      figcaption, caption { font-size: .88rem; color: #44545c; text-align: left; padding: .3rem 0; }
      .scroll { overflow-x: auto; margin: .5rem 0 1rem; }
      table { border-collapse: collapse; font-size: .9rem; background: #fff; }
      th, td { border: 1px solid var(--rule); padding: .25rem .55rem; text-align: left; vertical-align: top; }
      thead th { background: #e8eeee; }
      tbody th { font-weight: 600; }
      td.wide { min-width: 20rem; }
      .pattern { background: #fff; border: 1px solid var(--rule); border-left: 5px solid #8a5a00; padding: .2rem 1rem .8rem; margin: .8rem 0; }
      dt { font-weight: 700; margin-top: .4rem; } dd { margin: 0; max-width: 48rem; }
      summary { cursor: pointer; padding: .15rem 0; }
      :target { background: #fff2c9; outline: 2px solid #8a5a00; }
      footer { border-top: 1px solid var(--rule); margin-top: 2rem; padding-top: .6rem; padding-bottom: 2rem; font-size: .9rem; }
      @page { margin: 12mm; }
      @media print { body { background: #fff; font-size: 9.5pt; line-height: 1.35; } header, main, footer { max-width: none; padding: 0; } nav { display: none; } a { color: inherit; text-decoration: none; }
        main > section:not(.answers):not(#months):not(#patterns), details { display: none; }
        .answers { display: block; columns: 2; } .answers article { margin-bottom: 4mm; } article, figure, tr { break-inside: avoid; } .chart svg { min-width: 0; max-height: 8cm; }
        section > h2, footer { margin-top: .8rem; padding-bottom: 0; } p, dd { max-width: none; } }
      """;
}
