package firmlever.rulebase.warranty;

import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyFacts.Ruling;

/**
 * The language of the warranty rules: what a rule may say of one clause before one cause. A rule
 * never says who pays; the clause does, and the priorities of the policy settle which clause.
 */
public interface Verdict {

  /** The clause holds; {@code facts} are those it rests on, in words. */
  void applies(Ruling ruling, String why, String... facts);

  /** The clause holds because this is missing: only for clauses that ask. */
  void asks(Ruling ruling, Missing missing, String why);

  /** Whether the clause holds cannot be told before this is known. */
  void open(Ruling ruling, Missing missing, String why);

  /** The clause does not hold. */
  void fails(Ruling ruling, String why);
}
