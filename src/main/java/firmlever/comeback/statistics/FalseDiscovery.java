package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Many comparisons at once without a crowd of false alarms. */
public final class FalseDiscovery {
  private FalseDiscovery() {}

  /**
   * Adjusted chances after Benjamini and Hochberg (step-up): those at most q may be called
   * findings, and then on average no more than the share q of the findings is false. Source:
   * Benjamini and Hochberg 1995, JRSS B 57:289-300.
   *
   * @param chances of each comparison, from 0 to 1
   * @return the adjusted chances, in the order given
   * @throws IllegalArgumentException where a chance is out of range
   */
  public static List<Double> adjusted(List<Double> chances) {
    for (double chance : chances) {
      if (!(chance >= 0 && chance <= 1)) {
        throw new IllegalArgumentException("a chance lies from 0 to 1, not at " + chance);
      }
    }
    int size = chances.size();
    var largestFirst =
        IntStream.range(0, size)
            .boxed()
            .sorted(Comparator.comparing((Integer i) -> chances.get(i)).reversed())
            .toList();
    var adjusted = new ArrayList<>(Collections.nCopies(size, 1.0));
    double least = 1;
    for (int rank = size; rank >= 1; rank--) {
      int index = largestFirst.get(size - rank);
      least = Math.min(least, chances.get(index) * size / rank);
      adjusted.set(index, least);
    }
    return List.copyOf(adjusted);
  }
}
