package firmlever.interview;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Bench;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.interview.Interview.Line;
import firmlever.interview.Interview.Phase;
import firmlever.interview.Interview.State;
import firmlever.interview.Interview.Turn;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The interview")
class InterviewTest {
  private static final Interview INTERVIEW = Asking.fresh();
  private static final String SPONGY =
      Bench.text(
          "'brake':{'id':'B-0417-rear','position':'rear','fluid':'mineral-oil'},"
              + "'symptoms':{'spongy-lever':'present'}");

  private static String said(Turn turn) {
    return turn.said().stream().map(Line::words).collect(Collectors.joining("\n"));
  }

  private static Presence presence(State state, String symptom) throws BadInput {
    return Bench.READER
        .read(DocumentReader.readText(state.text(), "a test"), "a test")
        .symptoms()
        .get(symptom);
  }

  /** A case about to be asked for the complaint. */
  private static State fresh() throws BadInput {
    State state =
        INTERVIEW
            .begin(Interview.newCase("B-1", "2026-05-12", "B-0417-rear", "rear", "dot-4"))
            .state();
    assertThat(state.phase()).isEqualTo(Phase.COMPLAINT);
    return state;
  }

  @Test
  @DisplayName("puts what it heard to the person, and writes only what the person says")
  void confirms() throws BadInput {
    State heard = INTERVIEW.answer(fresh(), "long lever, never drags. The front squeals").state();
    assertThat(heard.phase()).isEqualTo(Phase.CONFIRM);
    assertThat(presence(heard, "long-throw")).isNull();
    assertThat(INTERVIEW.question(heard).get(0).words()).contains("long lever throw, present?");
    State denied = INTERVIEW.answer(heard, "absent").state();
    assertThat(presence(denied, "long-throw")).isEqualTo(Presence.ABSENT);
    State second = INTERVIEW.answer(heard, "present").state();
    assertThat(presence(second, "long-throw")).isEqualTo(Presence.PRESENT);
    assertThat(INTERVIEW.question(second).get(0).words()).contains("drag, absent?");
    assertThat(said(INTERVIEW.answer(second, "no"))).contains("two things");
    State third = INTERVIEW.answer(second, "Right").state();
    assertThat(presence(third, "drag")).isEqualTo(Presence.ABSENT);
    assertThat(presence(third, "squeal")).isNull();
    assertThat(third.phase()).isEqualTo(Phase.CHECK);
  }

  @Test
  @DisplayName("goes on from where it was cut off, after every single answer")
  void resumes() throws BadInput {
    State state = INTERVIEW.answer(fresh(), "spongy, pumps up, no leak").state();
    List<String> script = List.of("right", "p", "c", "a", "p", "a", "a", "c", "a", "p", "a");
    for (String answer : script) {
      if (state.over()) {
        break;
      }
      State resumed = INTERVIEW.begin(state.text()).state();
      assertThat(resumed.question()).isEqualTo(state.question());
      assertThat(resumed.phase()).isEqualTo(state.phase());
      state = INTERVIEW.answer(state, answer).state();
    }
    State resumed = INTERVIEW.begin(state.text()).state();
    assertThat(resumed.question()).isEqualTo(state.question());
    assertThat(resumed.over()).isEqualTo(state.over());
  }

