package firmlever.plan;

import firmlever.plan.Problem.Hold;
import java.util.List;
import java.util.Optional;

/**
 * What to do, in the order to act, as long as each check comes out the likelier way and each work
 * leaves something to mend; then what would help and must wait.
 *
 * @param steps the steps
 * @param expectedMinutes expected cost of the whole repair, comeback and parts included, in minutes
 */
public record Plan(List<Step> steps, double expectedMinutes) {

  public Plan {
    steps = List.copyOf(steps);
  }

  public enum Kind {
    CHECK,
    WORK
  }

  /**
   * One step.
   *
   * @param settles for a check, positions in the network of the symptoms known after it, ascending;
   *     none for a work
   * @param minutes what it costs when its turn comes: time, parts and the acceptance check after a
   *     work, without the set-ups that are in place by then
   * @param saves by how many minutes the whole repair would be dearer without it
   * @param waits what must come before it now; empty if it may be done now
   * @param outcomes what it may lead to; empty for a step listed only because it waits
   */
  public record Step(
      String id,
      Kind kind,
      List<Integer> settles,
      double minutes,
      double saves,
      List<Hold> waits,
      Why why,
      List<Outcome> outcomes) {
    public Step {
      waits = List.copyOf(waits);
      outcomes = List.copyOf(outcomes);
    }

    /** Ids of the symptoms and works that must come first; empty if it may be done now. */
    public List<String> blockedBy() {
      return waits.stream().map(Hold::first).distinct().toList();
    }
  }

  public enum Reason {
    /** The check tells causes apart: {@code about} names those it speaks for, strongest first. */
    TELLS_APART,
    /** The works in {@code about} wait for it. */
    RELEASES,
    /** It mends the causes in {@code about}, likeliest first, for the fewest minutes. */
    MENDS,
    /** Nothing is likely to be wrong: the acceptance check alone. */
    NOTHING_WRONG,
    /** It would mend the causes in {@code about}, and must wait. */
    WAITS
  }

  /**
   * Why the step stands where it stands; sentences are made elsewhere.
   *
   * @param probability that the check finds the symptom, that a cause is there which the work can
   *     mend, or, for {@code NOTHING_WRONG}, that no fault is there
   * @param about ids of causes, or of works for {@code RELEASES}
   */
  public record Why(Reason reason, double probability, List<String> about) {
    public Why {
      about = List.copyOf(about);
    }
  }

  public enum Result {
    PRESENT,
    ABSENT,
    ALL_RIGHT,
    NOT_ALL_RIGHT
  }

  /**
   * What a step leads to.
   *
   * @param symptom position in the network of the symptom that is found; -1 where none is
   * @param probability of this result when the step's turn comes
   * @param next id of the step that follows; empty where nothing is worth its minutes any more: the
   *     brake is handed back after {@code ALL_RIGHT}, otherwise given up to the maker
   */
  public record Outcome(Result result, int symptom, double probability, Optional<String> next) {}
}
