package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("An amount of money")
class MoneyTest {
  @ParameterizedTest(name = "{0} is refused: {1}")
  @CsvSource({
    "38.50, has no currency",
    "-1.00 EUR, is less than nothing",
    "1.005 EUR, is finer than the smallest coin",
    "1.5 JPY, is finer than the smallest coin",
    "1.00 ABC, names no currency of ISO 4217",
    "'1,00 EUR', must be an amount with its currency",
    "EUR 1.00, must be an amount with its currency"
  })
  void isRefused(String text, String why) {
    assertThatThrownBy(() -> Money.read(text)).hasMessageContaining(why);
  }

  @Test
  @DisplayName("is shared to the coin of its currency (ISO 4217), a half going up")
  void isSharedToTheCoin() {
    assertThat(Money.read("18.35 EUR").percent(50).spoken()).isEqualTo("9.18 EUR");
    assertThat(Money.read("1001 JPY").percent(50).spoken()).isEqualTo("501 JPY");
    assertThat(Money.read("0.001 KWD").percent(100).spoken()).isEqualTo("0.001 KWD");
    assertThat(Money.read("7 EUR").plus(Money.read("0.5 EUR")).spoken()).isEqualTo("7.50 EUR");
  }
}
