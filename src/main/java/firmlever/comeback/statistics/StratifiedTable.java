package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * Events and trials by stratum and by label (such as by work and by technician): each label can be
 * held against the others within the same strata, and the labels can be shuffled there.
 *
 * @param <S> what a stratum is
 */
public final class StratifiedTable<S extends Comparable<S>> {
  private final SortedMap<S, SortedMap<String, Proportion>> cells;

  /** Copies nothing: the table is not to be changed afterwards. */
  public StratifiedTable(SortedMap<S, SortedMap<String, Proportion>> cells) {
    this.cells = cells;
  }

  /** All labels, in order. */
  List<String> labels() {
    TreeSet<String> labels = new TreeSet<>();
    cells.values().forEach(row -> labels.addAll(row.keySet()));
    return List.copyOf(labels);
  }

  /** All strata, in order. */
  public List<S> strata() {
    return List.copyOf(cells.keySet());
  }

  /**
   * A label held against the others within the same strata.
   *
   * @param own events and trials of the label where it can be compared
   * @param asOthers events it would have at the rates of the others in each stratum
   * @param test the distribution of its events where labels mean nothing
   */
  public record Contrast(Proportion own, double asOthers, StratifiedTest test) {
    /** The chance of a difference like this, exact and two-sided. */
    public double chance() {
      return test.chance(own.events());
    }

    /** Whether the label has more events than its label's meaning nothing would give. */
    boolean above() {
      return own.events() > test.expected();
    }
  }

  /**
   * Holds a label against the others.
   *
   * @param where the strata it is compared in
   * @param against the labels it is held against; its own counts as among them
   */
  public Contrast contrast(String label, Predicate<S> where, Predicate<String> against) {
    List<StratifiedTest.Stratum> strata = new ArrayList<>();
    Proportion all = Proportion.NONE;
    double asOthers = 0;
    for (Map.Entry<S, SortedMap<String, Proportion>> row : cells.entrySet()) {
      Proportion own = row.getValue().getOrDefault(label, Proportion.NONE);
      if (own.trials() == 0 || !where.test(row.getKey())) {
        continue;
      }
      Proportion others =
          row.getValue().entrySet().stream()
              .filter(e -> !e.getKey().equals(label) && against.test(e.getKey()))
              .map(Map.Entry::getValue)
              .reduce(Proportion.NONE, Proportion::plus);
      if (others.trials() > 0) {
        all = all.plus(own);
        asOthers += (double) own.trials() * others.events() / others.trials();
        strata.add(new StratifiedTest.Stratum(own.trials(), own.plus(others)));
      }
    }
    return new Contrast(all, asOthers, new StratifiedTest(strata));
  }

  /** The same table with the labels dealt out anew within each stratum. */
  Map<S, Map<String, Long>> shuffled(SplittableRandom random) {
    Map<S, Map<String, Long>> shuffled = new TreeMap<>();
    cells.forEach(
        (stratum, row) -> {
          Proportion left = row.values().stream().reduce(Proportion.NONE, Proportion::plus);
          Map<String, Long> events = new HashMap<>();
          for (Map.Entry<String, Proportion> cell : row.entrySet()) {
            long trials = cell.getValue().trials();
            long drawn = StratifiedTest.draw(trials, left, random.nextDouble());
            events.put(cell.getKey(), drawn);
            left = left.minus(new Proportion(drawn, trials));
          }
          shuffled.put(stratum, events);
        });
    return shuffled;
  }

  /** The strata in which the label can be compared with others. */
  List<S> compared(String label, Predicate<S> where) {
    return cells.entrySet().stream()
        .filter(row -> where.test(row.getKey()))
        .filter(row -> row.getValue().getOrDefault(label, Proportion.NONE).trials() > 0)
        .filter(
            row ->
                row.getValue().entrySet().stream()
                    .anyMatch(e -> !e.getKey().equals(label) && e.getValue().trials() > 0))
        .map(Map.Entry::getKey)
        .toList();
  }
}
