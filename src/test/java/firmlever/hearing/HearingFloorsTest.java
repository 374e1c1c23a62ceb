package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.BadInput;
import firmlever.hearing.Judged.Score;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The hearing, against what its authors say a fair listener may take,")
class HearingFloorsTest {
  private static final Hearing HEARING = new Hearing();

  private static Score score(String language, List<String> files) throws IOException, BadInput {
    Score all = new Score(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, List.of());
    for (String file : files) {
      for (Judged each : Judged.read(Path.of("cases", "hearing", file + ".jsonl"))) {
        if (each.language().equals(language)) {
          all = all.plus(each.score(HEARING));
        }
      }
    }
    return all;
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({"en, 250, 0.91, 0.90, 6", "de, 100, 0.89, 0.89, 5", "fr, 100, 0.88, 0.87, 5"})
  @DisplayName("keeps its floors where its words come from")
  void known(String language, int complaints, double symptoms, double history, int trapped)
      throws IOException, BadInput {
    Score score =
        score(
            language,
            List.of("complaints", "complaints-2", "complaints-3", "complaints-4", "complaints-5"));
    assertThat(score.complaints()).isGreaterThan(complaints);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(symptoms);
    assertThat(score.history()).as(score.toString()).isGreaterThan(history);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(trapped);
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource({
    "complaints-6, en, 130, 0.85, 0.78, 3",
    "complaints-6, de, 35, 0.84, 0.79, 3",
    "complaints-6, fr, 35, 0.84, 0.71, 3",
    "complaints-7, en, 90, 0.76, 0.68, 7",
    "complaints-7, de, 45, 0.79, 0.64, 2",
    "complaints-7, fr, 45, 0.78, 0.73, 4",
    "complaints-8, en, 110, 0.74, 0.74, 4",
    "complaints-8, de, 55, 0.70, 0.75, 6",
    "complaints-8, fr, 55, 0.79, 0.70, 3"
  })
  @DisplayName("keeps its floors with authors whose words nobody read")
  void unknown(
      String file, String language, int complaints, double symptoms, double history, int trapped)
      throws IOException, BadInput {
    Score score = score(language, List.of(file));
    assertThat(score.complaints()).isGreaterThan(complaints);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(symptoms);
    assertThat(score.history()).as(score.toString()).isGreaterThan(history);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(trapped);
  }
}
