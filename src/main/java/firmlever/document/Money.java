package firmlever.document;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Currency;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * An amount of money, such as {@code 38.50 EUR}, to the smallest coin of its currency.
 *
 * @param currency its ISO 4217 code
 */
public record Money(BigDecimal amount, Currency currency) {
  private static final Pattern FORM =
      Pattern.compile("(-?\\d{1,7}(?:\\.\\d{1,4})?)(?: ([A-Z]{3}))?");

  /** The form of an amount that is right, as a regular expression. */
  static final String PATTERN = "^\\d{1,7}(\\.\\d{1,4})? [A-Z]{3}$";

  public Money {
    amount = amount.setScale(coin(currency), RoundingMode.UNNECESSARY);
  }

  /**
   * Reads an amount.
   *
   * @throws IllegalArgumentException saying what is wrong with it, as the end of a sentence that
   *     begins with the amount
   */
  public static Money read(String text) {
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      throw new IllegalArgumentException(
          "stands here; it must be an amount with its currency, such as \"38.50 EUR\"");
    }
    if (form.group(2) == null) {
      throw new IllegalArgumentException(
          "has no currency; its ISO 4217 code must follow, such as \"38.50 EUR\"");
    }
    BigDecimal amount = new BigDecimal(form.group(1));
    if (amount.signum() < 0) {
      throw new IllegalArgumentException("is less than nothing; an amount must be zero or more");
    }
    Currency currency;
    try {
      currency = Currency.getInstance(form.group(2));
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException("names no currency of ISO 4217", e);
    }
    if (amount.stripTrailingZeros().scale() > coin(currency)) {
      throw new IllegalArgumentException("is finer than the smallest coin of its currency");
    }
    return new Money(amount, currency);
  }

  private static int coin(Currency currency) {
    return Math.max(0, currency.getDefaultFractionDigits());
  }

  public Money plus(Money other) {
    return new Money(amount.add(other.amount), currency);
  }

  public Money minus(Money other) {
    return new Money(amount.subtract(other.amount), currency);
  }

  /** So many percent of it, to the nearest coin; a half goes up. */
  public Money percent(int share) {
    return new Money(
        amount
            .multiply(BigDecimal.valueOf(share))
            .movePointLeft(2)
            .setScale(amount.scale(), RoundingMode.HALF_UP),
        currency);
  }

  /** The smaller of the two. */
  public Money atMost(Money other) {
    return amount.compareTo(other.amount) <= 0 ? this : other;
  }

  public boolean isZero() {
    return amount.signum() == 0;
  }

  /** Nothing, in the same currency. */
  public Money nothing() {
    return new Money(BigDecimal.ZERO, currency);
  }

  public String spoken() {
    return amount.toPlainString() + " " + currency.getCurrencyCode();
  }
}
