package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A day as people write it")
class SpokenDayTest {
  /** A Thursday. */
  private static final LocalDate TODAY = LocalDate.of(2026, 5, 14);

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "12.5.2026 | 2026-05-12",
        "12. 5. 26 | 2026-05-12",
        "12 May 2026 | 2026-05-12",
        "12th of May, 2026 | 2026-05-12",
        "May 12, 2026 | 2026-05-12",
        "12. Mai 2026 | 2026-05-12",
        "3. März | 2026-03-03",
        "3 févr. 2024 | 2024-02-03",
        "1er mai | 2026-05-01",
        "31/12/2025 | 2025-12-31",
        "12/31/2025 | 2025-12-31",
        "20 May | 2025-05-20",
        "20.5. | 2025-05-20",
        "29 February | 2024-02-29",
        "2026-5-2 | 2026-05-02",
        "Yesterday | 2026-05-13",
        "the day before yesterday | 2026-05-12",
        "gestern | 2026-05-13",
        "avant-hier | 2026-05-12",
        "2 weeks ago | 2026-04-30",
        "vor 3 Tagen | 2026-05-11",
        "il y a 2 mois | 2026-03-14"
      })
  void isRead(String said, LocalDate day) {
    assertThat(SpokenDay.of(said, TODAY)).contains(day);
  }

  @ParameterizedTest
  @CsvSource({
    "3/5/2026",
    "31.2.2026",
    "12 Junuary",
    "5.1",
    "DOT 5.1",
    "soon",
    "''",
    "3 weeks",
    "jui 3"
  })
  @DisplayName("is not guessed at where it can be two, or none")
  void isNotRead(String said) {
    assertThat(SpokenDay.of(said, TODAY)).isEmpty();
  }

  @Test
  @DisplayName("is read back as the formats of three languages write it")
  void agreesWithTheFormats() {
    Random random = new Random(7);
    for (int i = 0; i < 500; i++) {
      LocalDate day = LocalDate.of(1990, 1, 1).plusDays(random.nextInt(25_000));
      for (Locale language : new Locale[] {Locale.ENGLISH, Locale.GERMAN, Locale.FRENCH}) {
        for (String pattern :
            new String[] {"d MMMM yyyy", "d.M.yyyy", "d. MMMM yyyy", "dd.MM.yyyy"}) {
          String said = DateTimeFormatter.ofPattern(pattern, language).format(day);
          assertThat(SpokenDay.of(said, TODAY)).as(said).contains(day);
          assertThat(SpokenDay.alone(said)).as(said).contains(day);
          SpokenDay.Found found = SpokenDay.in("bled " + said + " at home", TODAY).orElseThrow();
          assertThat(found.days()).containsExactly(day);
          assertThat(("bled " + said + " at home").substring(found.start(), found.end()))
              .isEqualTo(said);
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "12.5.2026 | Maybe \"2026-05-12\" was meant.",
        "12 May 2026 | Maybe \"2026-05-12\" was meant.",
        "3/5/2026 | Maybe \"2026-05-03\" or \"2026-03-05\" was meant.",
        "12 May | Maybe write it with its year, the month before the day: \"2026-05-12\" is 12 May.",
        "yesterday | Maybe write the day itself: a file cannot tell from which day this counts.",
        "12.5.1826 | ''",
        "2026-02-30 | ''"
      })
  @DisplayName("is guessed at in a file")
  void isGuessed(String written, String maybe) {
    assertThat(SpokenDay.maybe(written)).isEqualTo(maybe);
  }
}
