package firmlever.warranty.policy;

import java.util.Comparator;
import java.util.Locale;

/** What becomes of a claim, or of a part of it. */
public enum Outcome {
  COVER,
  GOODWILL,
  ASK,
  REFUSE,
  /** Nothing wrong was found with what is claimed. */
  NOTHING_FOUND;

  /** The spelling used in files. */
  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
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
  public record Result(Outcome outcome, Payer pays, int sharePercent)
      implements Comparable<Result> {
    @Override
    public int compareTo(Result other) {
      return Comparator.comparing(Result::outcome)
          .thenComparing(Result::pays)
          .thenComparing(Result::sharePercent)
          .compare(this, other);
    }

    public static final Result ASKED = new Result(ASK, Payer.OPEN, 0);

    /** As part of a sentence: {@code it is covered, paid by the maker}. */
    public String spoken() {
      return switch (outcome) {
        case NOTHING_FOUND ->
            "closed, since nothing wrong was found; costs are the " + pays.id() + "'s";
        case COVER -> "covered, paid by the " + pays.id();
        case GOODWILL -> "met by goodwill, " + sharePercent + " % paid by the " + pays.id();
        case ASK -> "left open: more is asked for";
        case REFUSE -> "refused, paid by the " + pays.id();
      };
    }
  }
}
