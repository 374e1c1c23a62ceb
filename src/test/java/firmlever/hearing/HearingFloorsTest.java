package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.BadInput;
import firmlever.hearing.Judged.Score;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The hearing, against what three authors say a fair listener may take,")
class HearingFloorsTest {
  private static final Hearing HEARING = new Hearing();

  private static Score score(String language) throws IOException, BadInput {
    Score all = new Score(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, List.of());
    for (String file : List.of("complaints", "complaints-2", "complaints-3")) {
      for (Judged each : Judged.read(Path.of("cases", "hearing", file + ".jsonl"))) {
        if (each.language().equals(language)) {
          all = all.plus(each.score(HEARING));
        }
      }
    }
    return all;
  }

  @Test
  @DisplayName("keeps its floors in English")
  void english() throws IOException, BadInput {
    Score score = score("en");
    assertThat(score.complaints()).isGreaterThan(100);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(0.90);
    assertThat(score.history()).as(score.toString()).isGreaterThan(0.86);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(1);
  }

  @Test
  @DisplayName("keeps its floors in German")
  void german() throws IOException, BadInput {
    Score score = score("de");
    assertThat(score.complaints()).isGreaterThan(35);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(0.91);
    assertThat(score.history()).as(score.toString()).isGreaterThan(0.90);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(1);
  }

  @Test
  @DisplayName("keeps its floors in French")
  void french() throws IOException, BadInput {
    Score score = score("fr");
    assertThat(score.complaints()).isGreaterThan(30);
    assertThat(score.symptoms()).as(score.toString()).isGreaterThan(0.85);
    assertThat(score.history()).as(score.toString()).isGreaterThan(0.84);
    assertThat(score.trapped()).as(score.toString()).isLessThanOrEqualTo(2);
  }
}
