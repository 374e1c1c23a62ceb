package firmlever.document;

import firmlever.document.Node.Place;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Gathers every problem of one file, so that all are told at once. */
public final class Problems {
  /** More of one file are counted and not told: nobody mends the rest before these. */
  private static final int TOLD = 100;

  private final String file;
  private int untold;
  private final List<Problem> found = new ArrayList<>();

  public Problems(String file) {
    this.file = file;
  }

  public void add(Place place, String message) {
    add(place, message, "");
  }

  /** Adds a problem with a suggestion; an empty {@code maybe} is left out. */
  public void add(Place place, String message, String maybe) {
    if (found.size() == TOLD) {
      untold++;
      return;
    }
    found.add(
        Problem.at(file, place, message, maybe.isEmpty() ? Optional.empty() : Optional.of(maybe)));
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
      if (untold > 0) {
        found.add(Problem.ofFile(file, "and " + untold + " more", ""));
      }
      throw new BadInput(found);
    }
  }
}
