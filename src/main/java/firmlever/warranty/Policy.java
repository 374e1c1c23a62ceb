package firmlever.warranty;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What a maker and a shop have promised.
 *
 * @param technicians codes of the shop's own people: their work is the shop's, no matter whose
 * @param consider causes at least this probable are decided on
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
    List<Clause> clauses,
    String digest) {

  /** Printed in every output, whatever a policy says. */
  public static final String LAW =
      "Local consumer law stands above this policy. It may give the claimant more than any clause"
          + " here; nothing here takes it away.";

  /** The clauses that speak of the cause, from the highest priority down. */
  public List<Clause> about(String cause) {
    return clauses.stream().filter(clause -> clause.causes().contains(cause)).toList();
  }

  /** Whether a clause can hang on the firmness of the cause at this probability. */
  boolean asksFirmness(String cause, double probability) {
    return about(cause).stream()
        .filter(clause -> clause.kind() == Clause.Kind.CERTAINTY)
        .anyMatch(clause -> probability >= clause.terms().probability());
  }
}
