package firmlever.belief;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;

/** An exact rational number, so that an oracle cannot be wrong by rounding. */
record Fraction(BigInteger over, BigInteger under) {
  static final Fraction ZERO = new Fraction(BigInteger.ZERO, BigInteger.ONE);
  static final Fraction ONE = new Fraction(BigInteger.ONE, BigInteger.ONE);

  Fraction {
    BigInteger common = over.gcd(under);
    over = over.divide(common);
    under = under.divide(common);
  }

  static Fraction of(long over, long under) {
    return new Fraction(BigInteger.valueOf(over), BigInteger.valueOf(under));
  }

  /** A decimal as it is written: {@code "0.05"} is exactly one twentieth. */
  static Fraction of(String decimal) {
    BigDecimal number = new BigDecimal(decimal);
    return new Fraction(number.unscaledValue(), BigInteger.TEN.pow(number.scale()));
  }

  Fraction plus(Fraction other) {
    return new Fraction(
        over.multiply(other.under).add(other.over.multiply(under)), under.multiply(other.under));
  }

  Fraction times(Fraction other) {
    return new Fraction(over.multiply(other.over), under.multiply(other.under));
  }

  Fraction dividedBy(Fraction other) {
    return new Fraction(over.multiply(other.under), under.multiply(other.over));
  }

  /** One less this. */
  Fraction complement() {
    return new Fraction(under.subtract(over), under);
  }

  boolean isZero() {
    return over.signum() == 0;
  }

  double toDouble() {
    return new BigDecimal(over).divide(new BigDecimal(under), new MathContext(40)).doubleValue();
  }
}
