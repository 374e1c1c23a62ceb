package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Crowd;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The commands on cases in which very much hangs together")
class WorkLimitsCommandTest {
  private static final String POLICY = "rules/policies/lakeside-depot.json";

  private static final String LEAVE_OUT =
      "Maybe leave out, or note as not-checked, those of them that weigh least: ";

  @TempDir Path folder;

  /** The findings that a refusal names. */
  private static List<String> named(Run run) {
    String said = run.err().substring(run.err().indexOf(LEAVE_OUT) + LEAVE_OUT.length());
    return List.of(said.substring(0, said.indexOf('.')).split(", "));
  }

  private String crowded(int symptoms) throws IOException {
    return Files.writeString(
            folder.resolve("crowded-" + symptoms + ".json"),
            Bench.text(
                "'brake':{'id':'B-0417-rear','fluid':'mineral-oil','fitted':'2025-03-14'},"
                    + "'claim':{'made':'2026-05-13','part':'caliper-seals',"
                    + "'purchased':'2025-03-14'},'symptoms':{"
                    + Crowd.of(Bench.RULES, symptoms).stream()
                        .map(symptom -> "'" + symptom + "':'present'")
                        .collect(Collectors.joining(","))
                    + "}"))
        .toString();
  }

  private static String words(String text) {
    return text.replaceAll("\\s+", " ");
  }

  @Test
  @DisplayName("all refuse in the same words, and name what to leave out")
  void allRefuseAlike() throws IOException {
    String file = crowded(24);
    List<Run> runs =
        List.of(
            Run.of("triage", file),
            Run.of("whynot", file, "worn-pads"),
            Run.of("accept", file),
            Run.of("jobcard", file),
            Run.of("ask", file),
            Run.of("check", file),
            Run.of("justify", file, "--policy", POLICY));
    for (Run run : runs) {
      assertThat(run.code()).isEqualTo(2);
      assertThat(run.err())
          .contains(file + ": 24 findings hang together, too many to be weighed exactly")
          .contains(LEAVE_OUT);
      assertThat(named(run)).isNotEmpty().isSubsetOf(Crowd.of(Bench.RULES, 24));
    }
  }

  @Test
  @DisplayName("justify decides with fewer draws, stops its search, and says both")
  void justifyStopsEarly() throws IOException {
    String file = crowded(14);
    Run text = Run.of("justify", file, "--policy", POLICY);
    assertThat(text.code()).isZero();
    assertThat(words(text.out()))
        .contains("redrawn models instead of 100: so many findings hang together")
        .contains("The search for what would turn the decision stopped before all was tried");
    Run json = Run.of("justify", file, "--policy", POLICY, "--json");
    assertThat(words(json.out())).contains("\"stopped-early\" : [ \"Firmness was tried with");
    assertThat(Run.of("justify", file, "--policy", POLICY, "--json").out()).isEqualTo(json.out());
  }
}
