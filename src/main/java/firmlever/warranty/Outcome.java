package firmlever.warranty;

import java.util.Locale;

/** What becomes of a claim, cause by cause. */
public enum Outcome {
  COVER,
  GOODWILL,
  ASK,
  REFUSE;

  /** The spelling used in files. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
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

    /** As part of a sentence: {@code it is covered, paid by the maker}. */
    public String spoken() {
      return switch (outcome) {
        case COVER -> "covered, paid by the " + pays.id();
        case GOODWILL -> "met by goodwill, " + sharePercent + " % paid by the " + pays.id();
        case ASK -> "left open: more is asked for";
        case REFUSE -> "refused, paid by the " + pays.id();
      };
    }
  }
}
