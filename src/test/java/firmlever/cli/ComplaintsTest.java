package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.document.BadInput;
import firmlever.interview.Asking;
import firmlever.interview.Asking.Asked;
import firmlever.interview.Interview;
import firmlever.interview.Interview.Phase;
import firmlever.interview.Interview.State;
import firmlever.interview.Interview.Turn;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Complaints in a customer's words, piped through the interview. What each brake shows was written
 * down before the interview was held (common practice); of everything else it shows nothing.
 */
@DisplayName("Complaints in words")
class ComplaintsTest {
  /** A complaint, what the brake shows, and the causes that a mechanic would name for it. */
  private record Told(String words, Set<String> shows, Set<String> causes) {}

  private static final List<Told> TOLD =
      List.of(
          new Told(
              "I bled it at home on Sunday, now it is soft and I have to pump it",
              Set.of("spongy-lever", "pumps-up", "no-hard-stop", "long-throw", "soft-since-work"),
              Set.of("air-left-in-line")),
          new Told(
              "Squeals and hardly brakes since I sprayed the chain",
              Set.of("squeal", "weak-braking", "fluid-on-pads"),
              Set.of("contaminated-pads")),
          new Told(
              "It rubs all the time since I put the wheel back in",
              Set.of("drag", "caliper-off-centre"),
              Set.of("wheel-out-of-place", "caliper-misaligned")),
          new Told(
              "Lever goes to the bar and it is all wet at the lever",
              Set.of(
                  "lever-to-bar",
                  "long-throw",
                  "no-hard-stop",
                  "leak-found",
                  "wet-at-lever",
                  "wet-at-hose-end",
                  "weep-at-lever-fitting",
                  "weep-along-hose"),
              Set.of("lever-fitting-weep")),
          new Told(
              "It grinds like metal on metal and the lever travel is long",
              Set.of("grinding", "thin-pads", "long-throw"),
              Set.of("worn-pads")),
          new Told(
              "Goes soft on long descents, fine again when it has cooled down",
              Set.of("soft-when-hot", "dirty-fluid", "wet-fluid-test"),
              Set.of("wet-fluid", "aged-fluid", "overheated-fluid")),
          new Told(
              "The disc is bent since the fall and it rubs once every turn",
              Set.of("rub-in-rhythm", "bent-rotor-seen"),
              Set.of("bent-rotor")),
          new Told(
              "It lay upside down in the car, now it is spongy but pumps up",
              Set.of(
                  "spongy-lever",
                  "no-hard-stop",
                  "pumps-up",
                  "firms-up-standing",
                  "soft-after-tilt"),
              Set.of("air-at-lever")),
          new Told(
              "There is fluid dripping from the caliper and it squeals",
              Set.of(
                  "squeal",
                  "leak-found",
                  "wet-at-caliper",
                  "weep-at-caliper-piston",
                  "fluid-on-pads",
                  "fluid-lost"),
              Set.of("caliper-seal-weep")),
          new Told(
              "It behaves like my aunt on Tuesdays",
              Set.of("thin-pads", "long-throw"),
              Set.of("worn-pads")));

  @TempDir private Path folder;

  private static String start(Told told) {
    return Bench.text(
            "'brake':{'id':'B-0417-rear','position':'rear','fluid':'dot-4'},'complaint':'"
                + told.words()
                + "','symptoms':{}")
        + "\n";
  }

  @Test
  @DisplayName("lead to the true cause in few questions, and no open one is handed back")
  void leadToTheCause() throws BadInput, IOException {
    int asked = 0;
    int listed = 0;
    List<String> missed = new ArrayList<>();
    for (Told told : TOLD) {
      UnaryOperator<String> truth = id -> told.shows().contains(id) ? "present" : "absent";
      Asked interview = Asking.interview(start(told), truth);
      Diagnosis end = interview.diagnosis();
      String as = told.words() + " asked " + interview.questions();
      assertThat(interview.ended()).as(as).isTrue();
      assertThat(end.firstStep().map(Diagnosis.Step::id))
          .as(as)
          .isNotEqualTo(Optional.of(Diagnosis.HAND_BACK));
      if (!told.causes().contains(end.first())) {
        missed.add(as + ": " + end.first());
      }
      asked += interview.questions().size();
      listed += Asking.fixedList(start(told), truth, Asking.certainty(end), 1).questions().size();
      assertThat(piped(told, interview.answers()))
          .contains("Ride   ", "Wrong  ", Bench.VOCABULARY.causes().get(end.first()).name());
    }
    assertThat(missed).isEmpty();
    assertThat(asked).isLessThan((int) (0.31 * listed));
  }

  @Test
  @DisplayName("go on after any one look that nobody could make, or end with what hangs on it")
  void goOnAfterOneOpenAnswer() throws BadInput {
    Interview interview = Asking.fresh();
    for (Told told : TOLD) {
      UnaryOperator<String> truth = id -> told.shows().contains(id) ? "present" : "absent";
      State state = interview.begin(start(told)).state();
      while (!state.over()) {
        if (state.phase() == Phase.LOOK) {
          Turn open = interview.answer(state, "?");
          String as = told.words() + " asked " + state.question();
          if (open.state().over()) {
            String last = open.said().get(open.said().size() - 1).words();
            assertThat(last).as(as).contains("hangs on what you could not say", "not handed back");
          } else {
            assertThat(open.state().question())
                .as(as)
                .doesNotContainAnyElementsOf(state.question());
          }
        }
        state = interview.answer(state, Asking.answer(state, truth)).state();
      }
    }
  }

  /** What the command prints where the answers come through a pipe. */
  private String piped(Told told, List<String> answers) throws BadInput, IOException {
    Path file = Files.writeString(folder.resolve("told.json"), start(told));
    StringWriter out = new StringWriter();
    BufferedReader in = new BufferedReader(new StringReader(String.join("\n", answers)));
    AskTest.conversation(Asking.fresh(), in, new PrintWriter(out)).hold(Optional.of(file));
    return out.toString();
  }
}
