package firmlever.comeback.statistics;

/**
 * The same units judged twice, yes or no: how much more often the first judgement says yes. Limits
 * after Agresti and Min 2005, Statistics in Medicine 24:729-740 (half a unit added to each of the
 * four cells; from memory).
 *
 * @param both units with yes twice
 * @param onlyFirst units with yes by the first judgement alone
 * @param onlySecond units with yes by the second alone
 * @param neither the other units
 */
public record PairedShare(long both, long onlyFirst, long onlySecond, long neither) {
  public static final PairedShare NONE = new PairedShare(0, 0, 0, 0);

  /** One unit more. */
  public PairedShare plus(boolean first, boolean second) {
    return new PairedShare(
        both + (first && second ? 1 : 0),
        onlyFirst + (first && !second ? 1 : 0),
        onlySecond + (!first && second ? 1 : 0),
        neither + (!first && !second ? 1 : 0));
  }

  /** Yes by the first judgement. */
  public Proportion first() {
    return new Proportion(both + onlyFirst, units());
  }

  /** Yes by the second judgement. */
  public Proportion second() {
    return new Proportion(both + onlySecond, units());
  }

  /** How many units there are. */
  public long units() {
    return both + onlyFirst + onlySecond + neither;
  }

  /** The share of the first less that of the second, from -1 to 1; 0 without units. */
  public double difference() {
    return units() == 0 ? 0 : (double) (onlyFirst - onlySecond) / units();
  }

  /**
   * Limits for the difference.
   *
   * @param level between 0 and 1, for example 0.95
   */
  public Interval interval(double level) {
    double all = units() + 2.0;
    double one = onlyFirst + 0.5;
    double other = onlySecond + 0.5;
    double middle = (one - other) / all;
    double error = Math.sqrt(one + other - (one - other) * (one - other) / all) / all;
    double reach = Interval.deviate(level) * error;
    return new Interval(Math.max(-1, middle - reach), Math.min(1, middle + reach));
  }
}
