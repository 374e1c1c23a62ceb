package firmlever.hearing;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.document.BadInput;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.language.Certainty;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("Practice")
class PracticeTest {
  private static final Hearing FULL = new Hearing();
  private static final Hearing PATTERNS = Hearing.byPatternsAlone();

  private static List<String> ids(Heard heard, Certainty certainty) {
    return heard.findings().stream()
        .filter(each -> each.certainty() == certainty)
        .map(Finding::symptom)
        .toList();
  }

  @Test
  @DisplayName("hears what no pattern foresees")
  void hearsMore() throws IOException, BadInput {
    int more = 0;
    for (Judged each : Judged.read(Path.of("cases", "hearing", "complaints-8.jsonl"))) {
      List<String> there = ids(each.hear(FULL), Certainty.PRESENT);
      List<String> before = ids(each.hear(PATTERNS), Certainty.PRESENT);
      more +=
          each.fields().texts("present").stream()
                  .anyMatch(id -> there.contains(id) && !before.contains(id))
              ? 1
              : 0;
    }
    assertThat(more).as("complaints in which more is heard, and rightly").isGreaterThan(20);
  }

  @Test
  @DisplayName("denies nothing by itself, and doubts no leak")
  void clearsNoBrake() throws IOException, BadInput {
    for (Judged each : Judged.read(Path.of("cases", "hearing", "complaints-8.jsonl"))) {
      Heard full = each.hear(FULL);
      Heard patterns = each.hear(PATTERNS);
      assertThat(ids(patterns, Certainty.ABSENT))
          .as(each.id())
          .containsAll(ids(full, Certainty.ABSENT));
      if (ids(patterns, Certainty.PRESENT).contains("fluid-lost")) {
        assertThat(ids(full, Certainty.PRESENT)).as(each.id()).contains("fluid-lost");
      }
    }
  }

  @Test
  @DisplayName("takes no question for an answer")
  void takesNoQuestion() {
    Heard heard =
        FULL.hear(
            "We never bled it. Could it be leaking? It just shrieks at every junction.",
            "rear",
            LocalDate.of(2026, 5, 12));
    assertThat(ids(heard, Certainty.ABSENT)).isEmpty();
    assertThat(ids(heard, Certainty.PRESENT)).containsExactly("squeal");
    assertThat(heard.history()).isEmpty();
  }
}
