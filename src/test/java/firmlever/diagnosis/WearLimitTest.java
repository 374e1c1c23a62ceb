package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.WearLimit;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("A limit of wear")
class WearLimitTest {
  @ParameterizedTest(name = "{0} {1} mm, maker''s limit {2}")
  @CsvSource({
    "pad, 0.99, ''",
    "pad, 1.01, ''",
    "pad, 1.39, 1.4",
    "pad, 1.41, 1.4",
    "rotor, 1.49, ''",
    "rotor, 1.51, ''",
    "rotor, 1.79, 1.8",
    "rotor, 1.81, 1.8"
  })
  @DisplayName("is the one by which the rules call a part thin")
  void isTheLimitOfTheRules(String part, double mm, String makers) {
    boolean pads = part.equals("pad");
    String figures =
        makers.isEmpty() ? "" : ",'maker-figures':{'" + part + "-limit':'" + makers + " mm'}";
    String reading =
        pads ? "'pad-thickness':['" + mm + " mm']" : "'rotor-thickness':'" + mm + " mm'";
    CaseFile file =
        Bench.of(
            "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'"
                + figures
                + "},'readings':{"
                + reading
                + "}");
    WearLimit limit = pads ? WearLimit.ofPads(file.brake()) : WearLimit.ofRotor(file.brake());
    boolean thin =
        Bench.RULES.consult(file).findings().get(pads ? "thin-pads" : "thin-rotor-seen").present();
    assertThat(thin).isEqualTo(mm < limit.mm());
    assertThat(limit.makers()).isEqualTo(!makers.isEmpty());
  }
}
