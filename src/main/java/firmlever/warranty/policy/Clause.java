package firmlever.warranty.policy;

import firmlever.document.Money;
import firmlever.rulebase.warranty.WarrantyFacts.Basis;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.warranty.policy.Outcome.Award;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * One clause of a policy.
 *
 * @param id as the paper numbers it
 * @param priority the clause of the highest priority that holds decides; -1 for {@code otherwise}
 * @param text its wording
 * @param result what holds where the clause does; empty for a consequence, which follows another
 * @param causes ids of the causes it speaks of
 */
public record Clause(
    String id,
    Kind kind,
    int priority,
    String text,
    Optional<Award> result,
    Set<String> causes,
    Terms terms) {

  /** What a clause is about; the rules of {@code rules/warranty} match each in its own way. */
  public enum Kind {
    CERTAINTY,
    EVIDENCE,
    PERIOD,
    WEAR,
    WRONG_FLUID,
    CRASH,
    OPENED_BY_OTHERS,
    NEGLECT,
    BEYOND_DUTY,
    OWN_WORK,
    REPEAT_REPAIR,
    CONSEQUENCE,
    GOODWILL,
    NOTHING_FOUND,
    OTHERWISE;

    /** The spelling used in files. */
    public String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Whether such a clause only ever asks. */
    public boolean asks() {
      return this == CERTAINTY || this == EVIDENCE;
    }

    /** Whether it speaks of the claim as a whole, not of one cause. */
    boolean ofClaim() {
      return this == CERTAINTY || this == NOTHING_FOUND;
    }
  }

  /**
   * The figures of a clause; those its kind does not know are zero, NaN or empty.
   *
   * @param byShop whether the shop, not others, put the fluid in
   * @param cap the most that is paid under the clause in one claim
   */
  public record Terms(
      Basis basis,
      int months,
      int fromMonth,
      int untilMonth,
      int days,
      double years,
      double mostKg,
      double probability,
      double firmness,
      int mostClaims,
      boolean byShop,
      Optional<Money> cap,
      Set<String> works,
      List<Missing> demands) {}
}
