package firmlever.warranty.policy;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What a maker and a shop have promised.
 *
 * @param technicians codes of the shop's own people: their work is the shop's, no matter whose
 * @param validFrom the first day of purchase that falls under it
 * @param validUntil the last such day
 * @param consider outcomes at least this probable are in question
 * @param caused a clause may rest on a work or event that brought the fault with at least this
 *     chance; at one minus this or less it did not; between, it is asked
 * @param signers who may decide
 * @param clauses from the highest priority down, then by number
 * @param digest SHA-256 of the file
 */
public record Policy(
    String id,
    String name,
    LocalDate validFrom,
    Optional<LocalDate> validUntil,
    Set<String> technicians,
    double consider,
    double caused,
    Optional<Deadlines> deadlines,
    List<Signer> signers,
    List<Clause> clauses,
    String digest) {

  /**
   * Who may sign a decision.
   *
   * @param overrides whether they may decide otherwise than is recommended
   */
  public record Signer(String code, String role, boolean overrides) {}

  /** Printed in every output, whatever a policy says. */
  public static final String LAW =
      "Local consumer law stands above this policy. It may give the claimant more than any clause"
          + " here; nothing here takes it away.";

  /** The clauses that speak of the cause, from the highest priority down. */
  public List<Clause> about(String cause) {
    return clauses.stream()
        .filter(clause -> !clause.kind().ofClaim() && clause.causes().contains(cause))
        .toList();
  }

  /** How sure an outcome must be that rests on the cause; empty where nothing is said of it. */
  public Optional<Clause> certainty(String cause) {
    return clauses.stream()
        .filter(clause -> clause.kind() == Clause.Kind.CERTAINTY)
        .filter(clause -> clause.causes().contains(cause))
        .findFirst();
  }

  /** The chance an outcome must have that rests on the cause. */
  public double limit(String cause) {
    return certainty(cause).map(clause -> clause.terms().probability()).orElse(consider);
  }

  /** All firmnesses that are asked for of any outcome. */
  public Set<Double> firmnesses() {
    return clauses.stream()
        .filter(clause -> clause.kind() == Clause.Kind.CERTAINTY)
        .map(clause -> clause.terms().firmness())
        .collect(Collectors.toUnmodifiableSet());
  }

  /** What holds where nothing wrong is found. */
  public Optional<Clause> nothingFound() {
    return clauses.stream().filter(c -> c.kind() == Clause.Kind.NOTHING_FOUND).findFirst();
  }
}
