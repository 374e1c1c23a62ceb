package firmlever.comeback;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.comeback.Habit.Place;
import firmlever.comeback.Tally.CauseCount;
import firmlever.comeback.Tally.CauseRule;
import firmlever.comeback.Tally.CauseTally;
import firmlever.comeback.Tally.Cell;
import firmlever.comeback.Tally.CellTally;
import firmlever.comeback.Tally.CheckAt;
import firmlever.comeback.Tally.GroupTally;
import firmlever.comeback.Tally.Judged;
import firmlever.comeback.Tally.Link;
import firmlever.comeback.Tally.SampleKey;
import firmlever.comeback.Tally.Sampled;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.LifeTable;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.ReturnHistories;
import firmlever.comeback.statistics.UnitSum;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Stratum;
import firmlever.comeback.visits.Trait;
import firmlever.comeback.visits.Trait.Group;
import firmlever.comeback.visits.Visit;
import firmlever.comeback.visits.Witness;
import firmlever.document.Packed;
import firmlever.document.Packed.Broken;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * A tally as bytes. Every count and sum is written as it is kept, in whole numbers or bit for bit,
 * and everything in a fixed order: tallies of the same brakes give the same bytes, whatever way
 * they were merged, and {@code merge(read(write(a)), b)} is {@code merge(a, b)}.
 */
public final class TallyForm {
  private TallyForm() {}

  /** One day with its visits, and those that came back within each window. */
  record Day(int day, long visits, long within, long withinLong) {}

  record GroupRow(Proportion within, Proportion withinLong, LifeTable lives) {}

  record CellRow(long visits, Map<String, Long> returns) {}

  record CauseRow(double per100, Map<Witness, Count> byWitness) {}

  record Count(long visits, long seen, UnitSum expected) {}

  /**
   * A shelf.
   *
   * @param steps where its comebacks stand among all, each from the place of the one before
   */
  record ShelfRow(long count, List<Integer> steps) {}

  /** All of a tally; each comeback once, however many shelves it stands on. */
  record Flat(
      LocalDate from,
      long visits,
      long brakes,
      long recorded,
      long tooManySymptoms,
      long minutesSaved,
      List<Day> days,
      LifeTable lives,
      LifeTable running,
      ReturnHistories histories,
      Map<Group, GroupRow> groups,
      Map<Trait, Map<Stratum, Map<String, Proportion>>> slots,
      Map<Cell, CellRow> cells,
      List<Comeback> comebacks,
      Map<String, ShelfRow> shelves,
      Proportion first,
      Proportion firstThree,
      Calibration calibration,
      Map<Place, Long> visitsAt,
      Map<CheckAt, Long> lookedFor,
      Map<CheckAt, Long> habitMinutes,
      Map<SampleKey, Sampled> sampled,
      Map<CauseRule, CauseRow> causes,
      Map<String, Proportion> overturned,
      Proportion overturnedLate,
      Map<Link, Proportion> links,
      Map<SampleKey, Judged> heldBack) {}

  /** What is written, in words: where it changes, the number of the form must change. */
  public static String shape() {
    return Packed.shape(Flat.class);
  }

  /** Writes the tally; it stays as it is. */
  public static void write(Tally tally, Packed.Writer out) {
    out.record(flat(tally));
  }

  /**
   * Reads a tally.
   *
   * @throws Broken where the bytes are none that {@link #write} wrote
   */
  public static Tally read(Packed.Reader in) throws Broken {
    return tally(in.record(Flat.class));
  }

