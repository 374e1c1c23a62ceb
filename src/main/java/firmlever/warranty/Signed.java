package firmlever.warranty;

import java.time.LocalDate;
import java.util.List;

/**
 * What a person signed of a claim.
 *
 * @param recommended what was recommended then, in words
 * @param decided what was decided, in words; the recommendation where it was followed
 * @param reason why it was decided otherwise; empty where the recommendation was followed
 * @param stands whether case, policy and recommendation are what they were when it was signed
 * @param changes what has changed of the case since, in words
 */
public record Signed(
    String by,
    String role,
    LocalDate on,
    String recommended,
    String decided,
    String reason,
    boolean stands,
    List<String> changes) {

  /** Whether it was decided otherwise than was recommended. */
  public boolean override() {
    return !reason.isEmpty();
  }

  /** Whether it is what is recommended of the case as it stands. */
  public boolean follows() {
    return stands && !override();
  }
}
