package firmlever.interview;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.document.BadInput;
import firmlever.hearing.NotUnderstood;
import firmlever.interview.Interview.Line;
import firmlever.interview.Interview.Phase;
import firmlever.interview.Interview.State;
import firmlever.interview.Interview.Turn;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The interview")
class InterviewTest {
  private static final Interview INTERVIEW = Asking.fresh();
  private static final String REAR =
      "'brake':{'id':'B-0417-rear','position':'rear','fluid':'mineral-oil'},";
  private static final String SPONGY =
      Bench.text(REAR + "'symptoms':{'spongy-lever':'present'},'history':[]");

  private static String said(Turn turn) {
    return turn.said().stream().map(Line::words).collect(Collectors.joining("\n"));
  }

  private static String asked(State state) {
    return INTERVIEW.question(state).stream().map(Line::words).collect(Collectors.joining("\n"));
  }

  private static Presence presence(State state, String symptom) throws BadInput {
    return Asking.read(state.text()).symptoms().get(symptom);
  }

  /** A case about to be asked for the complaint. */
  private static State fresh() throws BadInput {
    State state = INTERVIEW.begin(Bench.text(REAR + "'symptoms':{}")).state();
    assertThat(state.phase()).isEqualTo(Phase.COMPLAINT);
    return state;
  }

  /** The state in which these symptoms are asked for. */
  private static State asking(String text, String... symptoms) throws BadInput {
    State state = INTERVIEW.begin(text).state();
    return new State(
        state.text(),
        Phase.LOOK,
        state.heard(),
        List.of(symptoms),
        state.passed(),
        state.diagnosis(),
        state.before());
  }

  @Test
  @DisplayName("says at the start what each letter means")
  void saysWhatTheLettersMean() throws BadInput {
    assertThat(said(INTERVIEW.begin(SPONGY))).contains("y it is so", "n it is", "? not", "- takes");
  }

  @Test
  @DisplayName("asks whether the rider said what only a rider can tell; a no leaves it open")
  void aColdStandClearsNoHotFault() throws BadInput {
    State heard = INTERVIEW.answer(fresh(), "the lever gets soft when it is hot").state();
    assertThat(asked(heard)).contains("soft when hot").contains("Did the rider say so? y n ?");
    State denied = INTERVIEW.answer(heard, "n").state();
    assertThat(presence(denied, "soft-when-hot")).isNull();
    assertThat(denied.text()).contains("\"misheard\"").contains("soft-when-hot");
    assertThat(asked(denied)).doesNotContain("soft when hot");
    assertThat(presence(INTERVIEW.answer(heard, "y").state(), "soft-when-hot"))
        .isEqualTo(Presence.PRESENT);
  }

  @Test
  @DisplayName("puts each finding it heard to the person, and writes what the person says")
  void confirmsFindings() throws BadInput {
    State heard = INTERVIEW.answer(fresh(), "long lever, never drags. The front squeals").state();
    assertThat(heard.phase()).isEqualTo(Phase.HEARD);
    assertThat(presence(heard, "long-throw")).isNull();
    assertThat(asked(heard)).contains("long lever throw (", "). Is it so? y n ?");
    Turn denied = INTERVIEW.answer(heard, "n");
    assertThat(presence(denied.state(), "long-throw")).isEqualTo(Presence.ABSENT);
    assertThat(said(denied)).contains("Noted: lever throw not long.");
    State open = INTERVIEW.answer(heard, "?").state();
    assertThat(presence(open, "long-throw")).isNull();
    assertThat(asked(open)).contains("no drag (drag: With the lever released the wheel");
    State second = INTERVIEW.answer(heard, "y").state();
    assertThat(presence(second, "long-throw")).isEqualTo(Presence.PRESENT);
    State third = INTERVIEW.answer(second, "Yes").state();
    assertThat(presence(third, "drag")).isEqualTo(Presence.ABSENT);
    assertThat(presence(third, "squeal")).isNull();
    assertThat(third.phase()).isEqualTo(Phase.DONE);
  }

