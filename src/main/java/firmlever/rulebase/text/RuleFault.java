package firmlever.rulebase.text;

/** A rule says something that cannot be: a name that is not known, a factor that makes no sense. */
public final class RuleFault extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public RuleFault(String rule, String message, String maybe) {
    super(
        (rule.isEmpty() ? "" : "rule \"" + rule + "\": ")
            + message
            + (maybe.isEmpty() ? "" : "\n    " + maybe));
  }
}
