package firmlever.hearing.language;

import firmlever.hearing.language.Language.Meaning;
import firmlever.hearing.language.Language.Topic;
import firmlever.hearing.language.Pattern.Match;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/**
 * Finds the patterns in a text and keeps, of those that want the same words, the one that asks for
 * most.
 */
public final class Selection {
  private Selection() {}

  /** A pattern found and kept. */
  public record Chosen(Meaning meaning, Match match) {
    public boolean is(Topic topic) {
      return meaning.topic() == topic;
    }
  }

  /**
   * What was kept, in the order of the text.
   *
   * @param misread what is not kept though its pattern was found
   */
  public static List<Chosen> of(List<Word> words, Language language, Predicate<Chosen> misread) {
    List<Chosen> all = new ArrayList<>();
    BitSet there = new BitSet();
    words.forEach(word -> there.or(word.atoms()));
    for (int at = 0; at < words.size(); at++) {
      BitSet atoms = words.get(at).atoms();
      for (int atom = atoms.nextSetBit(0); atom >= 0; atom = atoms.nextSetBit(atom + 1)) {
        for (Meaning meaning : language.meanings().getOrDefault(atom, List.of())) {
          if (meaning.pattern().possible(there)) {
            meaning.pattern().at(words, at).ifPresent(match -> all.add(new Chosen(meaning, match)));
          }
        }
      }
    }
    all.removeIf(misread);
    all.sort(
        Comparator.comparingInt((Chosen c) -> -c.meaning().pattern().weight())
            .thenComparingInt(c -> c.match().last() - c.match().first())
            .thenComparingInt(c -> c.match().first()));
    Map<Topic, BitSet> taken = new EnumMap<>(Topic.class);
    List<Chosen> kept = new ArrayList<>();
    for (Chosen each : all) {
      BitSet own = new BitSet();
      each.match().claimed().forEach(own::set);
      boolean free =
          taken.entrySet().stream()
              .filter(t -> t.getKey().sharesRoomWith(each.meaning().topic()))
              .noneMatch(t -> t.getValue().intersects(own));
      if (free) {
        taken.computeIfAbsent(each.meaning().topic(), t -> new BitSet()).or(own);
        kept.add(each);
      }
    }
    kept.sort(Comparator.comparingInt(c -> c.match().first()));
    return kept;
  }
}
