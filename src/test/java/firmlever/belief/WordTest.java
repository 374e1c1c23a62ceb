package firmlever.belief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A word of frequency")
class WordTest {
  /**
   * Renooij and Witteman, Int. J. Approximate Reasoning 22 (1999): 100, 85, 75, 50, 25, 15, 0 %;
   * the two ends are ours.
   */
  @ParameterizedTest(name = "{0} stands for {1}")
  @CsvSource({
    "certain, 0.98",
    "probable, 0.85",
    "expected, 0.75",
    "fifty-fifty, 0.50",
    "uncertain, 0.25",
    "improbable, 0.15",
    "impossible, 0.005",
  })
  void standsForItsNumber(String spoken, double number) {
    assertThat(Word.nearest(number).probability()).isEqualTo(number);
    assertThat(Word.nearest(number).spoken()).isEqualTo(spoken);
  }

  @ParameterizedTest(name = "{0} is nearest to {1}")
  @CsvSource({
    "0, impossible",
    "0.077, impossible",
    "0.078, improbable",
    "0.199, improbable",
    "0.201, uncertain",
    "0.374, uncertain",
    "0.376, fifty-fifty",
    "0.624, fifty-fifty",
    "0.626, expected",
    "0.799, expected",
    "0.801, probable",
    "0.914, probable",
    "0.916, certain",
    "1, certain",
  })
  void isNearest(double number, String spoken) {
    assertThat(Word.nearest(number).spoken()).isEqualTo(spoken);
  }

  @Test
  @DisplayName("stays itself in a Turkish locale")
  void isSpokenAlikeEverywhere() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("tr-TR"));
      assertThat(Word.IMPROBABLE.spoken()).isEqualTo("improbable");
      assertThat(Word.FIFTY_FIFTY.spoken()).isEqualTo("fifty-fifty");
    } finally {
      Locale.setDefault(before);
    }
  }

  @ParameterizedTest(name = "{1} has natural log odds {0}")
  @CsvSource({"0, 0.5", "-2.197224577, 0.1", "3.891820298, 0.98", "-5.293304825, 0.005"})
  void logOddsGoBothWays(double logOdds, double probability) {
    assertThat(Odds.log(probability)).isCloseTo(logOdds, within(1e-9));
    assertThat(Odds.probability(logOdds)).isCloseTo(probability, within(1e-9));
  }

  @Test
  @DisplayName("and its odds keep their digits where they are next to nothing")
  void smallProbabilitiesKeepTheirDigits() {
    assertThat(Odds.probability(-50) / Math.exp(-50)).isCloseTo(1, within(1e-12));
    assertThat(Odds.log(Odds.probability(-80))).isCloseTo(-80, within(1e-12));
    assertThat(Odds.probability(-800)).isBetween(0.0, 1e-300);
    assertThat(Odds.probability(800)).isEqualTo(1);
  }
}
