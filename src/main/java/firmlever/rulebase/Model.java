package firmlever.rulebase;

import firmlever.belief.Background;
import firmlever.belief.Word;
import firmlever.rulebase.Facts.Estimate;
import firmlever.rulebase.Facts.Finding;
import firmlever.rulebase.Facts.Reading;

/**
 * The language of rule consequences: what a rule may say about the brake on the stand. Statements
 * may come in any order and any number of times; {@link BrakeModel} puts them in order.
 */
public interface Model {

  /** The cause can be here; {@code per100} of 100 brakes brought in with a complaint have it. */
  void possible(String cause, double per100);

  /** The cause cannot be here, whatever else speaks for it. */
  void impossible(String cause, String why);

  /** Multiplies the odds of the cause by {@code times} &gt; 1. */
  void raise(String cause, double times, String why);

  /** Multiplies the odds of the cause by {@code times} between 0 and 1. */
  void lower(String cause, double times, String why);

  /** With the cause present, each of the symptoms shows as often as the word says. */
  void shows(String cause, Word howOften, String... symptoms);

  /** How often the symptoms show in a brake without any known cause. */
  void background(Background howOften, String... symptoms);

  /** Concludes a symptom from another finding or from the record; insert what it returns. */
  Finding found(String symptom, boolean present, String why);

  /** The same, but somebody only said so: it weighs as the word of a rider does. */
  Finding told(String symptom, boolean present, String why);

  /**
   * Follows by definition from another finding: known without a check, and no evidence of its own;
   * insert what it returns.
   */
  Finding implied(String symptom, boolean present, String why);

  /** The symptom is present where the reading is above the limit; insert what it returns. */
  Finding above(String symptom, Reading reading, double limit, String why);

  /** The symptom is present where the reading is below the limit; insert what it returns. */
  Finding below(String symptom, Reading reading, double limit, String why);

  /**
   * The symptom is present as far as the hydraulic model makes it so; insert what it returns. Never
   * overrides what was recorded.
   */
  Finding estimated(String symptom, Estimate estimate, String why);

  /** These findings cannot both be true. */
  void contradiction(String why, String... symptoms);

  /** The brake must not be ridden, because of this symptom. */
  void stopRide(String symptom, String why);

  /** Nobody may call the brake fit to ride until this symptom has been looked for. */
  void clearFirst(String symptom, String why);

  /** A caution of the vocabulary that applies to this brake. */
  void caution(String caution);

  /** A caution that belongs to these actions, groups of actions, set-ups or looks. */
  void cautionFor(String caution, String... steps);

  /** One go of the action mends each of the causes as often as the word says. */
  void mends(String action, Word howOften, String... causes);

  /** A work that was tried in vain speaks against what it should have mended. */
  void triedInVain(String work, String why);

  /** The actions (or action groups) wait until what shows this symptom is mended. */
  void mendFirst(String symptom, String why, String... actions);

  /** The actions (or action groups) wait until this symptom has been looked for. */
  void checkFirst(String symptom, String why, String... actions);

  /** The actions (or action groups) wait until this work is done. */
  void doFirst(String work, String why, String... actions);

  /** The actions (or action groups) are not to be done on this brake at all. */
  void forbid(String why, String... actions);
}
