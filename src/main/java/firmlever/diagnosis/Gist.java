package firmlever.diagnosis;

import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Step;
import firmlever.vocabulary.Vocabulary;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What people act on of a diagnosis: ids and numbers, which two diagnoses are compared by and which
 * can be kept where the whole of it is not.
 *
 * @param ride whether the brake may be ridden
 * @param because the reasons that verdict names
 * @param notLooked ids of the symptoms that must be looked for before it is cleared
 * @param next what can be done first; empty where nothing is worth its minutes
 * @param first the first cause, or no fault found where that is more probable
 * @param chances the chance of each cause listed and of no fault found, by id
 * @param findings every symptom known to be there or not to be, by id
 * @param cautions ids of the cautions that apply
 */
public record Gist(
    RideVerdict.Answer ride,
    Set<Reason> because,
    Set<String> notLooked,
    Optional<Next> next,
    String first,
    Map<String, Double> chances,
    Map<String, Boolean> findings,
    Set<String> cautions) {

  /** A reason of a ride verdict: a symptom or a cause. */
  public record Reason(String id, boolean isCause) {}

  /**
   * A step that can be done.
   *
   * @param looks for a check, ids of all symptoms that the one look shows; none for a work
   */
  public record Next(String id, Set<String> looks) {
    /** Whether it is the same work, or a look that shows some of the same. */
    boolean sameAs(Next other) {
      return id.equals(other.id) || looks.stream().anyMatch(other.looks::contains);
    }
  }

  public static Gist of(Diagnosis d) {
    Set<Reason> because = new LinkedHashSet<>();
    d.ride().because().forEach(each -> because.add(new Reason(each.id(), each.isCause())));
    Map<String, Double> chances = new LinkedHashMap<>();
    for (CauseBelief cause : d.causes()) {
      chances.put(cause.id(), cause.probability());
    }
    chances.put(Vocabulary.NO_FAULT_FOUND, d.noFaultFound());
    return new Gist(
        d.ride().verdict(),
        because,
        new LinkedHashSet<>(d.ride().notLooked()),
        d.firstStep().map(Gist::next),
        d.first(),
        chances,
        d.findings(),
        new LinkedHashSet<>(d.cautions()));
  }

  private static Next next(Step step) {
    return new Next(step.id(), new LinkedHashSet<>(step.looks()));
  }

  /**
   * What is believed alone, without what to do and what to mind meanwhile: for diagnoses of which
   * one may have been made without a plan.
   */
  public Gist believed() {
    return new Gist(ride, because, notLooked, Optional.empty(), first, chances, findings, Set.of());
  }

  /** The chance of that cause, or of no fault found; none where it is too small to be listed. */
  double chance(String id) {
    return chances.getOrDefault(id, 0.0);
  }
}
