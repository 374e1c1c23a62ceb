package firmlever.rulebase;

import firmlever.rulebase.BrakeModel.Link;
import firmlever.rulebase.BrakeModel.Said;
import java.util.AbstractMap;
import java.util.AbstractSet;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What one cause shows, by symptom id. Kept by position, for that is how the network wants it. Once
 * it is settled it must not be changed: cases share it.
 */
final class Shown extends AbstractMap<String, Link> {
  private static final Comparator<Link> STRONGEST =
      Comparator.comparing(Link::word).thenComparing(Link::said, Said.BY_RULE);

  private final Names names;
  private final @Nullable Link[] links;
  private @Nullable Settled usual;

  /** Positions of a symptom and of one of its finer kinds. */
  record Pair(int coarse, int fine) {}

  /**
   * What a cause shows, coarser symptoms included.
   *
   * @param strength how often, by the position of the symptom; 0 where it does not
   */
  record Settled(Shown shown, double[] strength) {}

  Shown(Names names) {
    this.names = names;
    this.links = new Link[names.symptoms().size()];
  }

  Shown(Shown other) {
    this.names = other.names;
    this.links = other.links.clone();
  }

  /** The link to the symptom at that position of the vocabulary, or null. */
  @Nullable Link at(int symptom) {
    return links[symptom];
  }

  void put(int symptom, Link link) {
    links[symptom] = link;
  }

  /** Whether the link tells more of a cause than the other, which may be null. */
  static boolean stronger(Link link, @Nullable Link other) {
    return other == null || STRONGEST.compare(link, other) < 0;
  }

  /**
   * What shows a finer kind shows the coarser symptom as often.
   *
   * @param apart the kinds of which that does not hold
   */
  Settled settled(List<Pair> apart) {
    Settled settled = usual;
    if (settled == null) {
      settled = settledBut(List.of());
      usual = settled;
    }
    Shown all = settled.shown;
    return apart.stream().allMatch(pair -> all.links[pair.fine] == null)
        ? settled
        : settledBut(apart);
  }

  private Settled settledBut(List<Pair> apart) {
    Shown shown = new Shown(this);
    for (int coarse : names.coarse()) {
      for (int fine : names.kinds()[coarse]) {
        Link link = shown.links[fine];
        if (link != null
            && stronger(link, shown.links[coarse])
            && !apart.contains(new Pair(coarse, fine))) {
          shown.links[coarse] = link;
        }
      }
    }
    double[] strength = new double[links.length];
    for (int j = 0; j < strength.length; j++) {
      strength[j] = shown.links[j] == null ? 0 : shown.links[j].word().probability();
    }
    return new Settled(shown, strength);
  }

  @Override
  public @Nullable Link get(Object symptom) {
    Integer at = names.symptoms().get(symptom);
    return at == null ? null : links[at];
  }

  @Override
  public Set<Entry<String, Link>> entrySet() {
    return new AbstractSet<>() {
      @Override
      public Iterator<Entry<String, Link>> iterator() {
        return names.symptoms().entrySet().stream()
            .filter(each -> links[each.getValue()] != null)
            .map(each -> Map.entry(each.getKey(), links[each.getValue()]))
            .iterator();
      }

      @Override
      public int size() {
        return (int) Stream.of(links).filter(Objects::nonNull).count();
      }
    };
  }
}
