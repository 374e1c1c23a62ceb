package firmlever.comeback.trial;

import firmlever.casefile.CaseFile;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.LifeTable;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.ReturnForecast;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Returns;
import firmlever.comeback.visits.Returns.Judge;
import firmlever.comeback.visits.Returns.Return;
import firmlever.comeback.visits.Visit;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * Tries the forecast on the past: on each of some earlier days it is given what was known that
 * evening ({@link Definition#known}) and nothing else, and what it says of the days after is held
 * against what came. May be fed by several threads, in any order.
 */
public final class Backtest {
  /** Days that are foretold, and days between two cuts, so that no return is foretold twice. */
  public static final int DAYS = 30;

  private static final int MOST_CUTS = 12;

  /** Fewer returns seen before the cut say nothing of those to come. */
  public static final int FEWEST = 10;

  private final Definition definition;
  private final Vocabulary vocabulary;
  private final Function<List<Visit>, Judge> judges;
  private final List<Cut> cuts;

  private static final class Cut {
    private final LocalDate day;
    private final LifeTable.Counter lives = new LifeTable.Counter();
    private final LifeTable.Counter running = new LifeTable.Counter();
    private long came;

    private Cut(LocalDate day) {
      this.day = day;
    }
  }

  /**
   * One forecast.
   *
   * @param day of the cut; foretold are the {@link Backtest#DAYS} days after it
   * @param expected returns
   * @param interval of 95 %
   * @param came returns that did come
   */
  public record Trial(LocalDate day, double expected, Interval interval, long came) {
    /** Whether the interval held what came. */
    public boolean held() {
      return interval.contains(came);
    }
  }

  /** The forecasts, in order of time, and how many of their intervals held what came. */
  public record Result(List<Trial> trials) {
    /** How many held. */
    public Proportion held() {
      return new Proportion(trials.stream().filter(Trial::held).count(), trials.size());
    }
  }

  /**
   * @param from the first day of the data
   * @param judges how returns are judged, for the visits of one brake in order of time
   */
  public Backtest(
      Definition definition,
      LocalDate from,
      Vocabulary vocabulary,
      Function<List<Visit>, Judge> judges) {
    this.definition = definition;
    this.vocabulary = vocabulary;
    this.judges = judges;
    this.cuts = new ArrayList<>();
    LocalDate first = from.plusDays(definition.longDays());
    for (int i = MOST_CUTS; i >= 1; i--) {
      LocalDate day = definition.end().minusDays((long) i * DAYS);
      if (!day.isBefore(first)) {
        cuts.add(new Cut(day));
      }
    }
  }

  /** Adds all visits of one brake. */
  public void add(List<CaseFile> files) {
    List<Visit> all = visits(files, definition);
    Map<String, LocalDate> firstReturn = new HashMap<>();
    Returns truth = new Returns(all, definition.longDays(), judges.apply(all));
    for (int i = 0; i < all.size(); i++) {
      Optional<Return> again = truth.relatedAfter(i).stream().findFirst();
      if (again.isPresent()) {
        firstReturn.put(all.get(i).file().id(), again.get().second().file().opened());
      }
    }
    for (Cut cut : cuts) {
      Definition then = new Definition(definition.shortDays(), definition.longDays(), cut.day);
      List<Visit> visits = visits(files, then);
      Returns laid = new Returns(visits, then.longDays(), judges.apply(visits));
      for (int i = 0; i < visits.size(); i++) {
        Visit visit = visits.get(i);
        Optional<Double> days =
            laid.relatedAfter(i).stream().findFirst().map(r -> visit.daysUntil(r.second()));
        LocalDate watchedUntil = laid.watchedUntil(i, cut.day);
        double watched = Math.max(0, ChronoUnit.DAYS.between(visit.closed(), watchedUntil));
        LocalDate came = firstReturn.get(visit.file().id());
        count(
            cut,
            days,
            watched,
            watchedUntil.equals(cut.day),
            came != null && came.isAfter(cut.day) && !came.isAfter(cut.day.plusDays(DAYS)));
      }
    }
  }

  private static void count(
      Cut cut, Optional<Double> days, double watched, boolean stillWatched, boolean came) {
    synchronized (cut) {
      cut.lives.add(days.orElse(watched), days.isPresent());
      if (days.isEmpty() && stillWatched) {
        cut.running.add(watched, false);
        cut.came += came ? 1 : 0;
      }
    }
  }

  private List<Visit> visits(List<CaseFile> files, Definition then) {
    return files.stream()
        .flatMap(file -> then.known(file).stream())
        .map(file -> Visit.of(file, vocabulary))
        .sorted(Visit.BY_TIME)
        .toList();
  }

  /** What the forecasts said and what came; those with too little to go by are left out. */
  public Result result() {
    List<Trial> trials = new ArrayList<>();
    for (Cut cut : cuts) {
      LifeTable lives = cut.lives.table();
      if (lives.failures() >= FEWEST) {
        ReturnForecast forecast = ReturnForecast.of(lives, cut.running.table(), DAYS);
        trials.add(new Trial(cut.day, forecast.expected(), forecast.interval(0.95), cut.came));
      }
    }
    return new Result(List.copyOf(trials));
  }
}
