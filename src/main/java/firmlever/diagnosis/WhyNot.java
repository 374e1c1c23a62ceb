package firmlever.diagnosis;

import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Impossible;
import firmlever.rulebase.Judge.Judgement;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Why a cause is not believed in, or not more.
 *
 * @param caseId code of the case
 * @param rulebase digest of the rule base in force
 * @param cause id of the cause
 * @param impossible why it cannot be in this brake, where that is so; then there is no belief and
 *     no check
 * @param belief probability and balance of what speaks for and against it
 * @param rank place among the causes, from 1
 * @param causes how many causes can be in this brake
 * @param leader the cause ranked first, or no fault found
 * @param leading probability of the leader
 * @param explainedBy for a present symptom that weighs less than it would alone: the cause that
 *     explains it best
 * @param notApplied rules about the cause that did not speak, the strongest raise first
 * @param applied names of those that did
 * @param checks what one check more would make of it, the greatest change first; no test ride on a
 *     brake that must not be ridden
 * @param stoppedEarly what was not fully worked out, because the work for one answer was used up;
 *     whole sentences
 * @param stopRide whether the brake must not be ridden
 */
public record WhyNot(
    String caseId,
    String rulebase,
    String cause,
    Optional<Impossible> impossible,
    Optional<CauseBelief> belief,
    int rank,
    int causes,
    String leader,
    double leading,
    Map<String, String> explainedBy,
    List<NotApplied> notApplied,
    List<String> applied,
    List<Check> checks,
    List<String> stoppedEarly,
    boolean stopRide) {

  /**
   * A rule that did not speak.
   *
   * @param times factor by which it would have moved the odds: 1 where it moves none, 0 where it
   *     would have made the cause impossible
   * @param why the reason it would have given
   */
  public record NotApplied(Judgement judgement, double times, String why) {}

  /**
   * What a check would make of the probability of the cause.
   *
   * @param chance that the symptom is present, as things stand
   */
  public record Check(String symptom, double chance, double ifPresent, double ifAbsent) {
    /** How far apart its two outcomes leave the cause. */
    public double swing() {
      return Math.abs(ifPresent - ifAbsent);
    }
  }
}
