package firmlever.jobcard;

import firmlever.diagnosis.Diagnosis;
import java.util.List;

/**
 * Whether a brake may go back after the work.
 *
 * @param works ids of the works of this visit, from the job record
 * @param checks every acceptance check that applies, with what came of it
 * @param holds what else holds it, in sentences
 * @param failed works that the failure shows to have been in vain
 * @param shifts what the failure says about the causes: those that lead now, with what they were
 * @param next what to do now; empty where the brake goes back or nothing is known
 */
public record Verdict(
    String caseId,
    String brake,
    List<String> works,
    List<Checked> checks,
    List<String> holds,
    List<String> failed,
    List<Shift> shifts,
    List<Diagnosis.Step> next) {

  /** What came of an acceptance check. */
  public enum Result {
    PASSED,
    FAILED,
    NOT_MADE
  }

  /** One acceptance check, and why it came out so. */
  public record Checked(String id, String name, Result result, String why, String how) {}

  /** Probability of a cause if the works counted as done well, and now that they did not help. */
  public record Shift(String cause, double before, double now) {}

  /** Whether it goes back. */
  public boolean handBack() {
    return holds.isEmpty() && checks.stream().allMatch(c -> c.result() == Result.PASSED);
  }

  /** The checks with that result. */
  public List<Checked> with(Result result) {
    return checks.stream().filter(check -> check.result() == result).toList();
  }
}
