package firmlever.document;

import firmlever.document.Node.Place;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Gathers every problem of one file, so that all are told at once. */
public final class Problems {
  private final String file;
  private final List<Problem> found = new ArrayList<>();

  public Problems(String file) {
    this.file = file;
  }

  public void add(Place place, String message) {
    found.add(Problem.at(file, place, message, Optional.empty()));
  }

  /** Adds a problem with a suggestion; an empty {@code maybe} is left out. */
  public void add(Place place, String message, String maybe) {
    found.add(
        Problem.at(file, place, message, maybe.isEmpty() ? Optional.empty() : Optional.of(maybe)));
  }

  public boolean none() {
    return found.isEmpty();
  }

  /**
   * Ends the reading of the file where anything was found.
   *
   * @throws BadInput with all problems, in the order of their places
   */
  public void throwIfAny() throws BadInput {
    if (!found.isEmpty()) {
      found.sort(
          Comparator.comparingInt(Problem::line)
              .thenComparingInt(Problem::column)
              .thenComparing(Problem::pointer));
      throw new BadInput(found);
    }
  }
}
