package firmlever.rulebase;

import firmlever.rulebase.BrakeModel.Link;
import java.util.AbstractMap;
import java.util.AbstractSet;
import java.util.Iterator;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;

/** What one cause shows, by symptom id. Kept by position, for that is how the network wants it. */
final class Shown extends AbstractMap<String, Link> {
  private final Names names;
  private final Link[] links;

  Shown(Names names) {
    this.names = names;
    this.links = new Link[names.symptoms().size()];
  }

  Shown(Shown other) {
    this.names = other.names;
    this.links = other.links.clone();
  }

  /** The link to the symptom at that position of the vocabulary, or null. */
  Link at(int symptom) {
    return links[symptom];
  }

  void put(int symptom, Link link) {
    links[symptom] = link;
  }

  @Override
  public Link get(Object symptom) {
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
