package firmlever.diagnosis.report;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.diagnosis.Diagnosis.StepKind;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.report.FirstScreen.Line;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The first screen")
class FirstScreenTest {
  private static final int EVERY = 4;

  /** Set-ups in which fluid comes to light. */
  private static final Set<String> WET = Set.of("lever-open", "caliper-open", "bleed-kit");

  private static final List<Diagnosis> DIAGNOSES = new ArrayList<>();

  @BeforeAll
  static void diagnoseTheCases() throws IOException, firmlever.document.BadInput {
    try (Stream<Path> files = Files.walk(Path.of("cases", "regression"))) {
      List<Path> all = files.filter(f -> f.toString().endsWith(".json")).sorted().toList();
      for (int i = 0; i < all.size(); i += EVERY) {
        DIAGNOSES.add(
            Bench.DIAGNOSTICIAN.diagnose(
                Bench.READER.read(all.get(i), all.get(i).toString()), Options.WITHOUT_DRAWS));
      }
    }
  }

  private static String line(Diagnosis d, String lead) {
    List<Line> lines = new FirstScreen(Bench.VOCABULARY, 80, false).lines(d);
    return lines.stream()
        .filter(each -> each.lead().equals(lead))
        .map(Line::words)
        .findFirst()
        .orElse("");
  }

  private static long likely(Diagnosis d) {
    return d.causes().stream().map(CauseBelief::probability).filter(p -> p > 0.5).count();
  }

  @Test
  @DisplayName("says whose word a finding is, and has what was only told looked at before a work")
  void saysWhoseWordItIs() {
    String worn = "'complaint':'The pads are worn down to the metal and it grinds.',";
    String coded = "'symptoms':{%s'reservoir-low':'present','weak-braking':'present'},";
    String brake = "'brake':{'id':'B-0722-front','position':'front','fluid':'mineral-oil'}";
    Diagnosis told = heard(worn + coded.formatted("") + brake);
    assertThat(line(told, "Wrong")).contains("by what the rider says").doesNotContain("you found");
    assertThat(line(told, "Now")).startsWith("see it yourself first: ");
    Diagnosis seen =
        heard(worn + coded.formatted("'grinding':'present','thin-pads':'present',") + brake);
    assertThat(line(seen, "Wrong")).contains("you found it");
    assertThat(line(seen, "Now")).doesNotContain("see it yourself");
    Diagnosis recorded =
        heard(
            "'symptoms':{'slow-return':'present'},"
                + brake
                + ",'history':[{'days-ago':9,'work':'top-up','fluid':'dot-4'}]");
    assertThat(line(recorded, "Wrong"))
        .contains("by the readings or the record")
        .doesNotContain("you found");
  }

  private static Diagnosis heard(String members) {
    return Bench.DIAGNOSTICIAN.diagnose(
        Bench.HEEDING.heed(Bench.of(members)), Options.WITHOUT_DRAWS);
  }

  @Test
  @DisplayName(
      "promises a second work only where two faults are likely, and else what to do if not")
  void promisesNoNeedlessWork() {
    int two = 0;
    int one = 0;
    for (Diagnosis d : DIAGNOSES) {
      Step step = d.firstStep().orElse(null);
      if (step == null || step.kind() == StepKind.CHECK || step.id().equals(Diagnosis.HAND_BACK)) {
        continue;
      }
      String follows = line(d, "");
      if (follows.startsWith("then: ")) {
        assertThat(likely(d)).as(d.caseId()).isGreaterThan(1);
        assertThat(line(d, "Now")).as(d.caseId()).doesNotContain("all is right then");
        two++;
      } else if (!follows.isEmpty()) {
        assertThat(follows).as(d.caseId()).startsWith("if not: ");
        assertThat(line(d, "Now")).as(d.caseId()).contains("all is right then");
        one++;
      }
    }
    assertThat(two).isPositive();
    assertThat(one).isPositive();
  }

  @Test
  @DisplayName("says of a second fault \"maybe\" only where it is none more likely than not")
  void saysNoMaybeOfTheLikely() {
    int both = 0;
    for (Diagnosis d : DIAGNOSES) {
      String wrong = line(d, "Wrong");
      boolean likely = d.noFaultFound() < 0.5 && likely(d) > 1;
      assertThat(wrong.contains("; and ")).as(d.caseId() + ": " + wrong).isEqualTo(likely);
      both += likely ? 1 : 0;
    }
    assertThat(both).isPositive();
  }

  @Test
  @DisplayName(
      "minds glasses and gloves where a look brings fluid to light, and no fluid where none does")
  void mindsTheLook() {
    int wet = 0;
    int dry = 0;
    for (Diagnosis d : DIAGNOSES) {
      Step step = d.firstStep().orElse(null);
      if (step == null || step.kind() != StepKind.CHECK) {
        continue;
      }
      Symptom symptom = Bench.VOCABULARY.symptoms().get(step.id());
      boolean fluid = symptom.needs().stream().anyMatch(WET::contains);
      boolean traced = symptom.look().equals("leak-tracing");
      String mind = line(d, "Mind");
      assertThat(mind).as(d.caseId()).contains("the maker's instructions first");
      assertThat(mind.contains("glasses and gloves")).as(d.caseId()).isEqualTo(fluid || traced);
      assertThat(mind.contains("DOT and oil never meet")).as(d.caseId()).isEqualTo(fluid);
      wet += fluid || traced ? 1 : 0;
      dry += fluid || traced ? 0 : 1;
    }
    assertThat(wet).isPositive();
    assertThat(dry).isPositive();
  }
}
