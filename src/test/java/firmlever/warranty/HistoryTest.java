package firmlever.warranty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.document.BadInput;
import firmlever.warranty.History.Signature;
import firmlever.warranty.policy.Deadlines;
import java.time.LocalDate;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The history of a claim")
class HistoryTest {
  private static final String CLAIM = Claims.text(Claims.file("hose-end-by-nobody-knows-whom"));
  private static final Dossier OPEN = Claims.judged(Claims.submitted(CLAIM, "open"));
  private static final LocalDate DAY = LocalDate.of(2026, 5, 20);

  private static String signed(String before, Dossier d, Signature signature) throws BadInput {
    return History.read(before, "history").with(d, signature);
  }

  private static Signature follow(LocalDate on) {
    return new Signature("D1", on, "", "");
  }

  @Test
  @DisplayName("keeps an override beside the recommendation, never in its place")
  void keepsAnOverrideBesideTheRecommendation() throws BadInput {
    String history =
        signed("", OPEN, new Signature("F1", DAY, "the depot pays", "the sheet was lost here"));
    assertThat(history)
        .contains(
            "\"recommended\" : \"lever-fitting-weep left open: more is asked for, clause 6.2\"")
        .contains("\"decided\" : \"the depot pays\"")
        .contains("\"reason\" : \"the sheet was lost here\"")
        .endsWith("}\n")
        .hasLineCount(1);
  }

  @ParameterizedTest(name = "refuses {0} on {1}: {4}")
  @CsvSource({
    "X9, 2026-05-20, '', '', is no signer of policy",
    "D1, 2026-05-20, refuse, tired, may not override",
    "F1, 2026-05-20, refuse, '', an override needs a reason",
    "D1, 2026-05-20, '', because, a reason is given only with an override",
    "D1, 2026-05-01, '', '', before the claim was made"
  })
  void refusesWrongSignatures(String by, LocalDate on, String decided, String reason, String why) {
    assertThatThrownBy(() -> signed("", OPEN, new Signature(by, on, decided, reason)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(why);
  }

  @Test
  @DisplayName("only grows, and tells when a line was changed, left out or moved")
  void tellsWhenItWasTouched() throws BadInput {
    String one = signed("", OPEN, follow(DAY));
    String two = signed(one, OPEN, follow(DAY.plusDays(1)));
    String three = signed(two, OPEN, follow(DAY.plusDays(2)));
    assertThat(three).startsWith(two).hasLineCount(3);
    assertThat(two).startsWith(one);
    assertThat(History.read(three, "history").size()).isEqualTo(3);
    String[] lines = three.split("\n");
    for (String touched :
        new String[] {
          three.replaceFirst("2026-05-20", "2026-05-19"),
          lines[0] + "\n" + lines[2] + "\n",
          lines[1] + "\n" + lines[0] + "\n" + lines[2] + "\n"
        }) {
      assertThatThrownBy(() -> History.read(touched, "history"))
          .isInstanceOf(BadInput.class)
          .hasMessageContaining("does not follow the entry before");
    }
    assertThatThrownBy(() -> signed(two, OPEN, follow(DAY)))
        .hasMessageContaining("before the last decision");
  }

  @Test
  @DisplayName("shows on appeal what has changed since the last decision, and nothing else")
  void showsWhatHasChanged() throws BadInput {
    History history = History.read(signed("", OPEN, follow(DAY)), "history");
    assertThat(history.changes(OPEN)).isEmpty();
    Dossier appeal =
        Claims.judged(
            Claims.submitted(
                CLAIM.replace(
                    "\"work\": \"shorten-hose\"", "\"by\": \"T3\", \"work\": \"shorten-hose\""),
                "appeal"));
    assertThat(history.changes(appeal))
        .hasSize(3)
        .anySatisfy(each -> assertThat(each).startsWith("history/0: ").contains("by=T3"))
        .anySatisfy(
            each ->
                assertThat(each)
                    .contains("left open: more is asked for, clause 6.2 → ")
                    .contains("covered, paid by the shop, clause 6.2"));
  }

  @Test
  @DisplayName("counts deadlines in working days of the given calendar")
  void countsWorkingDays() {
    Deadlines deadlines = Claims.POLICY.deadlines().orElseThrow();
    // By the calendar of 2026: 14 May is a free Thursday, 25 May a free Monday.
    assertThat(deadlines.after(LocalDate.of(2026, 5, 13), 1)).isEqualTo("2026-05-15");
    assertThat(deadlines.after(LocalDate.of(2026, 5, 15), 1)).isEqualTo("2026-05-18");
    assertThat(deadlines.after(LocalDate.of(2026, 5, 13), 10)).isEqualTo("2026-05-29");
    assertThatThrownBy(() -> deadlines.after(LocalDate.of(2027, 12, 30), 9))
        .hasMessageContaining("beyond the calendar");
  }
}
