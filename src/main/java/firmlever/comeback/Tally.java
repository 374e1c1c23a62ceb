package firmlever.comeback;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.comeback.Habit.Place;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.LifeTable;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.ReturnHistories;
import firmlever.comeback.statistics.UnitSum;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Stratum;
import firmlever.comeback.visits.Trait;
import firmlever.comeback.visits.Trait.Group;
import firmlever.comeback.visits.Visit;
import firmlever.comeback.visits.Witness;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.rulebase.BrakeModel.Base;
import firmlever.vocabulary.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * All that is gathered over the brakes. Every part of it is a count, an exact sum or the first few
 * by a fixed order, so that merging knows no order, and its size depends on how many days, groups
 * and causes there are, never on how many jobs. One thread fills one tally.
 */
public final class Tally {
  /** So many cases are kept beside each number: all of a year of most shops. */
  public static final int CASES_KEPT = 300;

  /** One brake in so many is kept out of the learning, to judge what was learned. */
  private static final int HELD_BACK = 5;

  /** Judged visits of held-back brakes that are diagnosed again with what was learned. */
  private static final int SAMPLE = 1500;

  /** Comebacks that are judged a second time, to know what chance gives. */
  private static final int COMEBACK_SAMPLE = 300;

  static final String ALL = "all";
  static final String AVOIDABLE = "avoidable";

  LocalDate from = LocalDate.MAX;
  long visits;
  long brakes;
  long recorded;
  long tooManySymptoms;
  long minutesSaved;
  final TreeMap<Integer, long[]> days = new TreeMap<>();
  LifeTable.Counter life = new LifeTable.Counter();
  LifeTable lives = LifeTable.EMPTY;
  private LifeTable.Counter stillOut = new LifeTable.Counter();
  LifeTable running = LifeTable.EMPTY;
  private final ReturnHistories.Counter returns = new ReturnHistories.Counter();
  ReturnHistories histories = new ReturnHistories.Counter().histories();
  final TreeMap<Group, GroupTally> groups = new TreeMap<>();
  final TreeMap<Trait, SortedMap<Stratum, SortedMap<String, Proportion>>> slots = new TreeMap<>();
  final TreeMap<Cell, CellTally> cells = new TreeMap<>();
  final TreeMap<String, Shelf> shelves = new TreeMap<>();
  Proportion first = Proportion.NONE;
  Proportion firstThree = Proportion.NONE;
  private final Calibration.Counter stated = new Calibration.Counter(10);
  Calibration calibration = new Calibration.Counter(10).calibration();
  final Map<Place, Long> visitsAt = new HashMap<>();
  final Map<CheckAt, Long> lookedFor = new HashMap<>();
  final TreeMap<CheckAt, Long> habitMinutes = new TreeMap<>();
  final TreeMap<SampleKey, Sampled> sampled = new TreeMap<>();
  final TreeMap<CauseRule, CauseTally> causes = new TreeMap<>();
  final TreeMap<String, Proportion> overturned = new TreeMap<>();
  Proportion overturnedLate = Proportion.NONE;
  final TreeMap<Link, Proportion> links = new TreeMap<>();
  final TreeMap<SampleKey, Judged> heldBack = new TreeMap<>();
  private final Set<String> causesOfBrake = new HashSet<>();

  /** The counts of one group: comebacks within each window, and the time to them. */
  static final class GroupTally {
    Proportion within = Proportion.NONE;
    Proportion withinLong = Proportion.NONE;
    LifeTable.Counter life = new LifeTable.Counter();
    LifeTable lives = LifeTable.EMPTY;

    LifeTable table() {
      return lives.plus(life.table());
    }
  }

