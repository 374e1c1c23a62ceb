package firmlever.comeback.statistics;

/**
 * An exact sum of values from 0 to 1, each cut to a multiple of 2⁻⁶² (2.2e-19). It is kept in whole
 * numbers, so that the order of adding makes no difference. Mergeable.
 *
 * @param whole the whole part, 0 or more
 * @param fraction the rest in units of 2⁻⁶², from 0 to 2⁶² − 1
 */
public record UnitSum(long whole, long fraction) {
  /** The empty sum. */
  public static final UnitSum ZERO = new UnitSum(0, 0);

  private static final long ONE = 1L << 62;

  /** Throws {@link IllegalArgumentException} where a part is out of range. */
  public UnitSum {
    if (whole < 0 || fraction < 0 || fraction >= ONE) {
      throw new IllegalArgumentException("parts are out of range: " + whole + " and " + fraction);
    }
  }

  /**
   * This and one value more.
   *
   * @param value from 0 to 1
   */
  public UnitSum plus(double value) {
    return of(whole, fraction + (long) (checked(value) * ONE));
  }

  /** Both sums together. */
  public UnitSum plus(UnitSum other) {
    return of(Math.addExact(whole, other.whole), fraction + other.fraction);
  }

  /** The sum, to the nearest double. */
  public double value() {
    return whole + (double) fraction / ONE;
  }

  static double checked(double value) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException("a value must be from 0 to 1, not " + value);
    }
    return value;
  }

  private static UnitSum of(long whole, long parts) {
    return new UnitSum(whole + (parts >>> 62), parts & (ONE - 1));
  }
}