  @Test
  @DisplayName("puts works and events it heard to the person; what is denied is not heard again")
  void confirmsWorksAndEvents() throws BadInput {
    State state =
        INTERVIEW.answer(fresh(), "the shop bled it two days ago and it is spongy").state();
    state = INTERVIEW.answer(state, "y").state();
    State done = INTERVIEW.answer(state, "n").state();
    assertThat(done.phase()).isEqualTo(Phase.HEARD);
    assertThat(asked(done)).contains("2026-05-10", "by shop");
    List<Entry> noted = Asking.read(INTERVIEW.answer(done, "y").state().text()).history();
    assertThat(noted).hasSize(1);
    assertThat(noted.get(0).by()).isEqualTo("shop");
    assertThat(noted.get(0).daysAgo()).hasValue(2);
    CaseFile denied = Asking.read(INTERVIEW.answer(done, "n").state().text());
    assertThat(denied.history()).isEmpty();
    assertThat(Asking.heed(denied).file().history()).isEmpty();
    assertThat(Asking.heed(Asking.read(done.text())).file().history()).hasSize(1);
  }

  @Test
  @DisplayName("puts what it did not understand to the person, and notes only what was meant")
  void asksWhatWasMeant() throws BadInput {
    String words = NotUnderstood.saying("lever-sinks");
    State meant = INTERVIEW.answer(fresh(), words).state();
    assertThat(meant.phase()).isEqualTo(Phase.MEANT);
    assertThat(meant.question()).contains("lever-sinks").hasSizeLessThanOrEqualTo(3);
    assertThat(asked(meant)).contains(words, "lever sinks");
    String number = String.valueOf(meant.question().indexOf("lever-sinks") + 1);
    State told = INTERVIEW.answer(meant, number).state();
    assertThat(presence(told, "lever-sinks")).isEqualTo(Presence.PRESENT);
    assertThat(told.phase()).isEqualTo(Phase.DONE);
    State other = INTERVIEW.answer(meant, "n").state();
    assertThat(Asking.read(other.text()).symptoms()).isEmpty();
    assertThat(other.phase()).isEqualTo(Phase.DONE);
    assertThat(INTERVIEW.answer(meant, "77").state()).isSameAs(meant);
    assertThat(INTERVIEW.answer(other, "-").state()).isEqualTo(meant);
  }

  @Test
  @DisplayName("asks what was done lately, when and by whom, once")
  void asksWhatWasDone() throws BadInput {
    String text = SPONGY.replace(",\"history\":[]", "");
    State done = INTERVIEW.begin(text).state();
    assertThat(done.phase()).isEqualTo(Phase.DONE);
    Turn odd = INTERVIEW.answer(done, "sang to it");
    assertThat(odd.state()).isSameAs(done);
    assertThat(said(odd)).contains("cannot be noted", "sang to it");
    State told =
        INTERVIEW.answer(done, "bled 10 May with DOT 4 by T3, new pads yesterday, myself").state();
    List<Entry> history = Asking.read(told.text()).history();
    assertThat(history).extracting(Entry::work).containsExactly("full-bleed", "replace-pads");
    assertThat(history).extracting(Entry::by).containsExactly("T3", "owner");
    assertThat(history).extracting(e -> e.daysAgo().getAsInt()).containsExactly(2, 1);
    assertThat(INTERVIEW.begin(told.text()).state().phase()).isNotEqualTo(Phase.DONE);
    String nothing = INTERVIEW.answer(done, "").state().text();
    assertThat(Asking.read(nothing).history()).isEmpty();
    assertThat(INTERVIEW.begin(nothing).state().phase()).isNotEqualTo(Phase.DONE);
    assertThat(INTERVIEW.answer(done, "?").state().text()).isEqualTo(text);
  }

  @Test
  @DisplayName("takes a guess at the cause for no finding")
  void takesNoGuesses() throws BadInput {
    State state = INTERVIEW.answer(fresh(), "Must be air in the line, it needs a bleed").state();
    CaseFile file = Asking.heed(Asking.read(state.text())).file();
    assertThat(file.symptoms()).isEmpty();
    assertThat(file.history()).isEmpty();
  }

  @Test
  @DisplayName(
      "says so where nothing was understood, asks the looks worth most, hands nothing back")
  void bearsAnUnreadComplaint() throws BadInput {
    Turn turn = INTERVIEW.answer(fresh(), "it behaves like my aunt on Tuesdays");
    assertThat(said(turn)).contains("Nothing of the complaint was understood");
    State state = INTERVIEW.answer(turn.state(), "n").state();
    int looks = 0;
    String last = "";
    while (!state.over()) {
      looks += state.phase() == Phase.LOOK ? 1 : 0;
      Turn next = INTERVIEW.answer(state, "n");
      last = said(next);
      state = next.state();
    }
    assertThat(looks).isGreaterThanOrEqualTo(3);
    assertThat(last).contains("Not found with what was looked at: ", "not handed back");
    assertThat(state.diagnosis().firstStep()).isEmpty();
  }