  /** What clusters are looked for in: visits alike in all of this. */
  record Cell(String lot, String partsLot, String by, String season, int age, String group)
      implements Comparable<Cell> {
    @Override
    public int compareTo(Cell other) {
      int c = lot.compareTo(other.lot);
      c = c != 0 ? c : partsLot.compareTo(other.partsLot);
      c = c != 0 ? c : by.compareTo(other.by);
      c = c != 0 ? c : season.compareTo(other.season);
      c = c != 0 ? c : Integer.compare(age, other.age);
      return c != 0 ? c : group.compareTo(other.group);
    }

    String value(Trait trait) {
      return switch (trait) {
        case LOT -> lot;
        case PARTS_LOT -> partsLot;
        case TECHNICIAN -> by;
        case SEASON -> season;
        default -> throw new IllegalArgumentException("no clusters by " + trait);
      };
    }
  }

  /** Visits of a cell, and of how many the brake came back with each cause. */
  static final class CellTally {
    long visits;
    final TreeMap<String, Long> returns = new TreeMap<>();
  }

  /** A cause with the rule that says how common it is. */
  record CauseRule(String cause, String rule) implements Comparable<CauseRule> {
    @Override
    public int compareTo(CauseRule other) {
      int byCause = cause.compareTo(other.cause);
      return byCause != 0 ? byCause : rule.compareTo(other.rule);
    }
  }

  /** How often a cause was there, and how often the rules expected it, by who wrote it down. */
  static final class CauseTally {
    double per100;
    final TreeMap<Witness, CauseCount> byWitness = new TreeMap<>();

    CauseCount of(Witness witness) {
      return byWitness.computeIfAbsent(witness, w -> new CauseCount());
    }
  }

  /** The counts of one witness. */
  static final class CauseCount {
    long visits;
    long seen;
    UnitSum expected = UnitSum.ZERO;
  }

  /** A cause that was there alone, and a symptom that was looked for. */
  record Link(String cause, String symptom) implements Comparable<Link> {
    @Override
    public int compareTo(Link other) {
      int byCause = cause.compareTo(other.cause);
      return byCause != 0 ? byCause : symptom.compareTo(other.symptom);
    }
  }

  /** A check at a kind of visits. */
  record CheckAt(String check, Place place) implements Comparable<CheckAt> {
    @Override
    public int compareTo(CheckAt other) {
      int c = check.compareTo(other.check);
      return c != 0 ? c : place.compareTo(other.place);
    }

    String key() {
      return "habit/" + check + "/" + place.afterWork() + "/" + place.id();
    }
  }

  /** A comeback of which both visits say what was found, kept to be judged again. */
  record Sampled(Visit first, Visit second, CaseFile known, Comeback own) {}

  /** A case with what turned out to be true of it. */
  record Judged(CaseFile file, List<String> truth) {}

  /** Orders the sample as if by lot, the same for every order of reading. */
  record SampleKey(long draw, String brake, String id) implements Comparable<SampleKey> {
    @Override
    public int compareTo(SampleKey other) {
      int c = Long.compareUnsigned(draw, other.draw);
      c = c != 0 ? c : brake.compareTo(other.brake);
      return c != 0 ? c : id.compareTo(other.id);
    }
  }

