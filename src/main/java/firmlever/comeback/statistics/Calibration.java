package firmlever.comeback.statistics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * Whether stated probabilities come true. Mergeable.
 *
 * @param bins of equal width from 0 to 1; a probability on an edge belongs to the bin above, 1 to
 *     the last
 * @param squaredErrors the sum of (probability − outcome)²
 */
public record Calibration(List<Bin> bins, UnitSum squaredErrors) {

  /** Throws {@link IllegalArgumentException} where there is no bin. */
  public Calibration {
    bins = List.copyOf(bins);
    if (bins.isEmpty()) {
      throw new IllegalArgumentException("calibration needs at least one bin");
    }
  }

  /**
   * The statements in one bin.
   *
   * @param outcomes how many came true, of how many
   * @param stated the sum of their probabilities
   */
  public record Bin(Proportion outcomes, UnitSum stated) {
    private double gap() {
      return Math.abs(outcomes.events() - stated.value());
    }
  }

  /** Gathers statements one by one. Not for use by several threads: give each its own. */
  public static final class Counter {
    private final long[] statements;
    private final long[] events;
    private final UnitSum[] stated;
    private UnitSum squaredErrors = UnitSum.ZERO;

    /** With so many bins, 1 or more; 10 is usual. */
    public Counter(int bins) {
      if (bins < 1) {
        throw new IllegalArgumentException("calibration needs at least one bin, not " + bins);
      }
      statements = new long[bins];
      events = new long[bins];
      stated = Collections.nCopies(bins, UnitSum.ZERO).toArray(UnitSum[]::new);
    }

    /**
     * Counts one statement.
     *
     * @param probability from 0 to 1
     * @param cameTrue what happened
     */
    public void add(double probability, boolean cameTrue) {
      double error = cameTrue ? 1 - UnitSum.checked(probability) : UnitSum.checked(probability);
      squaredErrors = squaredErrors.plus(error * error);
      int bin = Math.min(stated.length - 1, (int) (probability * stated.length));
      stated[bin] = stated[bin].plus(probability);
      statements[bin]++;
      if (cameTrue) {
        events[bin]++;
      }
    }

    /** What has been counted so far. */
    public Calibration calibration() {
      var bins = new ArrayList<Bin>(stated.length);
      for (int i = 0; i < stated.length; i++) {
        bins.add(new Bin(new Proportion(events[i], statements[i]), stated[i]));
      }
      return new Calibration(bins, squaredErrors);
    }
  }

  /**
   * Both counted together.
   *
   * @throws IllegalArgumentException where they have different numbers of bins
   */
  public Calibration plus(Calibration other) {
    if (bins.size() != other.bins.size()) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT,
              "calibrations of %d and %d bins cannot be added",
              bins.size(),
              other.bins.size()));
    }
    var sum = new ArrayList<Bin>(bins.size());
    for (int i = 0; i < bins.size(); i++) {
      var one = bins.get(i);
      var two = other.bins.get(i);
      sum.add(new Bin(one.outcomes.plus(two.outcomes), one.stated.plus(two.stated)));
    }
    return new Calibration(sum, squaredErrors.plus(other.squaredErrors));
  }

  /** How many statements there are. */
  public long statements() {
    return bins.stream().mapToLong(b -> b.outcomes.trials()).sum();
  }

  /**
   * The mean of (probability − outcome)², from 0 (best) to 1: the form for one yes-or-no event.
   * Brier's own form of 1950 sums over both outcomes and is twice this.
   *
   * @throws IllegalStateException without statements
   */
  public double brier() {
    return squaredErrors.value() / checkedStatements();
  }

  /**
   * The expected calibration error, from 0 (best) to 1: the gap between stated and seen shares,
   * averaged over the bins by their statements. Even true probabilities do not give 0 in a small
   * sample. Source: Naeini 2015; Guo 2017 (from memory).
   *
   * @throws IllegalStateException without statements
   */
  public double expectedError() {
    return bins.stream().mapToDouble(Bin::gap).sum() / checkedStatements();
  }

  private long checkedStatements() {
    long statements = statements();
    if (statements == 0) {
      throw new IllegalStateException("there are no statements to judge");
    }
    return statements;
  }
}
