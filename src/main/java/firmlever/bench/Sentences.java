package firmlever.bench;

import firmlever.document.BadInput;
import firmlever.document.Problem;
import java.util.List;

/** What is wrong with an input, as sentences on a page. */
final class Sentences {
  private Sentences() {}

  /** One sentence or more for each problem. */
  static List<String> of(BadInput wrong) {
    return wrong.problems().stream().map(Sentences::of).toList();
  }

  /** The terminal gives each hint a line of its own; a page runs it on. */
  private static String of(Problem problem) {
    return problem.spoken().replace("\n    ", ". ");
  }
}
