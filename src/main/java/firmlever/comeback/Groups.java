package firmlever.comeback;

import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.Tally.GroupTally;
import firmlever.comeback.statistics.ExactTest;
import firmlever.comeback.statistics.FairComparison;
import firmlever.comeback.statistics.FairComparison.Check;
import firmlever.comeback.statistics.FairComparison.Result;
import firmlever.comeback.statistics.LogRankTest;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RatePrior;
import firmlever.comeback.statistics.StratifiedTable;
import firmlever.comeback.visits.Stratum;
import firmlever.comeback.visits.Trait;
import firmlever.comeback.visits.Trait.Group;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * Holds the groups of every trait against others of their kind. Persons (by themselves and by work)
 * are a family of tests of their own: a clear finding about lots must not make it easier to accuse
 * anybody.
 *
 * @param persons what shuffled codes of technicians would give
 * @param things the same for all other groups
 */
public record Groups(List<Comparison> comparisons, Check persons, Check things) {
  /** The share of the verdicts and clusters that may be false on average. */
  public static final double FALSE_SHARE = 0.05;

  /**
   * The groups of one trait held against others.
   *
   * @param paces whether they come back at the same pace; empty where that is not compared
   */
  public record Comparison(Trait trait, List<Standing> standings, Optional<LogRankTest> paces) {}

  /**
   * One group, by its comebacks within the short window.
   *
   * @param count its own
   * @param others those of all other groups of the trait together
   * @param plainChance of a difference from all others like this by luck (Fisher), not adjusted
   * @param like against others of the same kind ({@link Trait#likeWords}); the verdict rests on it
   * @param shrunk what is known of its rate, drawn towards the common one
   */
  public record Standing(
      String name,
      Proportion count,
      Proportion others,
      double plainChance,
      Result like,
      RatePrior shrunk,
      Cases cases) {}

  static Groups of(Tally tally) {
    FairComparison<Stratum> persons = new FairComparison<>(FALSE_SHARE);
    FairComparison<Stratum> things = new FairComparison<>(FALSE_SHARE);
    Map<Trait, List<Map.Entry<Group, GroupTally>>> groups = new EnumMap<>(Trait.class);
    tally.groups.entrySet().stream()
        .filter(e -> e.getValue().within.trials() > 0)
        .forEach(e -> groups.computeIfAbsent(e.getKey().trait(), t -> new ArrayList<>()).add(e));
    groups.values().removeIf(list -> list.size() < 2);
    Map<Trait, StratifiedTable<Stratum>> tables = new EnumMap<>(Trait.class);
    groups.forEach(
        (trait, list) -> {
          StratifiedTable<Stratum> table =
              tables.computeIfAbsent(
                  tableOf(trait), t -> new StratifiedTable<>(comparable(t, tally)));
          FairComparison<Stratum> family = trait.ofPersons() ? persons : things;
          List<Predicate<Stratum>> hands = hands(trait, table);
          for (Map.Entry<Group, GroupTally> each : list) {
            String value = each.getKey().value();
            if (trait == Trait.TECHNICIAN_AND_WORK) {
              int dot = value.indexOf(Trait.AND);
              String work = value.substring(dot + Trait.AND.length());
              family.add(
                  table,
                  value.substring(0, dot),
                  stratum -> stratum.work().equals(work),
                  List.of());
            } else {
              family.add(table, value, stratum -> true, hands);
            }
          }
        });
    List<Result> ofPersons = persons.results();
    List<Result> ofThings = things.results();
    var nextPerson = ofPersons.iterator();
    var nextThing = ofThings.iterator();
    List<Comparison> comparisons = new ArrayList<>();
    groups.forEach(
        (trait, list) -> {
          List<Proportion> counts = list.stream().map(e -> e.getValue().within).toList();
          Proportion all = counts.stream().reduce(Proportion.NONE, Proportion::plus);
          RatePrior prior = RatePrior.of(counts);
          List<Standing> standings = new ArrayList<>();
          for (Map.Entry<Group, GroupTally> each : list) {
            Proportion own = each.getValue().within;
            Proportion others = all.minus(own);
            standings.add(
                new Standing(
                    each.getKey().value(),
                    own,
                    others,
                    ExactTest.fisher(own, others),
                    (trait.ofPersons() ? nextPerson : nextThing).next(),
                    prior.after(own),
                    tally.cases(Tally.groupKey(each.getKey()))));
          }
          comparisons.add(
              new Comparison(
                  trait,
                  List.copyOf(standings),
                  trait.timed()
                      ? Optional.of(
                          LogRankTest.of(list.stream().map(e -> e.getValue().table()).toList()))
                      : Optional.empty()));
        });
    return new Groups(List.copyOf(comparisons), persons.check(ofPersons), things.check(ofThings));
  }

  /** Of visits without a work on record nobody can say that two persons did the same. */
  private static SortedMap<Stratum, SortedMap<String, Proportion>> comparable(
      Trait trait, Tally tally) {
    SortedMap<Stratum, SortedMap<String, Proportion>> all =
        new TreeMap<>(tally.slots.getOrDefault(trait, new TreeMap<>()));
    if (trait.ofPersons()) {
      all.keySet().removeIf(stratum -> stratum.work().isEmpty());
    }
    return all;
  }

  /** The work of a technician is a part of the technician's own table. */
  private static Trait tableOf(Trait trait) {
    return trait == Trait.TECHNICIAN_AND_WORK ? Trait.TECHNICIAN : trait;
  }

  /** What is said of a work must hold without the visits of any one technician. */
  private static List<Predicate<Stratum>> hands(Trait trait, StratifiedTable<Stratum> table) {
    if (trait != Trait.WORK && trait != Trait.CAUSE) {
      return List.of();
    }
    return table.strata().stream()
        .map(Stratum::by)
        .distinct()
        .map(by -> (Predicate<Stratum>) stratum -> stratum.by().equals(by))
        .toList();
  }
}
