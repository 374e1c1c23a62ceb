package firmlever.comeback;

import firmlever.comeback.visits.Comeback;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;

/** Counts comebacks and keeps the first few of them by a fixed order. Mergeable. */
public final class Shelf {
  private final int room;
  private final TreeSet<Comeback> kept;
  private long count;

  Shelf(int room, Comparator<Comeback> order) {
    this.room = room;
    this.kept = new TreeSet<>(order);
  }

  void add(Comeback comeback) {
    count++;
    keep(comeback);
  }

  void merge(Shelf other) {
    count += other.count;
    other.kept.forEach(this::keep);
  }

  private void keep(Comeback comeback) {
    if (kept.size() < room) {
      kept.add(comeback);
    } else if (room > 0
        && kept.comparator().compare(comeback, kept.last()) < 0
        && kept.add(comeback)) {
      kept.pollLast();
    }
  }

  /** Fills an empty shelf with what another one held. */
  void fill(long all, List<Comeback> first) {
    count = all;
    first.forEach(this::keep);
  }

  Cases cases() {
    return new Cases(count, new ArrayList<>(kept));
  }

  /**
   * A count with the cases behind it.
   *
   * @param count all of them
   * @param shown the first few
   */
  public record Cases(long count, List<Comeback> shown) {
    public static final Cases NONE = new Cases(0, List.of());

    /** Copies the list. */
    public Cases {
      shown = List.copyOf(shown);
    }
  }
}
