package firmlever.hydraulics;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class FiguresTest {
  private static final Path MAIN = Path.of("src/main/java/firmlever/hydraulics");

  @ParameterizedTest
  @EnumSource
  @DisplayName("every figure names a source and is reckoned with where it says")
  void used(Figures figure) throws IOException {
    Figure printed = figure.figure();
    assertThat(printed.what()).isNotBlank();
    assertThat(printed.unit()).isNotBlank();
    assertThat(printed.source()).isNotBlank();
    String code = Files.readString(MAIN.resolve(printed.usedIn() + ".java"));
    assertThat(code).containsPattern("Figures\\." + figure.name() + "\\b");
  }

  @Test
  @DisplayName("published figures name a publication, figures from memory say so")
  void standing() {
    assertThat(Figures.all()).extracting(Figure::id).doesNotHaveDuplicates();
    for (Figure figure : Figures.all()) {
      if (figure.standing() == Standing.FROM_MEMORY) {
        assertThat(figure.source()).as(figure.id()).contains("from memory");
      }
      if (figure.standing() == Standing.PUBLISHED) {
        assertThat(figure.source()).as(figure.id()).doesNotContain("memory");
      }
    }
  }

  @Test
  @DisplayName("values print plainly")
  void print() {
    List<Figure> all = Figures.all();
    Figure dot4 =
        all.stream().filter(f -> f.id().equals("dot-4-boiling")).findFirst().orElseThrow();
    assertThat(dot4)
        .isEqualTo(
            new Figure(
                "dot-4-boiling",
                "DOT 4 boiling point, dry and wet minimum",
                "230; 155",
                "°C",
                "49 CFR 571.116 S5.1.1, S5.1.2",
                Standing.PUBLISHED,
                "FluidGrade"));
  }
}
