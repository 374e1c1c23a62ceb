package firmlever.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ProblemTest {
  @Test
  void isSpokenWithFilePlacePointerAndGuess() {
    Problem problem =
        new Problem("a.json", 3, 14, "/brake/lot", "stands here", Optional.of("Maybe x."));
    assertThat(problem.spoken()).isEqualTo("a.json:3:14: /brake/lot: stands here\n    Maybe x.");
    assertThat(Problem.ofFile("b.json", "is empty", "").spoken()).isEqualTo("b.json: is empty");
  }

  @Test
  void controlCharactersOfAFileNeverReachTheTerminal() {
    Problem problem =
        new Problem(
            "a.json",
            1,
            2,
            "/x\u001b[2J",
            "\"\u0007\n\u009b\" stands here",
            Optional.of("Maybe\r."));
    assertThat(problem.spoken())
        .isEqualTo(
            "a.json:1:2: /x\\u001b[2J: \"\\u0007\\u000a\\u009b\" stands here\n    Maybe\\u000d.");
  }

  @Test
  void allProblemsOfAFileAreToldInTheOrderOfTheirPlaces() {
    Problems problems = new Problems("c.json");
    problems.add(new Node.Place(7, 2, "/z"), "third");
    problems.add(new Node.Place(2, 9, "/a"), "second");
    problems.add(new Node.Place(2, 5, "/b"), "first");
    BadInput bad = catchThrowableOfType(BadInput.class, problems::throwIfAny);
    assertThat(bad.problems())
        .extracting(Problem::message)
        .isEqualTo(List.of("first", "second", "third"));
    assertThat(bad)
        .hasMessage("c.json:2:5: /b: first\nc.json:2:9: /a: second\nc.json:7:2: /z: third");
  }
}
