package firmlever.document;

import java.util.List;
import java.util.stream.Collectors;

/** An input cannot be used; carries everything that is wrong with it. */
public final class BadInput extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  public BadInput(List<Problem> problems) {
    super(problems.stream().map(Problem::spoken).collect(Collectors.joining("\n")));
    this.problems = List.copyOf(problems);
  }

  public List<Problem> problems() {
    return problems;
  }
}
