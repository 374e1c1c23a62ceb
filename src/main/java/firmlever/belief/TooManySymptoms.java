package firmlever.belief;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToLongFunction;
import java.util.stream.Collectors;

/** More findings hang together in one case than can be worked through within its budget. */
public final class TooManySymptoms extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final String what;
  private final String maybe;

  /**
   * The refusal of these observations.
   *
   * @param work of some of the observations
   * @param limit the most that some of them may cost to be accepted
   */
  public TooManySymptoms(
      Network network,
      List<Observation> observations,
      ToLongFunction<List<Observation>> work,
      long limit) {
    this(
        Elimination.of(network, observations).largestPart().size()
            + " findings hang together, too many to be weighed exactly within the work for one"
            + " answer",
        "Maybe leave out, or note as not-checked, those of them that weigh least: "
            + leftOut(network, observations, work, limit).stream()
                .map(seen -> network.symptoms().get(seen.symptom()))
                .collect(Collectors.joining(", "))
            + ".");
  }

  private TooManySymptoms(String what, String maybe) {
    super(what + ". " + maybe);
    this.what = what;
    this.maybe = maybe;
  }

  /** What is wrong, without a full stop. */
  public String what() {
    return what;
  }

  /** Which findings to leave out, a whole sentence beginning with {@code Maybe}. */
  public String maybe() {
    return maybe;
  }

  /** Of those that hang together, the ones that weigh least, until the others fit. */
  private static List<Observation> leftOut(
      Network network,
      List<Observation> observations,
      ToLongFunction<List<Observation>> work,
      long limit) {
    List<Observation> rest = new ArrayList<>(observations);
    List<Observation> out = new ArrayList<>();
    while (work.applyAsLong(rest) > limit) {
      Observation least =
          Collections.min(
              Elimination.of(network, rest).largestPart(),
              Comparator.comparingDouble(seen -> SingleWeight.most(network, seen)));
      rest.remove(least);
      out.add(least);
    }
    // The last ones left out may have made room for some of the first, unless those cost as much.
    for (int i = out.size() - 2; i >= 0; i--) {
      rest.add(out.get(i));
      if (work.applyAsLong(rest) > limit) {
        rest.remove(out.get(i));
      } else {
        out.remove(i);
      }
    }
    return out;
  }
}