  /**
   * Counts a visit.
   *
   * @param daysToNext until its first return; empty where none is laid to it
   * @param watched days it could be watched for one
   * @param comebacks its returns within the long window, in order of time
   * @param unrelated other returns within it, which are no comebacks
   */
  void addVisit(
      Visit visit,
      Optional<Double> daysToNext,
      double watched,
      List<Comeback> comebacks,
      List<Comeback> unrelated,
      Definition definition) {
    Optional<Comeback> comeback = comebacks.stream().findFirst();
    visits++;
    from = earlier(from, visit.file().opened());
    recorded += visit.recorded() ? 1 : 0;
    boolean isShort = daysToNext.filter(d -> d <= definition.shortDays()).isPresent();
    boolean isLong = comeback.isPresent();
    boolean fullShort = definition.followed(visit.closed(), definition.shortDays());
    boolean fullLong = definition.followed(visit.closed(), definition.longDays());
    long[] day = days.computeIfAbsent((int) visit.closed().toEpochDay(), d -> new long[3]);
    day[0]++;
    day[1] += isShort ? 1 : 0;
    day[2] += isLong ? 1 : 0;
    life.add(daysToNext.orElse(watched), daysToNext.isPresent());
    if (daysToNext.isEmpty() && watched == definition.daysUntilEnd(visit.closed())) {
      stillOut.add(watched, false);
    }
    for (Group group : Trait.groups(visit)) {
      GroupTally tally = groups.computeIfAbsent(group, g -> new GroupTally());
      if (fullShort) {
        Proportion one = new Proportion(isShort ? 1 : 0, 1);
        tally.within = tally.within.plus(one);
        if (group.trait() != Trait.TECHNICIAN_AND_WORK) {
          addToSlot(group.trait(), group.trait().stratum(visit), group.value(), one);
        }
        if (isShort) {
          comeback.ifPresent(c -> shelve(groupKey(group), c));
        }
      }
      if (fullLong) {
        tally.withinLong = tally.withinLong.plus(new Proportion(isLong ? 1 : 0, 1));
      }
      if (group.trait().timed()) {
        tally.life.add(daysToNext.orElse(watched), daysToNext.isPresent());
      }
    }
    if (fullLong) {
      addToCell(visit, Stream.concat(comebacks.stream(), unrelated.stream()));
    }
    comeback.ifPresent(
        c -> {
          if (isShort && fullShort) {
            shelve("within", c);
            shelve("month/" + visit.closed().toString().substring(0, 7), c);
          }
          if (fullLong) {
            shelve("within-long", c);
          }
        });
    addToHabits(visit, comebacks);
    comebacks.forEach(this::shelve);
    Stream.concat(comebacks.stream(), unrelated.stream())
        .forEach(c -> shelve("relation/" + c.relation().ground().id(), c));
  }

  private void addToHabits(Visit visit, List<Comeback> comebacks) {
    Place complaint = new Place(false, visit.firstGroup());
    Optional<Place> work = visit.works().stream().findFirst().map(id -> new Place(true, id));
    visitsAt.merge(complaint, 1L, Long::sum);
    work.ifPresent(place -> visitsAt.merge(place, 1L, Long::sum));
    visit
        .file()
        .symptoms()
        .forEach(
            (symptom, presence) -> {
              if (presence != Presence.NOT_CHECKED) {
                lookedFor.merge(new CheckAt(symptom, complaint), 1L, Long::sum);
              }
            });
    for (Comeback comeback : comebacks) {
      if (comeback.avoidable() && !comeback.check().isEmpty()) {
        CheckAt habit =
            new CheckAt(
                comeback.check(),
                comeback.reason() == Reason.BROUGHT_IN && work.isPresent()
                    ? work.get()
                    : complaint);
        habitMinutes.merge(
            habit, (long) comeback.minutesSaved() + comeback.checkMinutes(), Long::sum);
        shelve(habit.key(), comeback);
      }
    }
  }

  /** Keeps the comeback where it is in the sample. */
  void sample(Sampled comeback) {
    Comeback own = comeback.own;
    sampled.put(
        new SampleKey(
            draw(own.brake() + "/" + own.first() + "/" + own.second()),
            own.brake(),
            own.first() + "/" + own.second()),
        comeback);
    trimSample();
  }

  /** The habits that would have caught anything, those that save most first. */
  List<Habit> habits(Vocabulary vocabulary, double beyondChance) {
    List<Habit> habits = new ArrayList<>();
    habitMinutes.forEach(
        (habit, minutes) -> {
          long visits = visitsAt.getOrDefault(habit.place, 0L);
          // What was looked for before the work says nothing of the brake after it.
          long done = habit.place.afterWork() ? 0 : lookedFor.getOrDefault(habit, 0L);
          habits.add(
              new Habit(
                  habit.check,
                  habit.place,
                  cases(habit.key()),
                  visits - done,
                  vocabulary.symptom(habit.check).minutes(),
                  minutes * beyondChance));
        });
    habits.sort(Habit.BEST_FIRST);
    return List.copyOf(habits);
  }

