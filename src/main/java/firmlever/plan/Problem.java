package firmlever.plan;

import firmlever.belief.Network;
import firmlever.belief.Scenarios.Scenario;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The troubleshooting problem the planner solves ({@code document.Problem}, a fault in a file, is
 * another thing).
 *
 * @param network what each cause makes one see
 * @param scenarios what may be wrong, by at most 64 different causes; probabilities are normalised
 *     here
 * @param checks what can still be looked for
 * @param works what can be done, at most 64 of them, each at most once
 * @param holds what must come before a work
 * @param shop what time is worth
 * @param inPlace set-ups that are in place already
 * @param hinted by symptom that was hinted at, which the scenarios count already: likelihood of the
 *     hint without the symptom, over that with it
 */
public record Problem(
    Network network,
    List<Scenario> scenarios,
    List<Check> checks,
    List<Work> works,
    List<Hold> holds,
    Shop shop,
    Set<String> inPlace,
    Map<Integer, Double> hinted) {

  public Problem {
    scenarios = List.copyOf(scenarios);
    checks = List.copyOf(checks);
    works = List.copyOf(works);
    holds = List.copyOf(holds);
    inPlace = Set.copyOf(inPlace);
    hinted = Map.copyOf(hinted);
  }

  /** The same where nothing was hinted at. */
  public Problem(
      Network network,
      List<Scenario> scenarios,
      List<Check> checks,
      List<Work> works,
      List<Hold> holds,
      Shop shop,
      Set<String> inPlace) {
    this(network, scenarios, checks, works, holds, shop, inPlace, Map.of());
  }

  /**
   * A look, which may show several symptoms at once. It comes out as the first of them that it
   * finds, or as none of them.
   *
   * @param shows what it may find, by position in the network, the one that counts most first
   * @param settles all symptoms that are known once it was made: those it shows and coarser ones
   * @param minutes time it takes alone, set-ups included
   * @param needs set-ups it needs
   * @param misses probability that it does not find a symptom that is there, in [0, 1)
   * @param falseAlarms probability that it finds one that is not there, in [0, 1)
   */
  public record Check(
      String id,
      List<Integer> shows,
      Set<Integer> settles,
      double minutes,
      Set<String> needs,
      double misses,
      double falseAlarms) {
    public Check {
      shows = List.copyOf(shows);
      settles = Set.copyOf(settles);
      needs = Set.copyOf(needs);
      if (!(minutes >= 0 && misses >= 0 && misses < 1 && falseAlarms >= 0 && falseAlarms < 1)) {
        throw new IllegalArgumentException(id + ": minutes or error rates out of range");
      }
    }

    /** A look at one symptom. */
    public Check(
        String id,
        int symptom,
        double minutes,
        Set<String> needs,
        double misses,
        double falseAlarms) {
      this(id, List.of(symptom), Set.of(symptom), minutes, needs, misses, falseAlarms);
    }

    /** In how many ways it may come out: each symptom it may find first, and none of them. */
    int results() {
      return shows.size() + 1;
    }
  }

  /**
   * A work. One that mends nothing is a mere acceptance check, such as handing back a brake without
   * fault.
   *
   * @param minutes time it takes alone, set-ups included
   * @param needs set-ups it needs
   * @param parts parts it takes
   * @param mends how likely one go mends each cause, by the position of the cause in the network
   */
  public record Work(
      String id,
      double minutes,
      Set<String> needs,
      List<String> parts,
      Map<Integer, Double> mends) {
    public Work {
      needs = Set.copyOf(needs);
      parts = List.copyOf(parts);
      mends = Map.copyOf(mends);
      if (!(minutes >= 0) || !mends.values().stream().allMatch(p -> p >= 0 && p <= 1)) {
        throw new IllegalArgumentException(id + ": minutes or strengths out of range");
      }
    }
  }

  /** What must come before a work. */
  public enum HoldKind {
    /** What shows the symptom, which is present, must be mended. */
    MEND_FIRST,
    /** The symptom must have been looked for. */
    CHECK_FIRST,
    /** Another work must be done. */
    DO_FIRST,
    /** The work is not to be done on this brake at all. */
    FORBIDDEN
  }

  /**
   * One hold.
   *
   * @param work the work that waits
   * @param first the symptom or work it waits for; the work itself where it is forbidden
   * @param why the reason a mechanic would say
   */
  public record Hold(HoldKind kind, String work, String first, String why) {}
}
