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
    "complaints-6, en, 130, 0.86, 0.80, 3",
    "complaints-6, de, 35, 0.87, 0.80, 1",
    "complaints-6, fr, 35, 0.89, 0.75, 1",
    "complaints-7, en, 90, 0.81, 0.73, 5",
    "complaints-7, de, 45, 0.88, 0.86, 2",
    "complaints-7, fr, 45, 0.86, 0.83, 2",
    "complaints-8, en, 110, 0.80, 0.83, 2",
    "complaints-8, de, 55, 0.81, 0.90, 2",
    "complaints-8, fr, 55, 0.89, 0.86, 1",
    "complaints-9, en, 45, 0.72, 0.79, 7",
    "complaints-9, de, 20, 0.83, 0.95, 1",
    "complaints-9, fr, 20, 0.80, 0.86, 1",
    "complaints-10, en, 90, 0.74, 0.74, 8",
    "complaints-10, de, 45, 0.75, 0.79, 4",
    "complaints-10, fr, 45, 0.69, 0.83, 5"
  })
  @DisplayName("keeps its floors with authors who came later")
  void later(
      String file, String language, int complaints, double symptoms, double history, int trapped)
      throws IOException, BadInput {
    Score score = score(language, List.of(file));
    assertThat(score.complaints()).isGreaterThan(complaints);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(symptoms);
    assertThat(score.history()).as(score.toString()).isGreaterThan(history);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(trapped);
  }
}