  private void addToSlot(Trait trait, Stratum stratum, String value, Proportion count) {
    slots
        .computeIfAbsent(trait, t -> new TreeMap<>())
        .computeIfAbsent(stratum, s -> new TreeMap<>())
        .merge(value, count, Proportion::plus);
  }

  /** A lot or a season shows in whatever its brakes come back with, new or not. */
  private void addToCell(Visit visit, Stream<Comeback> returns) {
    Optional<Comeback> comeback = returns.min(Comparator.comparing(Comeback::opened));
    String lot = "";
    String partsLot = "";
    String by = "";
    String season = "";
    for (Group group : Trait.groups(visit)) {
      switch (group.trait()) {
        case LOT -> lot = group.value();
        case PARTS_LOT -> partsLot = group.value();
        case TECHNICIAN -> by = group.value();
        case SEASON -> season = group.value();
        default -> {}
      }
    }
    Cell cell = new Cell(lot, partsLot, by, season, Trait.halfYears(visit), visit.firstGroup());
    CellTally tally = cells.computeIfAbsent(cell, c -> new CellTally());
    tally.visits++;
    if (comeback.isPresent()) {
      String cause = comeback.get().foundFirst();
      // A brake that keeps coming back with one fault is one piece of evidence, not many.
      if (causesOfBrake.add(cause)) {
        tally.returns.merge(cause, 1L, Long::sum);
        for (Trait trait : Trait.OF_PATTERNS) {
          if (!cell.value(trait).isEmpty()) {
            shelve(clusterKey(trait, cell.value(trait), cause), comeback.get());
            shelve(clusterKey(trait, cell.value(trait), ""), comeback.get());
          }
        }
      }
    }
  }

  static String groupKey(Group group) {
    return "group/" + group.trait().id() + "/" + group.value();
  }

  static String clusterKey(Trait trait, String value, String cause) {
    return "cluster/" + trait.id() + "/" + value + "/" + cause;
  }

  private void shelve(Comeback comeback) {
    shelve(ALL, comeback);
    shelve("reason/" + comeback.reason().id(), comeback);
    shelve("cause/" + comeback.foundFirst(), comeback);
    shelve("cell/" + comeback.treatedFirst() + "/" + comeback.foundFirst(), comeback);
    if (comeback.reason() == Reason.WRONG_CAUSE) {
      if (comeback.place() == 1) {
        shelve("wrong/first", comeback);
      }
      if (comeback.place() >= 1 && comeback.place() <= 3) {
        shelve("wrong/three", comeback);
      }
      if (comeback.planned()) {
        shelve("wrong/planned", comeback);
      }
    }
    if (!comeback.check().isEmpty()) {
      shelve("check/" + comeback.check(), comeback);
    }
    if (comeback.avoidable()) {
      shelve(AVOIDABLE, comeback);
      shelve("avoidable/" + comeback.reason().id(), comeback);
      shelve("kind/" + comeback.treatedFirst() + "/" + comeback.foundFirst(), comeback);
      minutesSaved += comeback.minutesSaved();
    }
  }

  private void shelve(String key, Comeback comeback) {
    shelf(key).add(comeback);
  }

  Shelf shelf(String key) {
    return shelves.computeIfAbsent(
        key,
        k ->
            new Shelf(
                CASES_KEPT, k.equals(AVOIDABLE) ? Comeback.DEAREST_FIRST : Comeback.LATEST_FIRST));
  }

  void addBrake(long weeks, double[] returnWeeks) {
    brakes++;
    returns.add(weeks, returnWeeks);
    causesOfBrake.clear();
  }

