package firmlever.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import firmlever.belief.Network;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.document.JsonText;
import firmlever.document.Node;
import firmlever.interview.Asking;
import firmlever.interview.Asking.Asked;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.Known;
import firmlever.vocabulary.Vocabulary;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The interview of every demo case, begun with what stands in the book when a brake comes in:
 * brake, use, history and complaint. What the rider tells is in the complaint; all findings and
 * readings are stripped, for they are what the interview has to ask for.
 */
@DisplayName("The interview of every demo case")
class DemoInterviewsTest {
  /** What is wrong with each brake: a mechanic's reading of the whole file. */
  private static final Map<String, String> TRUE_CAUSES =
      Map.of(
          "howls-after-the-chain-was-oiled", "contaminated-pads",
          "long-but-firm-with-readings", "worn-pads",
          "long-lever-hard-stop", "worn-pads",
          "nothing-wrong", Vocabulary.NO_FAULT_FOUND,
          "soft-after-the-car-roof", "air-at-lever",
          "soft-with-readings", "air-at-lever",
          "third-bleed-wanted", "lever-port-weep");

  private static final Set<String> STRIPPED = Set.of("symptoms", "readings", "why", "expect");

  /** Checks that are answered with the value that the file records. */
  private static final Map<String, String> MEASURED =
      Map.of("long-throw", "throw-firm", "thin-pads", "pad-thickness");

  @TempDir private Path folder;

  /**
   * A demo case.
   *
   * @param start the stripped case
   * @param cause what is wrong with the brake
   * @param values by symptom, what was measured for it
   * @param whole what the rules make of the case as it lies in the folder
   */
  private record Demo(
      String name, String start, String cause, Map<String, String> values, BrakeModel whole) {
    /**
     * What the brake answers. The file speaks first, by its values, its findings and what they show
     * (but not what they only imply); of everything else the true cause says whether half of all
     * brakes or more would show it.
     */
    String truth(String symptom) {
      if (values.containsKey(symptom)) {
        return values.get(symptom);
      }
      Known known = whole.findings().get(symptom);
      if (known != null && known.weighs()) {
        return known.present() ? "present" : "absent";
      }
      Network network = whole.network();
      int at = network.causes().indexOf(cause);
      int shown = network.symptomPositions().get(symptom);
      double absent =
          (1 - network.background()[shown]) * (at < 0 ? 1 : 1 - network.strength()[at][shown]);
      return absent <= 0.5 ? "present" : "absent";
    }
  }

  private static List<Demo> demos() throws BadInput, IOException {
    List<Demo> demos = new ArrayList<>();
    try (Stream<Path> files = Files.list(Path.of("cases/demo"))) {
      for (Path file : files.sorted().toList()) {
        String name = file.getFileName().toString().replace(".json", "");
        var document = (Node.Object) DocumentReader.readText(Files.readString(file), name);
        BrakeModel whole = Bench.RULES.consult(Bench.READER.read(document, name));
        demos.add(
            new Demo(name, stripped(document), TRUE_CAUSES.get(name), values(document), whole));
      }
    }
    assertThat(demos)
        .extracting(Demo::name)
        .containsExactlyInAnyOrderElementsOf(TRUE_CAUSES.keySet());
    return demos;
  }

  private static String stripped(Node.Object document) {
    Map<String, Object> members = new LinkedHashMap<>();
    document.members().forEach((name, value) -> members.put(name, plain(value)));
    members.keySet().removeAll(STRIPPED);
    return JsonText.of(members) + "\n";
  }

  private static Map<String, String> values(Node.Object document) {
    Map<String, String> values = new LinkedHashMap<>();
    if (document.members().get("readings") instanceof Node.Object readings) {
      MEASURED.forEach(
          (symptom, field) ->
              readings.get(field).ifPresent(value -> values.put(symptom, said(value))));
    }
    return values;
  }

  /** A reading as one says it; of throws at several pulls the first. */
  private static String said(Node value) {
    if (value instanceof Node.Object pull) {
      return said(pull.members().get("value"));
    }
    if (value instanceof Node.Array several) {
      return several.items().get(0) instanceof Node.Object first
          ? said(first)
          : several.items().stream().map(DemoInterviewsTest::said).collect(Collectors.joining(" "));
    }
    return ((Node.Text) value).value();
  }

