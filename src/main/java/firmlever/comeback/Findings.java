package firmlever.comeback;

import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.ControlLimits;
import firmlever.comeback.statistics.EventTimes;
import firmlever.comeback.statistics.FairComparison.Check;
import firmlever.comeback.statistics.FairComparison.Verdict;
import firmlever.comeback.statistics.LifeTable;
import firmlever.comeback.statistics.MeanCumulativeFunction;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.ProportionChart;
import firmlever.comeback.statistics.ReturnForecast;
import firmlever.comeback.statistics.SurvivalCurve;
import firmlever.comeback.statistics.Trend;
import firmlever.comeback.statistics.WeibullFit;
import firmlever.comeback.trial.Backtest;
import firmlever.comeback.trial.ChangeSeries;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relation;
import firmlever.comeback.visits.Trait;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What the batch says. Every report renders this and nothing else.
 *
 * @param from the first day a brake was brought
 * @param visits accepted cases
 * @param recorded those that say how they ended
 * @param within comebacks within the short window, of visits followed so long
 * @param withinLong the same for the long window
 * @param all every comeback seen within the long window, followed to its end or not
 * @param curve share not yet back, over days; a brake counts as back with its first related return
 * @param meanReturns mean related returns of one brake, over weeks since its first visit
 * @param months in order; those with no visit followed for the short window are left out
 * @param chart the months as a control chart of the short window; its centre is that of the whole
 *     months
 * @param trend of the comebacks over the jobs done
 * @param weibull fitted to the time to the comeback
 * @param nextMonth returns expected within {@link Backtest#DAYS} days after the end of brakes that
 *     are out; empty where too few have come back to say
 * @param backtest the same forecast tried on earlier days; empty where that was not asked for
 * @param relations all returns within the long window by how they were judged, those that are no
 *     comebacks among them
 * @param changes what came of the changes in the shop that were named
 * @param causes true causes, commonest first
 * @param matrix by treated and then by true cause
 * @param first how often the cause stood first with what was known before the work, of visits whose
 *     cause is known
 * @param wrong of the comebacks after a wrong cause: those whose cause stood first, among the first
 *     three, and those that the plan leads to
 * @param checks that would have shown the cause and were not made, commonest first
 * @param avoidableKinds avoidable comebacks by what was treated and what it was, commonest first
 * @param minutesSaved by all avoidable comebacks together, those avoidable by chance among them
 * @param chanceLevel how much of it is chance
 * @param habits checks as habits, those that save most first
 * @param brakeGroups the comparisons, one for each trait that has two groups or more
 * @param persons what shuffled codes of technicians would give
 * @param things what the shuffled labels of all other traits would give
 */
public record Findings(
    Definition definition,
    LocalDate from,
    long brakes,
    long visits,
    long recorded,
    long tooManySymptoms,
    Proportion within,
    Proportion withinLong,
    Cases all,
    Cases withinCases,
    Cases withinLongCases,
    LifeTable lives,
    SurvivalCurve curve,
    MeanCumulativeFunction meanReturns,
    List<Month> months,
    Optional<ProportionChart> chart,
    Optional<Trend> trend,
    Optional<WeibullFit> weibull,
    Optional<ReturnForecast> nextMonth,
    Optional<Backtest.Result> backtest,
    List<ChangeSeries.Effect> changes,
    Map<Reason, Cases> reasons,
    Map<Relation.Ground, Cases> relations,
    List<Named> causes,
    List<MatrixCell> matrix,
    Proportion first,
    Proportion firstThree,
    Wrong wrong,
    List<Named> checks,
    Cases avoidable,
    Map<Reason, Cases> avoidableBy,
    List<Named> avoidableKinds,
    long minutesSaved,
    Costs costs,
    ChanceLevel chanceLevel,
    List<Habit> habits,
    List<Comparison> brakeGroups,
    Check persons,
    Check things,
    List<Cluster> clusters,
    Calibration calibration,
    Optional<Learning> learning) {

  /** Data that begin within the first week hold the month. */
  private static final int FIRST_DAYS = 7;

  /**
   * A month and its comebacks within the short window.
   *
   * @param whole whether all of its days are in the data and could be followed
   */
  public record Month(YearMonth month, Proportion count, boolean whole, Cases cases) {}

  /** A number with its name and cases. */
  public record Named(String id, Cases cases) {}

  /** How often one cause was treated and another found. */
  public record MatrixCell(String treated, String found, Cases cases) {}

  /** What the first visit could have known, of the comebacks after a wrong cause. */
  public record Wrong(Cases all, Cases first, Cases three, Cases planned) {}

  /**
   * A pattern with its evidence.
   *
   * @param cause it comes back with; empty for any
   * @param returns within the long window, each brake once for each cause
   * @param expected how many are usual for brakes of this age and complaint elsewhere
   * @param visits of the group
   * @param adjusted chance of this much by luck, adjusted for everything looked at
   * @param compared how many groups and causes were looked at
   * @param commonest what it comes back with most, commonest first
   */
  public record Cluster(
      Trait trait,
      String value,
      String cause,
      long returns,
      double expected,
      long visits,
      double adjusted,
      long compared,
      Cases cases,
      List<Named> commonest,
      EightDisciplines eightDisciplines) {}

  /** What a review says only where it was asked for. */
  public record Asked(
      Optional<Learning> learning,
      Optional<Backtest.Result> backtest,
      List<ChangeSeries.Effect> changes) {
    public static final Asked NOTHING = new Asked(Optional.empty(), Optional.empty(), List.of());
  }

  /** Draws the conclusions from a whole tally. */
  static Findings of(
      Tally tally,
      Definition definition,
      Vocabulary vocabulary,
      Costs costs,
      ChanceLevel chanceLevel,
      Asked asked) {
    Proportion within = Proportion.NONE;
    Proportion withinLong = Proportion.NONE;
    Map<YearMonth, Proportion> byMonth = new TreeMap<>();
    var returned = new TreeMap<Double, Long>();
    long jobs = 0;
    for (Map.Entry<Integer, long[]> day : tally.days.entrySet()) {
      LocalDate date = LocalDate.ofEpochDay(day.getKey());
      long[] counts = day.getValue();
      if (definition.followed(date, definition.shortDays())) {
        Proportion count = new Proportion(counts[1], counts[0]);
        within = within.plus(count);
        byMonth.merge(YearMonth.from(date), count, Proportion::plus);
        if (counts[1] > 0) {
          returned.put(jobs + counts[0] / 2.0, counts[1]);
        }
        jobs += counts[0];
      }
      if (definition.followed(date, definition.longDays())) {
        withinLong = withinLong.plus(new Proportion(counts[2], counts[0]));
      }
    }
    List<Month> months = new ArrayList<>();
    byMonth.forEach(
        (month, count) ->
            months.add(
                new Month(
                    month,
                    count,
                    !tally.from.isAfter(month.atDay(FIRST_DAYS))
                        && definition.followed(month.atEndOfMonth(), definition.shortDays()),
                    tally.cases("month/" + month))));
    LifeTable lives = tally.lifeTable();
    Optional<WeibullFit> weibull = WeibullFit.of(lives);
    Map<Reason, Cases> reasons = new EnumMap<>(Reason.class);
    Map<Reason, Cases> avoidableBy = new EnumMap<>(Reason.class);
    for (Reason reason : Reason.OF_COMEBACKS) {
      reasons.put(reason, tally.cases("reason/" + reason.id()));
      avoidableBy.put(reason, tally.cases("avoidable/" + reason.id()));
    }
    Map<Relation.Ground, Cases> relations = new EnumMap<>(Relation.Ground.class);
    for (Relation.Ground ground : Relation.Ground.values()) {
      relations.put(ground, tally.cases("relation/" + ground.id()));
    }
    Groups groups = Groups.of(tally);
    return new Findings(
        definition,
        tally.from.isAfter(definition.end()) ? definition.end() : tally.from,
        tally.brakes,
        tally.visits,
        tally.recorded,
        tally.tooManySymptoms,
        within,
        withinLong,
        tally.cases(Tally.ALL),
        tally.cases("within"),
        tally.cases("within-long"),
        lives,
        SurvivalCurve.of(lives),
        MeanCumulativeFunction.of(tally.histories()),
        List.copyOf(months),
        chart(months),
        jobs == 0 ? Optional.empty() : Trend.until(jobs, new EventTimes(returned)),
        weibull,
        lives.failures() < Backtest.FEWEST
            ? Optional.empty()
            : Optional.of(ReturnForecast.of(lives, tally.running(), Backtest.DAYS)),
        asked.backtest(),
        asked.changes(),
        reasons,
        relations,
        commonestFirst(tally.casesBelow("cause/")),
        matrix(tally),
        tally.first,
        tally.firstThree,
        new Wrong(
            tally.cases("reason/" + Reason.WRONG_CAUSE.id()),
            tally.cases("wrong/first"),
            tally.cases("wrong/three"),
            tally.cases("wrong/planned")),
        commonestFirst(tally.casesBelow("check/")),
        tally.cases(Tally.AVOIDABLE),
        avoidableBy,
        commonestFirst(tally.casesBelow("kind/")),
        tally.minutesSaved,
        costs,
        chanceLevel,
        tally.habits(vocabulary, chanceLevel.beyondChance()),
        groups.comparisons(),
        groups.persons(),
        groups.things(),
        Clusters.find(tally.cells, Groups.FALSE_SHARE).stream()
            .filter(found -> found.trait() != Trait.TECHNICIAN || worse(groups, found.value()))
            .map(found -> cluster(found, tally, vocabulary))
            .toList(),
        tally.calibration(),
        asked.learning());
  }

  /** The months held against what whole months have in common; part of a month sets no centre. */
  private static Optional<ProportionChart> chart(List<Month> months) {
    Proportion centre =
        months.stream()
            .filter(Month::whole)
            .map(Month::count)
            .reduce(Proportion.NONE, Proportion::plus);
    if (centre.trials() == 0) {
      centre = months.stream().map(Month::count).reduce(Proportion.NONE, Proportion::plus);
    }
    return centre.trials() == 0
        ? Optional.empty()
        : Optional.of(
            ProportionChart.against(
                centre.rate().orElse(0),
                months.stream().map(Month::count).toList(),
                ControlLimits.exact(0.00135)));
  }

  /** A person is named only where the comparison within the same work holds up. */
  private static boolean worse(Groups groups, String technician) {
    return groups.comparisons().stream()
        .filter(comparison -> comparison.trait().ofPersons())
        .flatMap(comparison -> comparison.standings().stream())
        .anyMatch(
            standing ->
                (standing.name().equals(technician)
                        || standing.name().startsWith(technician + Trait.AND))
                    && standing.like().verdict() == Verdict.ABOVE_THE_OTHERS);
  }

  private static List<Named> commonestFirst(Map<String, Cases> cases) {
    return cases.entrySet().stream()
        .map(e -> new Named(e.getKey(), e.getValue()))
        .sorted(
            Comparator.comparingLong((Named n) -> n.cases.count())
                .reversed()
                .thenComparing(Named::id))
        .toList();
  }

  private static List<MatrixCell> matrix(Tally tally) {
    List<MatrixCell> cells = new ArrayList<>();
    tally
        .casesBelow("cell/")
        .forEach(
            (key, cases) -> {
              int slash = key.indexOf('/');
              cells.add(new MatrixCell(key.substring(0, slash), key.substring(slash + 1), cases));
            });
    return List.copyOf(cells);
  }

  private static Cluster cluster(Clusters.Found found, Tally tally, Vocabulary vocabulary) {
    String prefix = Tally.clusterKey(found.trait(), found.value(), "");
    List<Named> commonest =
        commonestFirst(tally.casesBelow(prefix)).stream()
            .filter(named -> !named.id.isEmpty())
            .limit(4)
            .toList();
    return new Cluster(
        found.trait(),
        found.value(),
        found.cause(),
        found.returns(),
        found.expected(),
        found.visits(),
        found.adjusted(),
        found.compared(),
        tally.cases(Tally.clusterKey(found.trait(), found.value(), found.cause())),
        commonest,
        EightDisciplines.of(found, commonest.stream().map(Named::id).toList(), vocabulary));
  }
}