  /**
   * Counts a visit of which it is known what was wrong.
   *
   * @param witness of what was wrong
   */
  void addJudged(
      CaseFile known, Witness witness, List<String> truth, Belief belief, List<Integer> ranked) {
    List<String> names = belief.model().network().causes();
    if (!truth.isEmpty()) {
      first = first.plus(new Proportion(truth.contains(names.get(ranked.get(0))) ? 1 : 0, 1));
      boolean inThree = ranked.stream().limit(3).map(names::get).anyMatch(truth::contains);
      firstThree = firstThree.plus(new Proportion(inThree ? 1 : 0, 1));
    }
    double[] posterior = belief.posterior().posterior();
    for (int i = 0; i < posterior.length; i++) {
      stated.add(clamped(posterior[i]), truth.contains(names.get(i)));
    }
    String brake = known.brake().id();
    if (isHeldBack(brake)) {
      heldBack.put(
          new SampleKey(draw(brake + "/" + known.id()), brake, known.id()),
          new Judged(known, List.copyOf(truth)));
      trimSample();
      return;
    }
    for (int i = 0; i < posterior.length; i++) {
      Base base = requireNonNull(belief.model().bases().get(names.get(i)));
      CauseTally tally =
          causes.computeIfAbsent(
              new CauseRule(names.get(i), base.said().rule()), k -> new CauseTally());
      // One rule says one number; the greater one, so that the order of merging can never matter.
      tally.per100 = Math.max(tally.per100, base.per100());
      CauseCount count = tally.of(witness);
      count.visits++;
      count.seen += truth.contains(names.get(i)) ? 1 : 0;
      count.expected = count.expected.plus(belief.model().network().prior(i));
    }
    if (truth.size() == 1) {
      known
          .symptoms()
          .forEach(
              (symptom, presence) -> {
                if (presence != Presence.NOT_CHECKED) {
                  links.merge(
                      new Link(truth.get(0), symptom),
                      new Proportion(presence == Presence.PRESENT ? 1 : 0, 1),
                      Proportion::plus);
                }
              });
    }
  }

  private static boolean isHeldBack(String brake) {
    return Long.remainderUnsigned(draw(brake), HELD_BACK) == 0;
  }

  /**
   * Counts how the word of a recorder has held.
   *
   * @param visit with a cause written down, followed for the long window
   * @param overturned days after which a second look found that it was another; empty where none
   */
  void addHeld(Visit visit, Optional<Double> overturned, Definition definition) {
    if (isHeldBack(visit.file().brake().id())) {
      return;
    }
    this.overturned.merge(
        visit.by(), new Proportion(overturned.isPresent() ? 1 : 0, 1), Proportion::plus);
    if (overturned.filter(days -> days <= definition.shortDays()).isEmpty()) {
      overturnedLate = overturnedLate.plus(new Proportion(overturned.isPresent() ? 1 : 0, 1));
    }
  }

  private static LocalDate earlier(LocalDate one, LocalDate other) {
    return one.isBefore(other) ? one : other;
  }

  private static double clamped(double probability) {
    return Math.max(0, Math.min(1, probability));
  }

  private void trimSample() {
    while (heldBack.size() > SAMPLE) {
      heldBack.pollLastEntry();
    }
    while (sampled.size() > COMEBACK_SAMPLE) {
      sampled.pollLastEntry();
    }
  }

  /** A number that looks drawn by chance and depends on nothing but the text (FNV-1a, mixed). */
  static long draw(String text) {
    long hash = 0xcbf29ce484222325L;
    for (int i = 0; i < text.length(); i++) {
      hash = (hash ^ text.charAt(i)) * 0x100000001b3L;
    }
    hash = (hash ^ (hash >>> 33)) * 0xff51afd7ed558ccdL;
    return hash ^ (hash >>> 33);
  }

