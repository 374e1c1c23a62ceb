package firmlever.plan;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** What may be wrong: sets of causes, as bits, with what the tables say of each. */
final class Stories {
  /** Each set of causes once. Not to be changed. */
  final long[] masks;

  /** By story: its first three causes; the number of causes in all where it has fewer. */
  final int[] first;

  final int[] second;
  final int[] third;

  /** By story: its other causes, as bits. */
  final long[] further;

  /** By work, once asked for: positions of the stories with a cause that it can mend. */
  private final int[][] touched;

  private final Tables tables;

  /** The stories these were taken from, and the place of each there. */
  private record Origin(Stories from, int[] places) {}

  /** Null where they are new. */
  private final @Nullable Origin origin;

  /** By check and story, once asked for: how the check may come out. */
  private final double[][][] results;

  Stories(Tables tables, long[] masks) {
    this(tables, masks, null);
  }

  /** Some of these stories, by their places. */
  Stories only(int[] kept) {
    long[] some = new long[kept.length];
    for (int k = 0; k < kept.length; k++) {
      some[k] = masks[kept[k]];
    }
    return new Stories(tables, some, new Origin(this, kept));
  }

  private Stories(Tables tables, long[] masks, @Nullable Origin origin) {
    this.tables = tables;
    this.masks = masks;
    this.origin = origin;
    this.first = new int[masks.length];
    this.second = new int[masks.length];
    this.third = new int[masks.length];
    this.further = new long[masks.length];
    int none = tables.causes.length;
    for (int s = 0; s < masks.length; s++) {
      long open = masks[s];
      first[s] = lowest(open, none);
      open &= open - 1;
      second[s] = lowest(open, none);
      open &= open - 1;
      third[s] = lowest(open, none);
      further[s] = open & (open - 1);
    }
    this.touched = new int[tables.works][];
    this.results = new double[tables.checks][][];
  }

  private static int lowest(long bits, int none) {
    return bits == 0 ? none : Long.numberOfTrailingZeros(bits);
  }

  /** Positions of the stories with a cause that the work can mend. Not to be changed. */
  int[] touched(int work) {
    if (touched[work] == null) {
      int[] found = new int[masks.length];
      int count = 0;
      for (int s = 0; s < masks.length; s++) {
        if ((masks[s] & tables.mendable[work]) != 0) {
          found[count++] = s;
        }
      }
      touched[work] = Arrays.copyOf(found, count);
    }
    return touched[work];
  }

  /** By story: probability of each way the check may come out. */
  double[][] results(int check) {
    if (results[check] == null) {
      double[][] byStory = new double[masks.length][];
      for (int s = 0; s < masks.length; s++) {
        byStory[s] =
            origin == null
                ? tables.results(check, masks[s])
                : origin.from.results(check)[origin.places[s]];
      }
      results[check] = byStory;
    }
    return results[check];
  }
}
