package firmlever.warranty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.diagnosis.Difference;
import firmlever.diagnosis.Difference.Grade;
import firmlever.diagnosis.Difference.Moved;
import firmlever.document.BadInput;
import firmlever.warranty.History.Signature;
import firmlever.warranty.policy.Deadlines;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The history of a claim")
class HistoryTest {
  private static final String CLAIM = Claims.text(Claims.file("hose-end-by-nobody-knows-whom"));
  private static final Dossier OPEN = Claims.judged(Claims.submitted(CLAIM, "open"));
  private static final LocalDate DAY = LocalDate.of(2026, 5, 20);

  /** An entry as the first format wrote it. */
  private static final Path OLD =
      Path.of("src/test/resources/firmlever/warranty/decision-1.ndjson");

  /** Nothing of the insides of the program. */
  private static final Consumer<String> PLAIN =
      text ->
          assertThat(text)
              .doesNotContain("NaN", "OptionalInt", "Entry[", "Readings[", "PRESENT", "symptoms/");

  private static History read(String text) throws BadInput {
    return History.read(text, "history", Claims.VOCABULARY);
  }

  private static Dossier edited(String name, String... pairs) {
    String text = Claims.text(Claims.file(name));
    for (int i = 0; i < pairs.length; i += 2) {
      assertThat(text).contains(pairs[i]);
      text = text.replace(pairs[i], pairs[i + 1]);
    }
    return Claims.judged(Claims.submitted(text, "edited"));
  }

  private static String signed(String before, Dossier d, Signature signature) throws BadInput {
    return read(before).with(d, signature);
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
            "\"recommended\" : \"weeping hose fitting at the lever: left open: more is asked for, clause 6.2\"")
        .contains("\"decided\" : \"the depot pays\"")
        .contains("\"reason\" : \"the sheet was lost here\"")
        .endsWith("}\n")
        .hasLineCount(1);
  }

  @ParameterizedTest(name = "refuses {0} on {1}: {4}")
  @CsvSource({
    "X9, 2026-05-20, '', '', is no signer of policy",
    "D1, 2026-05-20, refuse, tired, 'D1 may sign, not override; F1 (foreman) may'",
    "F1, 2026-05-20, cover, kind, does not say who pays",
    "F1, 2026-05-20, Goodwill 30 %, kind, does not say who pays",
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
    assertThat(read(three).size()).isEqualTo(3);
    String[] lines = three.split("\n");
    for (String touched :
        new String[] {
          three.replaceFirst("2026-05-20", "2026-05-19"),
          lines[0] + "\n" + lines[2] + "\n",
          lines[1] + "\n" + lines[0] + "\n" + lines[2] + "\n"
        }) {
      assertThatThrownBy(() -> read(touched))
          .isInstanceOf(BadInput.class)
          .hasMessageContaining("does not follow the entry before");
    }
    assertThatThrownBy(() -> signed(two, OPEN, follow(DAY)))
        .hasMessageContaining("before the last decision");
  }

  @Test
  @DisplayName("shows on appeal what has changed since the last decision, and nothing else")
  void showsWhatHasChanged() throws BadInput {
    History history = read(signed("", OPEN, follow(DAY)));
    assertThat(history.changes(OPEN)).isEmpty();
    Dossier appeal =
        Claims.judged(
            Claims.submitted(
                CLAIM.replace(
                    "\"work\": \"shorten-hose\"", "\"by\": \"T3\", \"work\": \"shorten-hose\""),
                "appeal"));
    assertThat(history.changes(appeal))
        .anySatisfy(
            each ->
                assertThat(each)
                    .startsWith("hose shortened, 2026-03-28: then nobody signed")
                    .contains("; now by T3"))
        .anySatisfy(
            each ->
                assertThat(each)
                    .startsWith("recommended then: ")
                    .contains("left open: more is asked for, clause 6.2; now: ")
                    .contains("covered, paid by the shop, clause 6.2"))
        .anySatisfy(each -> assertThat(each).contains("by D1 (desk) on 2026-05-20"))
        .hasSize(3);
  }

  /** A change of the case, and the sentence that tells it. */
  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"weak-braking\": \"present\" | \"weak-braking\": \"absent\" | weak braking: was there, now not there",
        "\"weak-braking\": \"present\" | \"weak-braking\": \"not-checked\" | weak braking: was there, now not looked for",
        "\"history\": [ | \"history\": [{\"days-ago\": 11, \"event\": \"crashed\"}, | new in the record: crashed, 2026-05-01",
        "\"outcome\": | \"readings\": {\"throw-firm\": \"15 mm\"}, \"outcome\": | new reading: lever throw, firm 15 mm",
        "\"arose\": \"2026-05-09\" | \"arose\": \"2026-05-08\" | fault first showed on: was 2026-05-09, now 2026-05-08",
      })
  @DisplayName("tells what has changed in plain words, by entries of both formats")
  void tellsChangesInPlainWords(String before, String after, String said) throws Exception {
    Dossier changed = edited("weep-within-period", before, after);
    Dossier same = edited("weep-within-period");
    String old = Files.readString(OLD);
    String now = signed("", same, new Signature("F1", DAY, "refuse", "photo shows a crash"));
    for (String history : List.of(old, now)) {
      assertThat(read(history).changes(same))
          .filteredOn(each -> !each.startsWith("decided then") && !each.startsWith("the rule base"))
          .isEmpty();
      assertThat(read(history).changes(changed))
          .anySatisfy(
              each ->
                  assertThat(each)
                      .matches(
                          told ->
                              told.equals(said)
                                  || history.equals(old)
                                      && told.equals(
                                          "the readings were changed; now lever throw, firm 15 mm")))
          .allSatisfy(PLAIN);
      assertThat(read(history).signed(changed).orElseThrow().changes()).allSatisfy(PLAIN);
    }
    assertThat(now).satisfies(PLAIN);
    assertThat(signed(old, same, follow(DAY.plusDays(2))))
        .startsWith(old)
        .hasLineCount(2)
        .satisfies(text -> assertThat(read(text).size()).isEqualTo(2));
  }

  @Test
  @DisplayName("shows on appeal what new findings change of the diagnosis, and none of them twice")
  void showsWhatNewFindingsChangeOfTheDiagnosis() throws BadInput {
    History history = read(signed("", OPEN, follow(DAY)));
    assertThat(history.difference(OPEN).orElseThrow().grade()).isEqualTo(Grade.NONE);
    String more = CLAIM.replace("\"hose-end-out\": \"absent\"", "\"hose-end-out\": \"present\"");
    Dossier appeal = Claims.judged(Claims.submitted(more, "appeal"));
    Difference d = history.difference(appeal).orElseThrow();
    // As the two diagnoses themselves differ, but for what is to be done.
    Difference whole = Difference.of(OPEN.diagnosis(), appeal.diagnosis());
    assertThat(d.first().now().id()).isEqualTo("parted-hose");
    assertThat(d.first().before().id()).isEqualTo(whole.first().before().id());
    assertThat(d.ride()).isEqualTo(whole.ride());
    assertThat(d.because()).isEqualTo(whole.because());
    assertThat(d.causes()).extracting(Moved::id).isEqualTo(ids(whole));
    assertThat(d.nextDiffers()).isFalse();
    assertThat(d.cautions().none()).isTrue();
    assertThat(history.changes(appeal)).anyMatch(each -> each.startsWith("hose end out: "));
    assertThat(d.findings()).noneMatch(each -> each.symptom().equals("hose-end-out"));
  }

  private static List<String> ids(Difference d) {
    return d.causes().stream().map(Moved::id).toList();
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
