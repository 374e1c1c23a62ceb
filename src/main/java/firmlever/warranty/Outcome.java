package firmlever.warranty;

import java.util.Locale;

/** What becomes of a claim, cause by cause. */
public enum Outcome {
  COVER("covered"),
  GOODWILL("goodwill"),
  ASK("more is asked for"),
  REFUSE("refused");

  private final String spoken;

  Outcome(String spoken) {
    this.spoken = spoken;
  }

  /** The spelling used in files. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** As part of a sentence: {@code it is covered}. */
  public String spoken() {
    return spoken;
  }

  /** Who pays the repair. */
  public enum Payer {
    MAKER,
    SHOP,
    CLAIMANT,
    /** Open, until what was asked for has come. */
    OPEN;

    public String id() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * An outcome with who pays it.
   *
   * @param sharePercent share of the cost that {@code pays} bears, 0 to 100
   */
  public record Result(Outcome outcome, Payer pays, int sharePercent) {
    static final Result ASKED = new Result(ASK, Payer.OPEN, 0);

    public String spoken() {
      return switch (outcome) {
        case COVER -> "covered, paid by the " + pays.id();
        case GOODWILL -> "goodwill, " + sharePercent + " % paid by the " + pays.id();
        case ASK -> "not decided yet: more is asked for";
        case REFUSE -> "refused, paid by the " + pays.id();
      };
    }
  }
}