  /** Adds all of the other tally, of other brakes, to this one. */
  public void merge(Tally other) {
    visits += other.visits;
    from = earlier(from, other.from);
    brakes += other.brakes;
    recorded += other.recorded;
    tooManySymptoms += other.tooManySymptoms;
    minutesSaved += other.minutesSaved;
    other.days.forEach(
        (day, counts) -> {
          long[] mine = days.computeIfAbsent(day, d -> new long[3]);
          for (int i = 0; i < mine.length; i++) {
            mine[i] += counts[i];
          }
        });
    lives = lives.plus(other.lifeTable());
    running = running.plus(other.running());
    histories = histories.plus(other.histories());
    other.groups.forEach(
        (group, theirs) -> {
          GroupTally mine = groups.computeIfAbsent(group, g -> new GroupTally());
          mine.within = mine.within.plus(theirs.within);
          mine.withinLong = mine.withinLong.plus(theirs.withinLong);
          mine.lives = mine.lives.plus(theirs.table());
        });
    other.slots.forEach(
        (trait, table) ->
            table.forEach(
                (stratum, row) ->
                    row.forEach((value, count) -> addToSlot(trait, stratum, value, count))));
    other.cells.forEach(
        (cell, theirs) -> {
          CellTally mine = cells.computeIfAbsent(cell, c -> new CellTally());
          mine.visits += theirs.visits;
          theirs.returns.forEach((cause, n) -> mine.returns.merge(cause, n, Long::sum));
        });
    other.shelves.forEach((key, theirs) -> shelf(key).merge(theirs));
    first = first.plus(other.first);
    firstThree = firstThree.plus(other.firstThree);
    calibration = calibration.plus(other.calibration());
    other.causes.forEach(
        (key, theirs) -> {
          CauseTally mine = causes.computeIfAbsent(key, k -> new CauseTally());
          mine.per100 = Math.max(mine.per100, theirs.per100);
          theirs.byWitness.forEach(
              (witness, counts) -> {
                CauseCount count = mine.of(witness);
                count.visits += counts.visits;
                count.seen += counts.seen;
                count.expected = count.expected.plus(counts.expected);
              });
        });
    other.overturned.forEach((by, n) -> overturned.merge(by, n, Proportion::plus));
    overturnedLate = overturnedLate.plus(other.overturnedLate);
    other.links.forEach((link, counts) -> links.merge(link, counts, Proportion::plus));
    heldBack.putAll(other.heldBack);
    sampled.putAll(other.sampled);
    other.visitsAt.forEach((place, n) -> visitsAt.merge(place, n, Long::sum));
    other.lookedFor.forEach((looked, n) -> lookedFor.merge(looked, n, Long::sum));
    other.habitMinutes.forEach((habit, n) -> habitMinutes.merge(habit, n, Long::sum));
    trimSample();
  }

  /** Whether no visit was added. */
  public boolean isEmpty() {
    return visits == 0;
  }

  LifeTable lifeTable() {
    return lives.plus(life.table());
  }

  /** Visits whose brake is still out, by the days since it went back, as losses. */
  LifeTable running() {
    return running.plus(stillOut.table());
  }

  ReturnHistories histories() {
    return histories.plus(returns.histories());
  }

  Calibration calibration() {
    return calibration.plus(stated.calibration());
  }

  /** The cases on a shelf; none where it was never filled. */
  Shelf.Cases cases(String key) {
    Shelf shelf = shelves.get(key);
    return shelf == null ? Shelf.Cases.NONE : shelf.cases();
  }

  /** The shelves whose key begins so, by the rest of the key. */
  Map<String, Shelf.Cases> casesBelow(String prefix) {
    Map<String, Shelf.Cases> below = new TreeMap<>();
    shelves
        .subMap(prefix, prefix + Character.MAX_VALUE)
        .forEach((key, shelf) -> below.put(key.substring(prefix.length()), shelf.cases()));
    return below;
  }
}
