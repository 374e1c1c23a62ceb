package firmlever.warranty.policy;

import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

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

  /** What is said of a claim that comes to this as a whole. */
  public String spoken() {
    return switch (this) {
      case COVER -> "covered";
      case GOODWILL -> "goodwill";
      case ASK -> "left open";
      case REFUSE -> "refused";
      case NOTHING_FOUND -> "nothing wrong found";
    };
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
  public record Award(Outcome outcome, Payer pays, int sharePercent) implements Comparable<Award> {
    @Override
    public int compareTo(Award other) {
      return Comparator.comparing(Award::outcome)
          .thenComparing(Award::pays)
          .thenComparing(Award::sharePercent)
          .compare(this, other);
    }

    public static final Award ASKED = new Award(ASK, Payer.OPEN, 0);

    private static final Pattern REFUSED =
        Pattern.compile("refused?|refused, paid by the claimant|not covered");

    private static final Pattern LEFT_OPEN = Pattern.compile("ask|left open(: more is asked for)?");

    private static final Pattern COVERED =
        Pattern.compile("cover(?:ed)?,? (?:paid )?by (?:the )?(maker|shop)");

    private static final Pattern MET =
        Pattern.compile(
            "(?:met by )?goodwill,? ([1-9][0-9]?|100) ?%,? (?:paid )?by (?:the )?(maker|shop)");

    private static final Pattern NO_PAYER =
        Pattern.compile("cover(ed)?|(met by )?goodwill(,? ([1-9][0-9]?|100) ?%)?");

    /**
     * What a decision in words comes to for the whole claim, such as {@code refuse}, {@code
     * covered, paid by the shop} or {@code goodwill, 50 % paid by the maker}; empty for any other
     * words.
     */
    public static Optional<Award> told(String words) {
      String said = plain(words);
      if (REFUSED.matcher(said).matches()) {
        return Optional.of(new Award(REFUSE, Payer.CLAIMANT, 100));
      }
      if (LEFT_OPEN.matcher(said).matches()) {
        return Optional.of(ASKED);
      }
      Matcher covered = COVERED.matcher(said);
      if (covered.matches()) {
        return Optional.of(new Award(COVER, payer(covered.group(1)), 100));
      }
      Matcher met = MET.matcher(said);
      return met.matches()
          ? Optional.of(new Award(GOODWILL, payer(met.group(2)), Integer.parseInt(met.group(1))))
          : Optional.empty();
    }

    /** Whether such words grant something, and do not say who pays how much of it. */
    public static boolean lacksPayer(String words) {
      return NO_PAYER.matcher(plain(words)).matches();
    }

    private static String plain(String words) {
      return words
          .strip()
          .toLowerCase(Locale.ROOT)
          .replaceAll("\\s+", " ")
          .replaceFirst("\\.$", "");
    }

    private static Payer payer(String id) {
      return Payer.valueOf(id.toUpperCase(Locale.ROOT));
    }

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
