package firmlever.plan;

import java.util.Arrays;

/** What may be wrong: sets of causes, as bits, with what the tables say of each. */
final class Stories {
  /** Each set of causes once. Not to be changed. */
  final long[] masks;

  /** By work: positions of the stories with a cause that it can mend. */
  final int[][] touched;

  /** The causes of all stories, one story after the other, ascending in each. */
  final int[] bits;

  /** By story: where its causes begin; behind the last, where they end. */
  final int[] starts;

  private final Tables tables;

  /** The stories these were taken from, and the place of each there; null where they are new. */
  private final Stories from;

  private final int[] places;

  /** By check and story, once asked for: how the check may come out. */
  private final double[][][] results;

  Stories(Tables tables, long[] masks) {
    this(tables, masks, null, null);
  }

  /** Some of these stories, by their places. */
  Stories only(int[] kept) {
    return new Stories(tables, Arrays.stream(kept).mapToLong(s -> masks[s]).toArray(), this, kept);
  }

  private Stories(Tables tables, long[] masks, Stories from, int[] places) {
    this.tables = tables;
    this.masks = masks;
    this.from = from;
    this.places = places;
    this.starts = new int[masks.length + 1];
    for (int s = 0; s < masks.length; s++) {
      starts[s + 1] = starts[s] + Long.bitCount(masks[s]);
    }
    this.bits = new int[starts[masks.length]];
    int at = 0;
    for (long mask : masks) {
      for (long open = mask; open != 0; open &= open - 1) {
        bits[at++] = Long.numberOfTrailingZeros(open);
      }
    }
    this.touched = new int[tables.works][];
    this.results = new double[tables.checks][][];
    int[] found = new int[masks.length];
    for (int w = 0; w < touched.length; w++) {
      int count = 0;
      for (int s = 0; s < masks.length; s++) {
        if ((masks[s] & tables.mendable[w]) != 0) {
          found[count++] = s;
        }
      }
      touched[w] = Arrays.copyOf(found, count);
    }
  }

  /** By story: probability of each way the check may come out. */
  double[][] results(int check) {
    if (results[check] == null) {
      double[][] byStory = new double[masks.length][];
      for (int s = 0; s < masks.length; s++) {
        byStory[s] =
            from == null ? tables.results(check, masks[s]) : from.results(check)[places[s]];
      }
      results[check] = byStory;
    }
    return results[check];
  }
}
