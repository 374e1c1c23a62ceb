package firmlever.comeback.trial;

import firmlever.casefile.CaseFile;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RiskDifference;
import firmlever.comeback.statistics.StratifiedTable;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Stratum;
import firmlever.comeback.visits.Trait;
import firmlever.comeback.visits.Visit;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Comebacks before and after a change in the shop: visits of as many days on either side, held
 * against each other within the same work and age of brake (an interrupted series with two points a
 * side). Whether things were on the move already is told by the same comparison within the time
 * before. May be fed by several threads, in any order.
 */
public final class ChangeSeries {
  private static final int LONGEST_DAYS = 180;
  private static final int SHORTEST_DAYS = 28;

  /** Length of a point of the series. */
  public static final int STEP_DAYS = 30;

  private static final String EARLIER = "earlier";
  private static final String JUST_BEFORE = "just before";
  private static final String AFTER = "after";

  private final Change change;
  private final Definition definition;
  private final Vocabulary vocabulary;
  private final int days;
  private final SortedMap<Stratum, SortedMap<String, Proportion>> cells = new TreeMap<>();
  private final SortedMap<Integer, Proportion> steps = new TreeMap<>();

  /**
   * A change in the shop.
   *
   * @param day the first day it held
   * @param words what was changed
   */
  public record Change(LocalDate day, String words) {}

  /** The comebacks of visits that ended in the {@link #STEP_DAYS} days from this one on. */
  public record Step(LocalDate from, Proportion count) {}

  /**
   * What was seen.
   *
   * @param days looked at on either side; 0 where the data do not reach far enough to say
   * @param steps in order of time
   * @param after against before, within the same work
   * @param chance of a difference like that where the change did nothing
   * @param earlier the later half of the time before against its first half
   * @param earlierChance of a difference like that by luck
   */
  public record Effect(
      Change change,
      int days,
      List<Step> steps,
      RiskDifference after,
      double chance,
      RiskDifference earlier,
      double earlierChance) {}

  /**
   * @param from the first day of the data
   */
  public ChangeSeries(Change change, Definition definition, LocalDate from, Vocabulary vocabulary) {
    this.change = change;
    this.definition = definition;
    this.vocabulary = vocabulary;
    long before = ChronoUnit.DAYS.between(from, change.day);
    long after =
        ChronoUnit.DAYS.between(change.day, definition.end().minusDays(definition.shortDays())) + 1;
    long reach = Math.min(LONGEST_DAYS, Math.min(before, after));
    this.days = reach < SHORTEST_DAYS ? 0 : (int) reach;
  }

  /** Adds the visits of one brake, with its comebacks. */
  public void add(List<CaseFile> files, List<Comeback> comebacks) {
    Set<String> back = new HashSet<>();
    for (Comeback comeback : comebacks) {
      if (comeback.days() <= definition.shortDays()) {
        back.add(comeback.first());
      }
    }
    for (CaseFile file : files) {
      definition
          .known(file)
          .map(known -> Visit.of(known, vocabulary))
          .filter(visit -> definition.followed(visit.closed(), definition.shortDays()))
          .ifPresent(visit -> add(visit, back.contains(file.id())));
    }
  }

  private void add(Visit visit, boolean back) {
    long after = ChronoUnit.DAYS.between(change.day, visit.closed());
    if (after < -days || after >= days) {
      return;
    }
    String label = after >= 0 ? AFTER : after < -days / 2 ? EARLIER : JUST_BEFORE;
    Proportion one = new Proportion(back ? 1 : 0, 1);
    synchronized (this) {
      cells
          .computeIfAbsent(Trait.SITE.stratum(visit), s -> new TreeMap<>())
          .merge(label, one, Proportion::plus);
      steps.merge(Math.floorDiv((int) after, STEP_DAYS), one, Proportion::plus);
    }
  }

  /** What was seen, once all brakes are in. */
  public Effect effect() {
    List<Step> series = new ArrayList<>();
    steps.forEach(
        (at, count) -> series.add(new Step(change.day.plusDays((long) at * STEP_DAYS), count)));
    StratifiedTable<Stratum> table = new StratifiedTable<>(cells);
    return new Effect(
        change,
        days,
        List.copyOf(series),
        RiskDifference.of(cells, AFTER::equals, label -> !label.equals(AFTER)),
        table.contrast(AFTER, stratum -> true, label -> true).chance(),
        RiskDifference.of(cells, JUST_BEFORE::equals, EARLIER::equals),
        table.contrast(JUST_BEFORE, stratum -> true, EARLIER::equals).chance());
  }
}
