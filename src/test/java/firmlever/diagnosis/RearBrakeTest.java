package firmlever.diagnosis;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.RideVerdict.Answer;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A brake that only brakes weakly")
class RearBrakeTest {
  private static Answer ride(String position, String complaint, String alsoFound) {
    CaseFile oily =
        Bench.of(
            "'complaint':'%s','symptoms':{'weak-braking':'present','squeal':'present',"
                    .formatted(complaint)
                + "'firm-at-end':'present'%s},'brake':{'id':'B-0720-x','position':'%s',"
                    .formatted(alsoFound, position)
                + "'fluid':'mineral-oil'},'history':[{'days-ago':3,'event':'oil-sprayed'}]");
    return Bench.DIAGNOSTICIAN.diagnose(Bench.HEEDING.heed(oily), Options.USUAL).ride().verdict();
  }

  @Test
  @DisplayName(
      "is not ridden at the front or where nobody told which it is, and not cleared behind")
  void mattersLessAtTheRear() {
    assertThat(ride("front", "It howls.", "")).isEqualTo(Answer.STOP);
    assertThat(ride("unknown", "It howls.", "")).isEqualTo(Answer.STOP);
    assertThat(ride("rear", "It howls.", "")).isEqualTo(Answer.NOT_CLEARED);
  }

  @Test
  @DisplayName("is not ridden where the other brake does not carry the stop either")
  void isNotRiddenAlone() {
    assertThat(ride("rear", "It howls. The front brake is spongy.", "")).isEqualTo(Answer.STOP);
    assertThat(ride("rear", "It howls. The front does not leak.", ""))
        .isEqualTo(Answer.NOT_CLEARED);
    assertThat(ride("rear", "It howls.", ",'both-brakes':'present'")).isEqualTo(Answer.STOP);
  }
}