  /** The end of an interview in which nothing else is found. */
  private static State endWithNothingElse(String complaint, String isItSo) throws BadInput {
    State state = INTERVIEW.answer(fresh(), complaint).state();
    while (!state.over()) {
      state = INTERVIEW.answer(state, state.phase() == Phase.HEARD ? isItSo : "n").state();
    }
    return state;
  }

  @Test
  @DisplayName("hands no brake back whose complaint nothing likely explains, only one without it")
  void handsBackNoOpenComplaint() throws BadInput {
    for (String complaint : List.of("it judders", "it squeals", "rubs once every turn")) {
      assertThat(endWithNothingElse(complaint, "y").diagnosis().firstStep())
          .as(complaint)
          .matches(step -> step.filter(each -> each.id().equals(Diagnosis.HAND_BACK)).isEmpty());
    }
    assertThat(endWithNothingElse("it judders", "n").diagnosis().firstStep().orElseThrow().id())
        .isEqualTo(Diagnosis.HAND_BACK);
  }

  @Test
  @DisplayName("asks for one place once, and then what of it is there")
  void asksPlaceByPlace() throws BadInput {
    State pull = asking(SPONGY, "long-throw", "lever-to-bar", "pumps-up", "slow-return");
    assertThat(asked(pull)).contains("pull the lever", "Its numbers (1 3)");
    State seen = INTERVIEW.answer(pull, "1 3, 4?").state();
    assertThat(presence(seen, "long-throw")).isEqualTo(Presence.PRESENT);
    assertThat(presence(seen, "lever-to-bar")).isEqualTo(Presence.ABSENT);
    assertThat(presence(seen, "pumps-up")).isEqualTo(Presence.PRESENT);
    assertThat(presence(seen, "slow-return")).isNull();
    assertThat(said(INTERVIEW.answer(pull, "y"))).contains("say the numbers");
    assertThat(said(INTERVIEW.answer(pull, "1 7"))).contains("numbers 1 to 4");
    State none = INTERVIEW.answer(pull, "n").state();
    assertThat(presence(none, "pumps-up")).isEqualTo(Presence.ABSENT);
    assertThat(INTERVIEW.answer(pull, "?").state().text()).isEqualTo(SPONGY);
    assertThat(INTERVIEW.answer(pull, "1: 30 mm").state().text())
        .contains("\"throw-firm\": \"30 mm\"", "\"pumps-up\": \"absent\"");
  }

  @Test
  @DisplayName("traces a leak from the top: the highest wet place counts, what is below stays open")
  void tracesALeak() throws BadInput {
    String wet =
        Bench.text(
            REAR + "'symptoms':{'weep-along-hose':'present','hose-damage':'absent'},'history':[]");
    State round = INTERVIEW.begin(wet).state();
    assertThat(asked(round)).contains("Wipe every joint dry", "highest");
    assertThat(round.question().indexOf("weep-at-lever-port"))
        .isLessThan(round.question().indexOf("weep-at-lever-fitting"));
    assertThat(round.question().indexOf("weep-at-lever-fitting"))
        .isLessThan(round.question().indexOf("weep-at-caliper-fitting"));
    String both =
        (round.question().indexOf("weep-at-caliper-fitting") + 1)
            + " "
            + (round.question().indexOf("weep-at-lever-fitting") + 1);
    State traced = INTERVIEW.answer(round, both).state();
    assertThat(presence(traced, "weep-at-lever-fitting")).isEqualTo(Presence.PRESENT);
    assertThat(presence(traced, "weep-at-lever-port")).isEqualTo(Presence.ABSENT);
    assertThat(presence(traced, "weep-at-caliper-fitting")).isNull();
    assertThat(traced.diagnosis().first()).isEqualTo("lever-fitting-weep");
  }

  @Test
  @DisplayName("goes on from where it was cut off, after every single answer")
  void resumes() throws BadInput {
    State state = INTERVIEW.answer(fresh(), "spongy, pumps up, no leak").state();
    for (String answer : List.of("y", "y", "y", "n", "n", "1", "n", "n", "n", "n", "n")) {
      if (state.over()) {
        break;
      }
      State resumed = INTERVIEW.begin(state.text()).state();
      assertThat(resumed.question()).isEqualTo(state.question());
      assertThat(resumed.phase()).isEqualTo(state.phase());
      state = INTERVIEW.answer(state, state.question().size() == 1 ? "n" : answer).state();
    }
    State resumed = INTERVIEW.begin(state.text()).state();
    assertThat(resumed.question()).isEqualTo(state.question());
    assertThat(resumed.over()).isEqualTo(state.over());
  }

