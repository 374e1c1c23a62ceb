package firmlever.diagnosis.report;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.document.BadInput;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TextReportTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();

  /** A part of the cases, over all their folders, is enough to see every paragraph. */
  private static final int EVERY = 9;

  private static final List<Diagnosis> DIAGNOSES = new ArrayList<>();

  @BeforeAll
  static void diagnoseTheCases() throws IOException, BadInput {
    CaseReader reader = new CaseReader(VOCABULARY);
    Diagnostician diagnostician = new Diagnostician(RuleBase.builtIn(VOCABULARY));
    try (Stream<Path> files = Files.walk(Path.of("cases"))) {
      List<Path> all = files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
      for (int i = 0; i < all.size(); i += EVERY) {
        Path file = all.get(i);
        DIAGNOSES.add(
            diagnostician.diagnose(reader.read(file, file.toString()), Options.WITHOUT_DRAWS));
      }
    }
  }

  private static String text(Diagnosis diagnosis, int width) {
    return new TextReport(VOCABULARY, width, false).of(diagnosis);
  }

  private static String words(String text) {
    return text.replaceAll("\\s+", " ");
  }

  @ParameterizedTest
  @ValueSource(ints = {40, 80, 110})
  void noLineIsLongerThanTheWidth(int width) {
    for (Diagnosis diagnosis : DIAGNOSES) {
      assertThat(text(diagnosis, width).lines())
          .as(diagnosis.caseId())
          .hasSizeGreaterThan(10)
          .allMatch(line -> line.length() <= width || !line.strip().contains(" "));
    }
  }

  @Test
  void widthsBeyondReasonAreBroughtBackToIt() {
    Diagnosis diagnosis = DIAGNOSES.get(0);
    assertThat(text(diagnosis, 0)).isEqualTo(text(diagnosis, 40));
    assertThat(text(diagnosis, 9999)).isEqualTo(text(diagnosis, 110));
  }

  @Test
  void theWidthChangesNoWord() {
    assertThat(DIAGNOSES)
        .allSatisfy(d -> assertThat(words(text(d, 40))).isEqualTo(words(text(d, 110))));
  }

  @Test
  void boldAddsNothingButBold() {
    Diagnosis diagnosis = DIAGNOSES.get(0);
    String bold = new TextReport(VOCABULARY, 80, true).of(diagnosis);
    assertThat(bold).contains("\u001b[1m").isNotEqualTo(text(diagnosis, 80));
    assertThat(bold.replaceAll("\u001b\\[[01]m", "")).isEqualTo(text(diagnosis, 80));
    assertThat(text(diagnosis, 80)).doesNotContain("\u001b");
  }

  @Test
  void firstOfAllItSaysWhetherTheBrakeMayBeRiddenAndWhyNot() {
    assertThat(DIAGNOSES).extracting(Diagnosis::stopRide).contains(true, false);
    assertThat(DIAGNOSES)
        .allSatisfy(
            d -> {
              String text = words(text(d, 80));
              int verdict = text.indexOf(RideWords.heading(d.ride().verdict()));
              assertThat(verdict).isPositive().isLessThan(text.indexOf("What is probably wrong"));
              assertThat(d.hazards()).allMatch(hazard -> text.contains(words(hazard.why())));
            });
  }

  @Test
  void everyCautionOfTheCaseIsPrinted() {
    assertThat(DIAGNOSES)
        .allSatisfy(
            d ->
                assertThat(d.cautions())
                    .isNotEmpty()
                    .allMatch(
                        id ->
                            words(text(d, 80))
                                .contains(words(VOCABULARY.cautions().get(id).text()))));
  }
}