  @Test
  @DisplayName("never asks twice what nobody can say, and ends by itself")
  void ends() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    java.util.Set<String> asked = new java.util.TreeSet<>();
    while (!state.over()) {
      assertThat(asked.add(state.question())).as(state.question()).isTrue();
      state = INTERVIEW.answer(state, "can't say").state();
    }
    assertThat(asked).isNotEmpty();
    Turn resumed = INTERVIEW.begin(state.text());
    assertThat(resumed.state().over()).isTrue();
    assertThat(said(resumed))
        .containsPattern("No further check is|Nothing more is|No check and no work known here is");
  }

  @Test
  @DisplayName("takes answers back, one by one, to the letter")
  void takesBack() throws BadInput {
    String text = SPONGY.replace("spongy-lever", "long-throw");
    State first = INTERVIEW.begin(text).state();
    State second = INTERVIEW.answer(first, "absent").state();
    assertThat(second.over()).isFalse();
    State third = INTERVIEW.answer(second, "c").state();
    assertThat(INTERVIEW.answer(third, "back").state()).isEqualTo(second);
    State again = INTERVIEW.answer(INTERVIEW.answer(third, "b").state(), "b").state();
    assertThat(again.text()).isEqualTo(text);
    assertThat(said(INTERVIEW.answer(again, "back"))).contains("no answer before this");
  }

  @Test
  @DisplayName("takes a value with its unit, and says what is wrong with another")
  void takesValues() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    State throwAsked =
        new State(
            state.text(), Phase.CHECK, List.of(), "long-throw", state.diagnosis(), state.before());
    assertThat(said(INTERVIEW.answer(throwAsked, "19"))).contains("Maybe \"19 mm\" was meant");
    assertThat(said(INTERVIEW.answer(throwAsked, "19 kg"))).contains("must be a length");
    assertThat(said(INTERVIEW.answer(throwAsked, "900 mm"))).contains("between 0 and 200 mm");
    assertThat(said(INTERVIEW.answer(throwAsked, "19 mm 20 mm"))).contains("one value");
    // Beyond what any sound brake of the kind takes.
    Turn measured = INTERVIEW.answer(throwAsked, "30 mm");
    assertThat(measured.state().text()).contains("\"readings\": { \"throw-firm\": \"30 mm\" }");
    assertThat(measured.state().diagnosis().concluded())
        .anyMatch(each -> each.symptom().equals("long-throw") && each.present());
    State padsAsked =
        new State(
            state.text(), Phase.CHECK, List.of(), "thin-pads", state.diagnosis(), state.before());
    assertThat(INTERVIEW.answer(padsAsked, "0.4 1.2 mm").state().text())
        .contains("\"pad-thickness\": [ \"0.4 mm\", \"1.2 mm\" ]");
    State squealAsked =
        new State(
            state.text(), Phase.CHECK, List.of(), "squeal", state.diagnosis(), state.before());
    assertThat(said(INTERVIEW.answer(squealAsked, "3 mm"))).contains("no value is measured");
  }

  @Test
  @DisplayName("names answers that contradict each other, keeps them and goes on")
  void namesContradictions() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    State firmAsked =
        new State(
            state.text(),
            Phase.CHECK,
            List.of(),
            "no-hard-stop",
            state.diagnosis(),
            state.before());
    Turn turn = INTERVIEW.answer(firmAsked, "absent");
    assertThat(said(turn)).contains("cannot both be true").contains("back takes the last answer");
    assertThat(presence(turn.state(), "no-hard-stop")).isEqualTo(Presence.ABSENT);
  }

  @Test
  @DisplayName("says why it asks, and what each outcome leads to")
  void saysWhy() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    Turn why = INTERVIEW.answer(state, "why");
    assertThat(why.state()).isSameAs(state);
    assertThat(said(why)).contains("present, ", "absent, ");
  }

  @Test
  @DisplayName("bears any answer: nothing is written, and the question stays")
  void bearsAnyAnswer() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    for (String line :
        List.of("", " ", "maybe", "\u0000\u001b[2J", "-", "1e999 mm", "9".repeat(500), "ja")) {
      Turn turn = INTERVIEW.answer(state, line);
      assertThat(turn.state()).as(line).isSameAs(state);
      assertThat(said(turn)).contains("Not understood").doesNotContain("\u001b");
    }
    State complaint = fresh();
    Turn tooLong = INTERVIEW.answer(complaint, "x".repeat(3000));
    assertThat(tooLong.state()).isSameAs(complaint);
    assertThat(said(tooLong)).contains("cannot be noted");
  }

  @Test
  @DisplayName("refuses a closed case with a sentence and a way on")
  void refusesAClosedCase() {
    String closed = SPONGY.substring(0, SPONGY.length() - 1) + ",\"outcome\":{\"causes\":[]}}";
    assertThatThrownBy(() -> INTERVIEW.begin(closed))
        .isInstanceOf(BadInput.class)
        .hasMessageContaining("is closed")
        .hasMessageContaining("Maybe open a new case");
  }
}
