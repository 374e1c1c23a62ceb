package firmlever.diagnosis;

import firmlever.belief.Word;
import firmlever.hearing.Heard;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.plan.Plan.Result;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * All that is concluded of one case. Every output renders this and nothing else.
 *
 * @param caseId code of the case
 * @param rulebase digest of the rule base in force
 * @param overlay the shop's own rules in force, in words; empty for none
 * @param brake the brake in words: position, code, fluid
 * @param ride whether the brake may be ridden, and why not
 * @param kept why the brake is not handed back as it is: its complaint is not explained; empty
 *     where nothing of it is open
 * @param hazards the findings that forbid riding
 * @param causes every cause above a thousandth, most probable first
 * @param impossible causes that cannot be in this brake
 * @param noFaultFound probability that none of the known causes is present
 * @param together the likeliest stories of two or more causes
 * @param next what to do, in the order to act
 * @param turning which checks would turn the ranking, and how
 * @param heard what the complaint was heard to say; empty where it was not listened to
 * @param notes what of the case file was read and not understood, in sentences
 * @param findings every symptom known to be there or not to be: recorded, heard or concluded, in
 *     vocabulary order
 * @param onlyTold of these those that a rider told and nobody looked for
 * @param contradictions findings that cannot all be true
 * @param concluded symptoms that readings, record or other findings show
 * @param cautions ids of the cautions that apply, in vocabulary order
 * @param throwEstimate trapped gas and what else the throws say; empty without throw readings
 * @param stoppedEarly what was not or not fully worked out, because the work for one answer was
 *     used up; whole sentences
 */
public record Diagnosis(
    String caseId,
    String rulebase,
    String overlay,
    String brake,
    RideVerdict ride,
    Optional<String> kept,
    List<Hazard> hazards,
    List<CauseBelief> causes,
    List<Impossible> impossible,
    double noFaultFound,
    List<Together> together,
    List<Step> next,
    List<Turn> turning,
    Optional<Heard> heard,
    List<String> notes,
    Map<String, Boolean> findings,
    Set<String> onlyTold,
    List<Contradiction> contradictions,
    List<Concluded> concluded,
    Optional<Stability> stability,
    List<String> cautions,
    Optional<ThrowEstimate> throwEstimate,
    List<String> stoppedEarly) {

  /** Causes less probable than this are not listed. */
  public static final double LISTED = 0.001;

  /** The action that gives the brake back after the acceptance checks. */
  public static final String HAND_BACK = "hand-back";

  public boolean stopRide() {
    return ride.stop();
  }

  /** A symptom for which the brake must not be ridden. */
  public record Hazard(String symptom, String why, String rule, String source) {}

  /** A cause with its probability and the balance of what speaks for and against it. */
  public record CauseBelief(
      String id,
      double probability,
      double logOdds,
      double prior,
      List<Weight> history,
      List<Weight> symptoms) {
    /** The word nearest to the probability. */
    public Word word() {
      return Word.nearest(probability);
    }
  }

  /**
   * By how much one thing moves the log odds of a cause.
   *
   * @param symptom the symptom; empty for a piece of history
   * @param present whether the symptom is there
   * @param hinted whether the complaint only hints at it
   * @param weight change of the natural log odds, in the order of weighing
   * @param alone change it would make by itself
   */
  public record Weight(
      String symptom,
      boolean present,
      boolean hinted,
      double weight,
      double alone,
      String rule,
      String source,
      String why) {}

  /** A cause that cannot be in this brake, whatever else speaks for it. */
  public record Impossible(String cause, String why, String rule, String source) {}

  /** A story: just these causes, and no other. */
  public record Together(List<String> causes, double probability) {}

  /** Whether a step finds out or mends. */
  public enum StepKind {
    CHECK,
    WORK
  }

  /**
   * A next step.
   *
   * @param looks for a check, ids of all symptoms that the one look shows, the leading one first,
   *     which is its id; none for a work
   * @param minutes what it takes by itself, less the set-up that steps before it have made
   * @param saves minutes it is expected to save
   * @param blockedBy ids of what must come first; none if it can be done now
   * @param cautions ids of the cautions that belong to it
   * @param forbidden whether it is not to be done at all
   * @param outcomes what it may lead to
   */
  public record Step(
      String id,
      StepKind kind,
      List<String> looks,
      double minutes,
      double saves,
      List<String> blockedBy,
      boolean forbidden,
      List<String> cautions,
      String why,
      List<Outcome> outcomes) {
    /** The same step with other outcomes. */
    Step leadingTo(List<Outcome> others) {
      return new Step(id, kind, looks, minutes, saves, blockedBy, forbidden, cautions, why, others);
    }

    public boolean open() {
      return blockedBy.isEmpty() && !forbidden;
    }
  }

  /**
   * What a step may lead to.
   *
   * @param result a look is {@code ABSENT} where it finds nothing of what it shows
   * @param symptom id of the symptom that is found, for {@code PRESENT}; otherwise empty
   * @param next id of the step that follows; empty where none is worth its minutes, and where it
   *     was not worked out because the outcome hardly ever comes
   */
  public record Outcome(Result result, String symptom, double probability, Optional<String> next) {
    /** The same with another step that follows. */
    Outcome followedBy(Optional<String> step) {
      return new Outcome(result, symptom, probability, step);
    }
  }

  /** What the ranking would be led by after a check. */
  public record Turn(
      String symptom,
      String ifPresent,
      double ifPresentProbability,
      String ifAbsent,
      double ifAbsentProbability) {}

  /** Findings that cannot all be true. */
  public record Contradiction(List<String> symptoms, String why, String rule) {}

  /**
   * A symptom nobody wrote down, but that readings, record or other findings show.
   *
   * @param probability that it is present
   * @param evidence whether it weighs by itself; otherwise it only follows from what does
   */
  public record Concluded(
      String symptom,
      boolean present,
      double probability,
      boolean evidence,
      String why,
      String rule,
      String source) {}

  /**
   * In what share of the redrawn models the first cause stays the same, and the first work that
   * would be done if nothing more were looked for.
   */
  public record Stability(double firstCause, double firstAction, int draws, long seed) {}

  /** The first cause, or no fault found where that is more probable than any cause. */
  public String first() {
    return causes.isEmpty() || noFaultFound > causes.get(0).probability()
        ? firmlever.vocabulary.Vocabulary.NO_FAULT_FOUND
        : causes.get(0).id();
  }

  /** The first step that can be done now. */
  public Optional<Step> firstStep() {
    return next.stream().filter(Step::open).findFirst();
  }

  /** The cause of that id, if it is listed. */
  public Optional<CauseBelief> cause(String id) {
    return causes.stream().filter(cause -> cause.id().equals(id)).findFirst();
  }
}
