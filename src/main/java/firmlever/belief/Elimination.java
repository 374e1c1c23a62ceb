package firmlever.belief;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a network is solved: which of the observations hang together, and in which order the causes
 * are best added. It depends only on which causes may be there and which bear on what.
 */
public final class Elimination {
  /** Making ready for a solve takes as long as so many visits. */
  private static final long MAKING_READY = 30_000;

  final List<Part> together;

  private Elimination(List<Part> together) {
    this.together = together;
  }

  /** How the network is solved for these observations. */
  public static Elimination of(Network network, List<Observation> observations) {
    return of(network, new Apart(network, observations));
  }

  static Elimination of(Network network, Apart apart) {
    List<Part> together = new ArrayList<>();
    for (List<Observation> component : components(network, apart.open, apart.posterior)) {
      CauseOrder order = CauseOrder.of(network, component, apart.posterior);
      together.add(new Part(component, order));
    }
    return new Elimination(together);
  }

  /** Work of a solve, in the unit of {@link WorkBudget}. */
  public long work() {
    return MAKING_READY + together.stream().mapToLong(part -> part.order.work).sum();
  }

  /** Of the observations that hang together the largest lot; none where all are clearly absent. */
  List<Observation> largestPart() {
    return together.stream()
        .map(part -> part.seen)
        .max(Comparator.comparingInt(List::size))
        .orElse(List.of());
  }

  /** Observations that hang together, and the order in which causes are added to their table. */
  static final class Part {
    final List<Observation> seen;
    final CauseOrder order;

    /** Laid out at the first solve: often only the work is asked for. */
    private @Nullable TableLayout layout;

    Part(List<Observation> seen, CauseOrder order) {
      this.seen = seen;
      this.order = order;
    }

    TableLayout layout() {
      TableLayout known = layout;
      if (known == null) {
        known = new TableLayout(seen, order);
        layout = known;
      }
      return known;
    }
  }

  /** Splits the observations into groups that share no cause that can still be present. */
  private static List<List<Observation>> components(
      Network network, List<Observation> open, double[] belief) {
    List<List<Observation>> components = new ArrayList<>();
    boolean[] placed = new boolean[open.size()];
    for (int start = 0; start < open.size(); start++) {
      if (placed[start]) {
        continue;
      }
      List<Observation> component = new ArrayList<>();
      List<Integer> reached = new ArrayList<>(List.of(start));
      placed[start] = true;
      for (int at = 0; at < reached.size(); at++) {
        Observation from = open.get(reached.get(at));
        component.add(from);
        for (int to = 0; to < open.size(); to++) {
          if (!placed[to] && share(network, from.symptom(), open.get(to).symptom(), belief)) {
            placed[to] = true;
            reached.add(to);
          }
        }
      }
      components.add(component);
    }
    return components;
  }

  private static boolean share(Network network, int a, int b, double[] belief) {
    for (int i = 0; i < belief.length; i++) {
      if (belief[i] > 0 && network.strength()[i][a] > 0 && network.strength()[i][b] > 0) {
        return true;
      }
    }
    return false;
  }
}
