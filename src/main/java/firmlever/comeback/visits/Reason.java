package firmlever.comeback.visits;

import java.util.Arrays;
import java.util.List;

/** Why a brake came back. */
public enum Reason {
  WRONG_CAUSE("wrong cause treated", "the cause found later already showed at the first visit"),
  DID_NOT_HOLD("right cause, repair did not hold", "the same cause was found again"),
  BROUGHT_IN("brought in by the work", "the rules say that the work done can bring this in"),
  DID_NOT_SHOW(
      "cause did not show then",
      "nothing known at the first visit spoke for the cause found later"),
  NO_FAULT_TWICE(
      "no fault found twice", "both visits ended without a cause, and nothing was mended"),
  NOT_RECORDED(
      "cause not on record",
      "one of the visits does not say what was found, or not in words that were understood"),
  NEW_FAULT("new fault", "the return is no comeback: its cause is more likely new");

  /** Those a comeback can have; a new fault makes none. */
  public static final List<Reason> OF_COMEBACKS =
      Arrays.stream(values()).filter(reason -> reason != NEW_FAULT).toList();

  private final String words;
  private final String test;

  Reason(String words, String test) {
    this.words = words;
    this.test = test;
  }

  /** The reason as a table names it. */
  public String words() {
    return words;
  }

  /** By what it is told from the others. */
  public String test() {
    return test;
  }

  /** The name in data files. */
  public String id() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