  private static Flat flat(Tally tally) {
    List<Day> days = new ArrayList<>();
    tally.days.forEach((day, n) -> days.add(new Day(day, n[0], n[1], n[2])));
    Map<Group, GroupRow> groups = new TreeMap<>();
    tally.groups.forEach(
        (group, g) -> groups.put(group, new GroupRow(g.within, g.withinLong, g.table())));
    Map<Trait, Map<Stratum, Map<String, Proportion>>> slots = new TreeMap<>();
    tally.slots.forEach((trait, table) -> slots.put(trait, new TreeMap<>(table)));
    Map<Cell, CellRow> cells = new TreeMap<>();
    tally.cells.forEach((cell, c) -> cells.put(cell, new CellRow(c.visits, c.returns)));
    TreeSet<Comeback> all = new TreeSet<>(Comeback.LATEST_FIRST);
    tally.shelves.values().forEach(shelf -> all.addAll(shelf.cases().shown()));
    Map<Comeback, Integer> places = new TreeMap<>(Comeback.LATEST_FIRST);
    all.forEach(comeback -> places.put(comeback, places.size()));
    Map<String, ShelfRow> shelves = new TreeMap<>();
    tally.shelves.forEach(
        (key, shelf) -> {
          List<Integer> steps = new ArrayList<>();
          int last = 0;
          for (Comeback each : shelf.cases().shown()) {
            steps.add(requireNonNull(places.get(each)) - last);
            last = places.get(each);
          }
          shelves.put(key, new ShelfRow(shelf.cases().count(), steps));
        });
    Map<CauseRule, CauseRow> causes = new TreeMap<>();
    tally.causes.forEach(
        (key, cause) -> {
          Map<Witness, Count> byWitness = new TreeMap<>();
          cause.byWitness.forEach(
              (witness, c) -> byWitness.put(witness, new Count(c.visits, c.seen, c.expected)));
          causes.put(key, new CauseRow(cause.per100, byWitness));
        });
    Map<SampleKey, Sampled> sampled = new TreeMap<>();
    tally.sampled.forEach((key, s) -> sampled.put(key, lean(s)));
    return new Flat(
        tally.from,
        tally.visits,
        tally.brakes,
        tally.recorded,
        tally.tooManySymptoms,
        tally.minutesSaved,
        days,
        tally.lifeTable(),
        tally.running(),
        tally.histories(),
        groups,
        slots,
        cells,
        List.copyOf(all),
        shelves,
        tally.first,
        tally.firstThree,
        tally.calibration(),
        new TreeMap<>(tally.visitsAt),
        new TreeMap<>(tally.lookedFor),
        tally.habitMinutes,
        sampled,
        causes,
        tally.overturned,
        tally.overturnedLate,
        tally.links,
        tally.heldBack);
  }

  /** Claims and expectations play no part in a review, and are not sent about. */
  private static Sampled lean(Sampled sampled) {
    return new Sampled(
        lean(sampled.first()), lean(sampled.second()), sampled.known(), sampled.own());
  }

  private static Visit lean(Visit visit) {
    CaseFile file = visit.file();
    return new Visit(
            Visit.with(file, file.symptoms(), file.history()), visit.closed(), visit.groups())
        .ending(file.outcome());
  }

  private static Tally tally(Flat flat) throws Broken {
    Tally tally = new Tally();
    tally.from = flat.from;
    tally.visits = flat.visits;
    tally.brakes = flat.brakes;
    tally.recorded = flat.recorded;
    tally.tooManySymptoms = flat.tooManySymptoms;
    tally.minutesSaved = flat.minutesSaved;
    flat.days.forEach(d -> tally.days.put(d.day, new long[] {d.visits, d.within, d.withinLong}));
    tally.lives = flat.lives;
    tally.running = flat.running;
    tally.histories = flat.histories;
    flat.groups.forEach(
        (group, row) -> {
          GroupTally mine = new GroupTally();
          mine.within = row.within;
          mine.withinLong = row.withinLong;
          mine.lives = row.lives;
          tally.groups.put(group, mine);
        });
    flat.slots.forEach(
        (trait, table) -> {
          var rows = new TreeMap<Stratum, java.util.SortedMap<String, Proportion>>();
          table.forEach((stratum, row) -> rows.put(stratum, new TreeMap<>(row)));
          tally.slots.put(trait, rows);
        });
    flat.cells.forEach(
        (cell, row) -> {
          CellTally mine = new CellTally();
          mine.visits = row.visits;
          mine.returns.putAll(row.returns);
          tally.cells.put(cell, mine);
        });
    for (Map.Entry<String, ShelfRow> shelf : flat.shelves.entrySet()) {
      List<Comeback> kept = new ArrayList<>();
      int place = 0;
      for (int step : shelf.getValue().steps) {
        place += step;
        if (place < 0 || place >= flat.comebacks.size()) {
          throw Packed.broken("a shelf names a comeback that was not told");
        }
        kept.add(flat.comebacks.get(place));
      }
      tally.shelf(shelf.getKey()).fill(shelf.getValue().count, kept);
    }
    tally.first = flat.first;
    tally.firstThree = flat.firstThree;
    tally.calibration = flat.calibration;
    tally.visitsAt.putAll(flat.visitsAt);
    tally.lookedFor.putAll(flat.lookedFor);
    tally.habitMinutes.putAll(flat.habitMinutes);
    tally.sampled.putAll(flat.sampled);
    flat.causes.forEach(
        (key, row) -> {
          CauseTally mine = new CauseTally();
          mine.per100 = row.per100;
          row.byWitness.forEach(
              (witness, c) -> {
                CauseCount count = mine.of(witness);
                count.visits = c.visits;
                count.seen = c.seen;
                count.expected = c.expected;
              });
          tally.causes.put(key, mine);
        });
    tally.overturned.putAll(flat.overturned);
    tally.overturnedLate = flat.overturnedLate;
    tally.links.putAll(flat.links);
    tally.heldBack.putAll(flat.heldBack);
    return tally;
  }
}
