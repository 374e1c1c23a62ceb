package firmlever.comeback;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.Tally.Cell;
import firmlever.comeback.Tally.CellTally;
import firmlever.comeback.statistics.ExactTest;
import firmlever.comeback.statistics.FalseDiscovery;
import firmlever.comeback.visits.Trait;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Looks for lots, technicians and seasons after which more brakes come back, with one cause or with
 * any, than chance allows.
 *
 * <p>What is expected of a group is what brakes of the same age with the same kind of complaint
 * show everywhere. Given all returns with a cause, those that fall into the group are binomial with
 * its share of the expected ones. All groups and causes are tested, and the chances adjusted
 * together after Benjamini and Hochberg. The clearest group is taken out with all its visits and
 * the rest is looked at anew, so that one bad lot does not accuse the people who mended it.
 */
final class Clusters {
  private Clusters() {}

  /** Fewer returns are no pattern, however unlikely (from memory, as the next). */
  private static final int FEWEST = 5;

  /** A smaller excess may be real and is not worth a campaign. */
  private static final double LEAST_TIMES = 1.5;

  private static final int MOST = 12;

  /** Any cause at all. */
  static final String ANY = "";

  /**
   * A group with more returns than chance allows.
   *
   * @param cause it comes back with; empty for any
   * @param returns how many, each brake once for each cause
   * @param expected how many would be usual
   * @param visits of the group
   * @param adjusted chance of this much by luck, adjusted for all groups and causes looked at
   */
  record Found(
      Trait trait,
      String value,
      String cause,
      long returns,
      double expected,
      long visits,
      double adjusted,
      long compared) {}

  private record Stratum(int age, String group) {}

  private static final class Counts {
    long visits;
    final Map<String, Long> returns = new TreeMap<>();
    final Map<Stratum, Long> visitsBy = new HashMap<>();
  }

  static List<Found> find(Map<Cell, CellTally> cells, double falseShare) {
    Map<Cell, CellTally> open = new TreeMap<>(cells);
    List<Found> found = new ArrayList<>();
    while (found.size() < MOST) {
      Found clearest = clearest(open, falseShare);
      if (clearest == null) {
        break;
      }
      found.add(clearest);
      open.keySet().removeIf(cell -> cell.value(clearest.trait).equals(clearest.value));
    }
    return found;
  }

  /** The clearest group; null where none stands out. */
  private static @Nullable Found clearest(Map<Cell, CellTally> cells, double falseShare) {
    Map<Stratum, Long> visits = new HashMap<>();
    Map<String, Map<Stratum, Long>> returns = new TreeMap<>();
    Map<String, Long> totals = new TreeMap<>();
    Map<Trait.Group, Counts> groups = new TreeMap<>();
    cells.forEach(
        (cell, tally) -> {
          Stratum stratum = new Stratum(cell.age(), cell.group());
          visits.merge(stratum, tally.visits, Long::sum);
          tally.returns.forEach(
              (cause, n) -> {
                for (String key : List.of(cause, ANY)) {
                  returns.computeIfAbsent(key, k -> new HashMap<>()).merge(stratum, n, Long::sum);
                  totals.merge(key, n, Long::sum);
                }
              });
          for (Trait trait : Trait.OF_PATTERNS) {
            if (!cell.value(trait).isEmpty()) {
              Counts counts =
                  groups.computeIfAbsent(
                      new Trait.Group(trait, cell.value(trait)), g -> new Counts());
              counts.visits += tally.visits;
              counts.visitsBy.merge(stratum, tally.visits, Long::sum);
              tally.returns.forEach(
                  (cause, n) -> {
                    counts.returns.merge(cause, n, Long::sum);
                    counts.returns.merge(ANY, n, Long::sum);
                  });
            }
          }
        });
    List<Found> looked = new ArrayList<>();
    List<Double> chances = new ArrayList<>();
    groups.forEach(
        (group, counts) ->
            totals.forEach(
                (cause, total) -> {
                  double expected = expected(counts, visits, requireNonNull(returns.get(cause)));
                  long seen = counts.returns.getOrDefault(cause, 0L);
                  if (total < FEWEST || !(expected > 0) || !(expected < total)) {
                    return;
                  }
                  chances.add(
                      seen > expected
                          ? ExactTest.poisson(seen, expected, total - seen, total - expected)
                          : 1.0);
                  looked.add(
                      new Found(
                          group.trait(),
                          group.value(),
                          cause,
                          seen,
                          // The usual number is what the others' pace gives.
                          expected / (total - expected) * (total - seen),
                          counts.visits,
                          0,
                          0));
                }));
    List<Double> adjusted = FalseDiscovery.adjusted(chances);
    Found best = null;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < looked.size(); i++) {
      Found each = looked.get(i);
      if (adjusted.get(i) <= falseShare
          && each.returns >= FEWEST
          && each.returns >= LEAST_TIMES * each.expected
          && chances.get(i) < least) {
        least = chances.get(i);
        best =
            new Found(
                each.trait,
                each.value,
                each.cause,
                each.returns,
                each.expected,
                each.visits,
                adjusted.get(i),
                looked.size());
      }
    }
    return best;
  }

  private static double expected(
      Counts counts, Map<Stratum, Long> visits, Map<Stratum, Long> returns) {
    // Summed in a fixed order, so that rounding is the same for every order of reading.
    return counts.visitsBy.entrySet().stream()
        .sorted(
            java.util.Comparator.comparing((Map.Entry<Stratum, Long> e) -> e.getKey().age)
                .thenComparing(e -> e.getKey().group))
        .mapToDouble(
            e ->
                (double) e.getValue()
                    * returns.getOrDefault(e.getKey(), 0L)
                    / requireNonNull(visits.get(e.getKey())))
        .sum();
  }
}