  @Test
  @DisplayName("notes nothing where nobody can say, asks it once a sitting, and ends honestly")
  void ends() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    Set<String> asked = new HashSet<>();
    String last = "";
    while (!state.over()) {
      for (String symptom : state.question()) {
        assertThat(asked.add(symptom)).as(symptom).isTrue();
      }
      Turn open = INTERVIEW.answer(state, "?");
      last = said(open);
      state = open.state();
    }
    assertThat(asked).isNotEmpty();
    assertThat(last)
        .contains("hangs on what you could not say", "until then it is not handed back");
    assertThat(state.text()).isEqualTo(SPONGY);
    assertThat(INTERVIEW.begin(state.text()).state().over()).isFalse();
  }

  @Test
  @DisplayName("takes answers back, one by one, to the letter")
  void takesBack() throws BadInput {
    String longer = SPONGY.replace("spongy-lever", "long-throw");
    State first = INTERVIEW.begin(longer).state();
    State second = INTERVIEW.answer(first, "n").state();
    assertThat(second.over()).isFalse();
    State third = INTERVIEW.answer(second, "?").state();
    assertThat(third.over()).isFalse();
    assertThat(INTERVIEW.answer(third, "-").state()).isEqualTo(second);
    State again = INTERVIEW.answer(INTERVIEW.answer(third, "back").state(), "-").state();
    assertThat(again.text()).isEqualTo(longer);
    assertThat(said(INTERVIEW.answer(again, "-"))).contains("no answer before this");
  }

  @Test
  @DisplayName("takes a value with its unit, and says what is wrong with another")
  void takesValues() throws BadInput {
    State throwAsked = asking(SPONGY, "long-throw");
    assertThat(said(INTERVIEW.answer(throwAsked, "19"))).contains("Maybe \"19 mm\" was meant");
    assertThat(said(INTERVIEW.answer(throwAsked, "19 kg"))).contains("must be a length");
    assertThat(said(INTERVIEW.answer(throwAsked, "900 mm"))).contains("between 0 and 200 mm");
    assertThat(said(INTERVIEW.answer(throwAsked, "19 mm 20 mm"))).contains("one value");
    // Beyond what any sound brake of the kind takes.
    Turn measured = INTERVIEW.answer(throwAsked, "30 mm");
    assertThat(measured.state().text()).contains("\"readings\": { \"throw-firm\": \"30 mm\" }");
    assertThat(measured.state().diagnosis().concluded())
        .anyMatch(each -> each.symptom().equals("long-throw") && each.present());
    assertThat(INTERVIEW.answer(asking(SPONGY, "thin-pads"), "0.4 1.2 mm").state().text())
        .contains("\"pad-thickness\": [ \"0.4 mm\", \"1.2 mm\" ]");
    assertThat(said(INTERVIEW.answer(asking(SPONGY, "squeal"), "3 mm")))
        .contains("no value is measured");
  }

  @Test
  @DisplayName("names answers that contradict each other, keeps them and goes on")
  void namesContradictions() throws BadInput {
    Turn turn = INTERVIEW.answer(asking(SPONGY, "no-hard-stop"), "n");
    assertThat(said(turn)).contains("cannot both be true").contains("- takes the last answer");
    assertThat(presence(turn.state(), "no-hard-stop")).isEqualTo(Presence.ABSENT);
    // What was only not named among several is no such answer.
    Turn several = INTERVIEW.answer(asking(SPONGY, "no-hard-stop", "slow-return"), "2");
    assertThat(said(several)).doesNotContain("cannot both be true");
    assertThat(presence(several.state(), "no-hard-stop")).isNull();
  }

  @Test
  @DisplayName("says why it asks, and what each outcome leads to")
  void saysWhy() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    Turn why = INTERVIEW.answer(state, "why");
    assertThat(why.state()).isSameAs(state);
    assertThat(said(why)).contains("none of it, ", ": ");
  }

  @Test
  @DisplayName("bears any answer: nothing is written, and the question stays")
  void bearsAnyAnswer() throws BadInput {
    State state = INTERVIEW.begin(SPONGY).state();
    for (String line :
        List.of("", " ", "maybe", "\u0000\u001b[2J", "1e999 mm", "9".repeat(500), "ja", "0")) {
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
