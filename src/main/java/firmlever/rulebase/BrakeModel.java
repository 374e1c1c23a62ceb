package firmlever.rulebase;

import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Word;
import firmlever.hydraulics.ThrowEstimate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What the rules made of one case: the network for this brake, what was observed, and everything
 * they said beside it. All lists are in an order that depends on nothing but the statements.
 *
 * @param network the possible causes and what they show
 * @param observations what bears on the network, in vocabulary order; those without a finding are
 *     hints in the complaint
 * @param findings every symptom known to be present or absent, by id, in vocabulary order
 * @param bases per possible cause, how common it is and which rule says so
 * @param factors what the history does to the odds of causes
 * @param links which rule says that a cause shows a symptom
 * @param impossible causes that cannot be here, by id
 * @param unlooked what must have been looked for before the brake is fit to ride, and was not
 * @param fired names of the rules that fired
 * @param throwEstimate what the throw readings say, where there are any
 * @param backed whether another brake carries the stop if this one is weak
 */
public record BrakeModel(
    Network network,
    List<Observation> observations,
    Map<String, Known> findings,
    Map<String, Base> bases,
    List<Factor> factors,
    Map<String, Map<String, Link>> links,
    Map<String, Said> impossible,
    List<Hazard> hazards,
    List<Unlooked> unlooked,
    List<String> cautions,
    Map<String, List<String>> cautionsByStep,
    List<Contradiction> contradictions,
    Map<String, Map<String, Word>> mends,
    List<Hold> holds,
    Set<String> fired,
    Optional<ThrowEstimate> throwEstimate,
    boolean backed) {

  /**
   * The same of a brake at this wheel: a front brake carries the stop for the rear one, unless both
   * are found to be alike.
   */
  BrakeModel at(String position) {
    Known both = findings.get("both-brakes");
    boolean alike = both != null && both.present();
    return with(network, hazards, holds, position.equals("rear") && !alike);
  }

  /** The same where something is told to be wrong with the other brake too. */
  public BrakeModel unbacked() {
    return with(network, hazards, holds, false);
  }

  /** The same with another network over the same causes and symptoms. */
  public BrakeModel with(Network other) {
    return with(other, hazards, holds, backed);
  }

  /** The same of a brake that, for this reason, must not be ridden. */
  public BrakeModel stopped(Said said) {
    List<Hazard> stops = new ArrayList<>(hazards);
    stops.add(new Hazard("", said));
    return with(network, List.copyOf(stops), holds, backed);
  }

  /** The same of a brake on which, for this reason, the action is not to be done. */
  public BrakeModel forbidding(String action, Said said) {
    List<Hold> waits = new ArrayList<>(holds);
    waits.add(new Hold(action, HoldKind.FORBIDDEN, "", said));
    return with(network, hazards, List.copyOf(waits), backed);
  }

  private BrakeModel with(Network other, List<Hazard> stops, List<Hold> waits, boolean nowBacked) {
    return new BrakeModel(
        other,
        observations,
        findings,
        bases,
        factors,
        links,
        impossible,
        stops,
        unlooked,
        cautions,
        cautionsByStep,
        contradictions,
        mends,
        waits,
        fired,
        throwEstimate,
        nowBacked);
  }

  /** A rule, where it has its knowledge from, and its reason. */
  public record Said(String rule, String source, String why) {
    static final Comparator<Said> BY_RULE =
        Comparator.comparing(Said::rule).thenComparing(Said::why);
  }

  /**
   * What is known of a symptom.
   *
   * @param ifPresent likelihood of what was seen if the symptom is present
   * @param ifAbsent likelihood if it is absent
   * @param weighs whether it is evidence, not only implied by other evidence
   * @param said the rule that concluded it; its rule is empty where a person recorded it
   */
  public record Known(
      String symptom,
      boolean present,
      double ifPresent,
      double ifAbsent,
      boolean weighs,
      Said said) {
    public boolean recorded() {
      return said.rule().isEmpty();
    }

    /** The same, told by another finding already. */
    Known weightless() {
      return new Known(symptom, present, ifPresent, ifAbsent, false, said);
    }
  }

  /** How common a cause is: {@code per100} of 100 brakes brought in with a complaint. */
  public record Base(String cause, double per100, Said said) {}

  /** The odds of {@code cause} are multiplied by {@code times}. */
  public record Factor(String cause, double times, Said said) {}

  /** The cause shows the symptom as often as the word says. */
  public record Link(Word word, Said said) {}

  /**
   * A reason why the brake must not be ridden.
   *
   * @param symptom the finding that forbids it; empty where likely causes do
   */
  public record Hazard(String symptom, Said said) {}

  /** A symptom nobody has looked for, without which the brake is not cleared for riding. */
  public record Unlooked(String symptom, Said said) {}

  /** Findings that cannot all be true. */
  public record Contradiction(List<String> symptoms, Said said) {}

  /** What an action waits for. */
  public enum HoldKind {
    /** Until what shows the symptom is mended. */
    MEND,
    /** Until the symptom was looked for. */
    CHECK,
    /** Until the work is done. */
    WORK,
    /** It is not to be done at all; {@code first} is empty. */
    FORBIDDEN
  }

  /** The action waits for {@code first}. */
  public record Hold(String action, HoldKind kind, String first, Said said) {}
}
