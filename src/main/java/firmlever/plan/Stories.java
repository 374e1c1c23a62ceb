package firmlever.plan;

import java.util.Arrays;

/** What may be wrong: sets of causes, as bits, with what the tables say of each. */
final class Stories {
  /** Each set of causes once. Not to be changed. */
  final long[] masks;

  /** By work: positions of the stories with a cause that it can mend. */
  final int[][] touched;

  private final Tables tables;

  /** By check and story, once asked for: how the check may come out. */
  private final double[][][] results;

  Stories(Tables tables, long[] masks) {
    this.tables = tables;
    this.masks = masks;
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
        byStory[s] = tables.results(check, masks[s]);
      }
      results[check] = byStory;
    }
    return results[check];
  }
}
