package firmlever.hearing;

import firmlever.hearing.Heard.Wheel;
import firmlever.hearing.language.Grammar;
import firmlever.hearing.language.Word;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Of which wheel each word of a text speaks. */
final class Wheels {
  private final Wheel[] byWord;
  private final Wheel whole;

  Wheels(List<Word> words) {
    byWord = new Wheel[words.size()];
    Set<Wheel> named = EnumSet.noneOf(Wheel.class);
    Wheel current = Wheel.UNKNOWN;
    for (int at = 0; at < words.size(); ) {
      int end = at;
      Set<Wheel> here = EnumSet.noneOf(Wheel.class);
      while (end < words.size() && words.get(end).clause() == words.get(at).clause()) {
        here.addAll(of(words.get(end)));
        end++;
      }
      named.addAll(here);
      if (here.size() > 1) {
        nearest(words, at, end);
      } else {
        current = here.isEmpty() ? current : here.iterator().next();
        java.util.Arrays.fill(byWord, at, end, current);
      }
      current = byWord[end - 1];
      at = end;
    }
    whole =
        named.isEmpty() ? Wheel.UNKNOWN : named.size() > 1 ? Wheel.BOTH : named.iterator().next();
  }

  private static Set<Wheel> of(Word word) {
    Set<Wheel> wheels = EnumSet.noneOf(Wheel.class);
    if (Grammar.FRONT.in(word)) {
      wheels.add(Wheel.FRONT);
    }
    if (Grammar.REAR.in(word)) {
      wheels.add(Wheel.REAR);
    }
    if (Grammar.EACH.in(word)) {
      wheels.add(Wheel.BOTH);
    }
    return wheels;
  }

  /** Where a clause names several wheels, each word belongs with the one named last before it. */
  private void nearest(List<Word> words, int from, int to) {
    Wheel current = Wheel.UNKNOWN;
    int open = from;
    for (int at = from; at < to; at++) {
      Set<Wheel> here = of(words.get(at));
      if (here.size() == 1) {
        current = here.iterator().next();
      }
      byWord[at] = current;
      while (current != Wheel.UNKNOWN && open < at) {
        byWord[open] = byWord[open] == Wheel.UNKNOWN ? current : byWord[open];
        open++;
      }
    }
  }

  Wheel of(int word) {
    return byWord[word];
  }

  /** The wheel the text speaks of: both where it names both. */
  Wheel whole() {
    return whole;
  }
}
