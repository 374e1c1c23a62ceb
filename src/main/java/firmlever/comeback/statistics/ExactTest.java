package firmlever.comeback.statistics;

import java.util.Locale;
import org.apache.commons.statistics.inference.BinomialTest;
import org.apache.commons.statistics.inference.FisherExactTest;

/**
 * Exact tests for counts of any size. Each returns the chance of a result at least this unlikely
 * (two-sided: all outcomes no likelier than the one seen) where there is no difference.
 */
public final class ExactTest {
  private ExactTest() {}

  /** Whether two rates differ (Fisher), two-sided; 1 where either has no trials. */
  public static double fisher(Proportion one, Proportion other) {
    if (one.trials() == 0 || other.trials() == 0) {
      return 1;
    }
    int[][] table = {
      {(int) one.events(), (int) (one.trials() - one.events())},
      {(int) other.events(), (int) (other.trials() - other.events())}
    };
    return FisherExactTest.withDefaults().test(table).getPValue();
  }

  /**
   * Whether a rate differs from a rate known beforehand (binomial), two-sided.
   *
   * @param rate from 0 to 1
   */
  static double binomial(Proportion count, double rate) {
    return count.trials() == 0
        ? 1
        : BinomialTest.withDefaults()
            .test((int) count.trials(), (int) count.events(), rate)
            .getPValue();
  }

  /**
   * Whether events come at different rates over two exposures (such as brake-days), two-sided: of
   * all events, those of the one are binomial with its share of the exposure.
   *
   * @param exposure and otherExposure above 0, in the same unit
   * @throws IllegalArgumentException where a count or exposure is out of range
   */
  public static double poisson(
      long events, double exposure, long otherEvents, double otherExposure) {
    if (!(exposure > 0 && otherExposure > 0)) {
      throw new IllegalArgumentException(
          String.format(
              Locale.ROOT, "exposures must be above 0, not %s and %s", exposure, otherExposure));
    }
    return binomial(
        new Proportion(events, Math.addExact(events, otherEvents)),
        exposure / (exposure + otherExposure));
  }
}