  private static Object plain(Node node) {
    if (node instanceof Node.Object object) {
      Map<String, Object> members = new LinkedHashMap<>();
      object.members().forEach((name, value) -> members.put(name, plain(value)));
      return members;
    }
    if (node instanceof Node.Array array) {
      return array.items().stream().map(DemoInterviewsTest::plain).toList();
    }
    return node instanceof Node.Number number
        ? (Object) number.value().doubleValue()
        : ((Node.Text) node).value();
  }

  @Test
  @DisplayName("ends by itself with the true cause first, asking far less than a fixed list")
  void findsTheCause() throws BadInput, IOException {
    int asked = 0;
    int listed = 0;
    for (Demo demo : demos()) {
      Asked interview = Asking.interview(demo.start(), demo::truth);
      Diagnosis end = interview.diagnosis();
      String as = demo.name() + " asked " + interview.questions();
      assertThat(interview.ended()).as(as).isTrue();
      assertThat(interview.questions().stream().flatMap(List::stream))
          .as(as)
          .isNotEmpty()
          .doesNotHaveDuplicates();
      assertThat(end.first()).as(as).isEqualTo(demo.cause());
      assertThat(end.firstStep().orElseThrow().id().equals(Diagnosis.HAND_BACK))
          .as(as)
          .isEqualTo(demo.cause().equals(Vocabulary.NO_FAULT_FOUND));
      // What the complaint says is put back too, most often in two questions.
      Asked list = Asking.fixedList(demo.start(), demo::truth, Asking.certainty(end), 1);
      // What was done lately is on no list of symptoms.
      int looks = (int) interview.questions().stream().filter(each -> !each.isEmpty()).count();
      assertThat(looks).as(as).isLessThanOrEqualTo(Math.max(2, list.questions().size()));
      asked += looks;
      listed += list.questions().size();
    }
    assertThat(asked).isLessThan(listed / 4);
  }

  @Test
  @DisplayName("killed after any answer and begun anew, ends with the same file, ranking and words")
  void survivesBeingKilled() throws BadInput, IOException {
    for (Demo demo : demos()) {
      List<String> answers = Asking.interview(demo.start(), demo::truth).answers();
      Path whole = Files.writeString(folder.resolve(demo.name() + ".json"), demo.start());
      String ending = ending(hold(whole, answers));
      assertThat(ending).contains("Ride   ", "Wrong  ", "Now    ");
      for (int k = 0; k <= answers.size(); k++) {
        String as = demo.name() + " killed after answer " + k;
        Path cut = Files.writeString(folder.resolve(demo.name() + "-cut.json"), demo.start());
        if (k < answers.size()) {
          List<String> heard = answers.subList(0, k);
          assertThatThrownBy(() -> hold(cut, heard)).as(as).isInstanceOf(Killed.class);
        } else {
          hold(cut, answers);
        }
        String resumed = hold(cut, answers.subList(k, answers.size()));
        assertThat(Files.readString(cut)).as(as).isEqualTo(Files.readString(whole));
        assertThat(ending(resumed)).as(as).isEqualTo(ending);
        assertThat(ranking(cut)).as(as).isEqualTo(ranking(whole));
      }
    }
  }

  /** The end of the program in the middle of a question. */
  private static final class Killed extends RuntimeException {
    private static final long serialVersionUID = 1;
  }

  /** Holds an interview as the command does; it is killed when it asks for more than is said. */
  private static String hold(Path file, List<String> answers) throws BadInput {
    StringWriter out = new StringWriter();
    BufferedReader in =
        new BufferedReader(new StringReader(String.join("\n", answers))) {
          @Override
          public String readLine() throws IOException {
            String line = super.readLine();
            if (line == null) {
              throw new Killed();
            }
            return line;
          }
        };
    AskTest.conversation(Asking.fresh(), in, new PrintWriter(out)).hold(Optional.of(file));
    return out.toString();
  }

  /** What was said last, which is what is to be done; the name of the file left out. */
  private static String ending(String out) {
    String said = out.substring(out.lastIndexOf("  so far  "));
    return said.substring(0, said.indexOf("Case file: "));
  }

  private static List<CauseBelief> ranking(Path file) throws BadInput {
    return Asking.diagnose(Bench.READER.read(file, file.toString())).causes();
  }
}
