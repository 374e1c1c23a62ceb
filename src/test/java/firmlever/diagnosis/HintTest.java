package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.report.TextReport;
import firmlever.hearing.Heeding.Heeded;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("What a complaint leaves open")
class HintTest {
  private static final String SOFT =
      "'brake':{'id':'B-0417-rear','position':'rear','fluid':'mineral-oil'},"
          + "'complaint':'the lever feels soft'";

  @Test
  @DisplayName("is a hint: no finding, and it stops no ride by itself")
  void isNoFinding() {
    Heeded heeded = Bench.HEEDING.heed(Bench.of(SOFT));
    assertThat(heeded.file().hinted()).containsExactly("spongy-lever");
    assertThat(heeded.file().symptoms()).isEmpty();
    Diagnosis d = diagnosed(heeded);
    assertThat(d.findings()).isEmpty();
    assertThat(d.ride().because()).noneMatch(because -> because.id().equals("spongy-lever"));
  }

  @Test
  @DisplayName("speaks for what shows it, less than the finding does, and says that it is open")
  void weighsLess() {
    CaseFile plain = Bench.of(SOFT);
    Heeded hinted = Bench.HEEDING.heed(plain);
    Heeded found = Bench.HEEDING.heed(plain.with("spongy-lever", Presence.PRESENT));
    double none = air(Bench.DIAGNOSTICIAN.diagnose(plain, Options.BARE));
    assertThat(air(diagnosed(hinted))).isGreaterThan(1.1 * none);
    assertThat(air(diagnosed(found))).isGreaterThan(1.1 * air(diagnosed(hinted)));
    assertThat(weights(diagnosed(hinted))).isNotEmpty().allMatch(Weight::hinted);
    assertThat(weights(diagnosed(found))).isNotEmpty().noneMatch(Weight::hinted);
    assertThat(new TextReport(Bench.VOCABULARY, 80, false).of(diagnosed(hinted)))
        .contains("perhaps spongy lever +", "spongy lever perhaps (weighs little)");
  }

  @Test
  @DisplayName("says nothing once somebody has looked")
  void yieldsToALook() {
    CaseFile looked = Bench.of(SOFT).with("spongy-lever", Presence.ABSENT);
    assertThat(air(diagnosed(Bench.HEEDING.heed(looked))))
        .isEqualTo(air(Bench.DIAGNOSTICIAN.diagnose(looked, Options.BARE)));
  }

  private static Diagnosis diagnosed(Heeded heeded) {
    return Bench.DIAGNOSTICIAN.diagnose(heeded, Options.BARE);
  }

  private static double air(Diagnosis d) {
    return d.causes().stream()
        .filter(cause -> cause.id().equals("air-left-in-line"))
        .mapToDouble(Diagnosis.CauseBelief::probability)
        .sum();
  }

  private static List<Weight> weights(Diagnosis d) {
    return d.causes().stream()
        .flatMap(cause -> cause.symptoms().stream())
        .filter(w -> w.symptom().equals("spongy-lever"))
        .toList();
  }
}
