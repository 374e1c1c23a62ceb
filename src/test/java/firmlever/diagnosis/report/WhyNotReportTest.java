package firmlever.diagnosis.report;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A weight in words")
class WhyNotReportTest {
  @Test
  @DisplayName("has its sign, and what rounds to nothing has none")
  void hasItsSign() {
    assertThat(WhyNotReport.signed(-0.04)).isEqualTo("0.0");
    assertThat(WhyNotReport.signed(0.0)).isEqualTo("0.0");
    assertThat(WhyNotReport.signed(-0.06)).isEqualTo("-0.1");
    assertThat(WhyNotReport.signed(11.51)).isEqualTo("+11.5");
    assertThat(WhyNotReport.signed(-10.0)).isEqualTo("-10.0");
  }
}
