package firmlever.rulebase.warranty;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Set;

/**
 * The facts a warranty rule can match: the clauses of a policy, each put before each cause it
 * speaks of, and what case and diagnosis tell. What nobody told is no fact at all: rules must ask
 * for it. No fact names the person who worked or who claims.
 */
public final class WarrantyFacts {
  private WarrantyFacts() {}

  /** One clause put before one cause: what a statement is about. */
  public record Ruling(String clause, String cause) {}

  /** From which day a period runs. */
  public enum Basis {
    FITTED,
    PURCHASED;

    public Missing missing() {
      return this == FITTED ? Missing.FITTED_DATE : Missing.PURCHASE_DATE;
    }

    public String spoken() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** Whose work it was. Which of the own technicians it was is not told to any rule. */
  public enum DoneBy {
    OWN,
    OTHER,
    UNKNOWN
  }

  /** A fact that a decision can lack, and that can be sent in. */
  public enum Missing {
    PURCHASE_DATE("the day of purchase, with its proof"),
    FITTED_DATE("the day the brake was fitted"),
    WIPE_PUMP_HOLD("the record of a wipe-pump-hold round: each joint wet or dry"),
    READINGS("readings: lever throw, creep or thicknesses, with their unit"),
    PHOTOS("photos of the fault"),
    FLUID_TEST("a test of the fluid: water drop, moisture or boiling point"),
    SERVICE_RECORD("the service record, whole, with the day of each fluid change"),
    PRIOR_APPROVAL("the approval given before the work"),
    WHO_DID_IT("whose work it was"),
    WHICH_FLUID("which fluid was put in at each work"),
    WHEN_IT_WAS("the day on which it was"),
    AROSE("the day on which the fault first showed"),
    ORIGIN("a signed statement, by one of this shop, of what the fault comes of"),
    LOAD("the weight of rider and load"),
    EARLIER_CLAIMS("how many claims were made on this brake before"),
    WHAT_FOR("which fault each work and part was for"),
    FINDINGS("further findings that make the cause sure enough");

    private final String spoken;

    Missing(String spoken) {
      this.spoken = spoken;
    }

    /** What to send, in words. */
    public String spoken() {
      return spoken;
    }

    /** The spelling used in files, such as {@code wipe-pump-hold}. */
    public String id() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** So many of a thing whose plural ends in s, such as {@code 1 month}. */
  public static String counted(int count, String one) {
    return count + " " + one + (count == 1 ? "" : "s");
  }

  // What case and diagnosis tell.

  /**
   * A day from which a period can run. Where nobody told when the fault showed, it may have been
   * any day up to the one the brake came in.
   *
   * @param least whole months from that day until the fault showed, at least
   * @param most the same at most; as many as {@code least} where the day is told
   */
  public record Start(Basis basis, LocalDate day, int least, int most) {
    public String spoken() {
      return basis.spoken()
          + " "
          + day
          + (least == most
              ? ", " + counted(most, "whole month") + " before the fault showed"
              : ", at most " + counted(most, "whole month") + " before the fault showed");
    }
  }

  /** Whether an entry of the record brought the cause it is put before. */
  public enum Link {
    /** So likely that a clause may rest on it. */
    BROUGHT,
    /** It can be, and can be otherwise. */
    PERHAPS,
    /** It does not bring this, or hardly ever. */
    UNLIKELY,
    /** The fault had shown before. */
    LATER,
    /** Something came after it that brings this. */
    OVERTAKEN,
    /** The fault was in the part when it was made. */
    MADE_SO
  }

  /**
   * A work or event on record, put before one cause.
   *
   * @param what id of the work or event
   * @param daysBefore days before the fault showed, or before the case was opened where that is not
   *     told; 0 and not dated where nobody told
   * @param opening whether it opened the hydraulic system
   * @param otherFamily whether fluid of another family than the brake is built for was put in
   * @param first whether no other entry put such fluid in before it
   * @param firstTold whether it is told of all that went before which fluid was put in
   * @param mends whether it is meant to mend the cause
   * @param orderTold whether it is told which came first, it or the fault
   */
  public record Trace(
      String cause,
      String what,
      int daysBefore,
      boolean dated,
      DoneBy doneBy,
      boolean crash,
      boolean opening,
      boolean otherFamily,
      boolean first,
      boolean firstTold,
      boolean mends,
      Link link,
      boolean orderTold) {
    public boolean own() {
      return doneBy == DoneBy.OWN;
    }

    public boolean others() {
      return doneBy == DoneBy.OTHER;
    }

    public boolean byNobodyKnown() {
      return doneBy == DoneBy.UNKNOWN;
    }

    /** It may have brought the cause. */
    public boolean possible() {
      return link == Link.BROUGHT || link == Link.PERHAPS;
    }

    /** It brought the cause, as far as anyone can tell. */
    public boolean proven() {
      return link == Link.BROUGHT && orderTold;
    }

    public boolean inDoubt() {
      return possible() && !proven();
    }

    public boolean overtaken() {
      return link == Link.OVERTAKEN;
    }

    /** Nothing speaks against its having come before the fault, and nothing overtook it. */
    public boolean stands() {
      return possible() || link == Link.UNLIKELY;
    }

    /** What must be known to tell whether it brought the cause. */
    public Missing lacks() {
      return !dated ? Missing.WHEN_IT_WAS : !orderTold ? Missing.AROSE : Missing.ORIGIN;
    }

    /** Why it is in doubt, as the end of a sentence that begins with it. */
    public String doubt() {
      return switch (lacks()) {
        case WHEN_IT_WAS -> "its day is not told";
        case AROSE -> "nobody told whether the fault had shown before";
        default -> "it may or may not have brought this";
      };
    }

    public String spoken() {
      return what
          + switch (doneBy) {
            case OWN -> " by this shop, ";
            case OTHER -> opening ? " by others, " : ", ";
            case UNKNOWN -> opening ? ", nobody wrote down by whom, " : ", ";
          }
          + (!dated
              ? "no day written down"
              : daysBefore == 0
                  ? "on the day of the fault"
                  : counted(daysBefore, "day") + " before the fault");
    }
  }

  /** Fluid of the other family brings this cause. */
  public record ByWrongFluid(String cause) {}

  /**
   * Another fault that brings this one.
   *
   * @param by id of the other cause
   * @param probability that the other one is present
   * @param likely whether a clause may rest on it
   */
  public record Brought(String cause, String by, double probability, boolean likely) {
    public String spoken() {
      return String.format(Locale.ROOT, "%s, probability %.3f", by, shown(probability));
    }
  }

  /** A probability is never shown as plain 0 or 1. */
  static double shown(double probability) {
    return Math.min(0.999, Math.max(0.001, probability));
  }

  /**
   * How long the fluid is known to be in, and for how much of that the claimant had the brake.
   *
   * @param told whether the day it was fresh is told
   * @param ownTold whether the day of purchase is told
   */
  public record FluidAge(boolean told, double years, boolean ownTold, double ownYears) {
    public String spoken() {
      return String.format(Locale.ROOT, "fluid on record %.1f years old", years)
          + (ownTold
              ? String.format(Locale.ROOT, ", the brake bought %.1f years ago", ownYears)
              : "");
    }
  }

  /** Rider and load in kg. */
  public record Load(double weightKg) {
    public String spoken() {
      return String.format(Locale.ROOT, "rider and load %.0f kg", weightKg);
    }
  }

  /** How many claims were made before. */
  public record Earlier(int claims) {
    public String spoken() {
      return claims == 0 ? "no earlier claim" : counted(claims, "earlier claim");
    }
  }

  /** A piece of evidence that was handed in. */
  public record Shown(Missing evidence) {}

  // The clauses of the policy, each before one cause.

  /** Asks where this piece of evidence is missing. */
  public record Demand(Ruling ruling, Missing evidence) {}

  /** Holds for so many months from a day. */
  public record Period(Ruling ruling, Basis basis, int months) {
    public String length() {
      return counted(months, "month");
    }

    /** As the beginning of a sentence. */
    public String over() {
      return months == 1 ? "the month was over" : "the " + months + " months were over";
    }
  }

  /** Wear, from that month after a day on; 0 for wear from the first day. */
  public record Wear(Ruling ruling, Basis basis, int fromMonth) {
    public String length() {
      return counted(fromMonth, "month");
    }

    /** The time before it counts, such as {@code the first month}. */
    public String before() {
      return fromMonth == 1 ? "the first month" : "the first " + length();
    }
  }

  /** Fluid of another family was put in, by this shop or by others, before anyone else did. */
  public record WrongFluid(Ruling ruling, boolean byShop) {}

  /** A crash or fall within so many days. */
  public record Crash(Ruling ruling, int days) {
    public String reach() {
      return counted(days, "day");
    }
  }

  /** The hydraulic system was opened by others within so many days. */
  public record OpenedByOthers(Ruling ruling, int days) {
    public String reach() {
      return counted(days, "day");
    }
  }

  /** The claimant did not have the fluid changed for so many years, by a record that is whole. */
  public record Neglect(Ruling ruling, double years) {}

  /** Ridden with more than so much rider and load, in kg. */
  public record BeyondDuty(Ruling ruling, double mostKg) {
    /** The limit as people write it. */
    public String limit() {
      return (mostKg == Math.rint(mostKg)
              ? String.format(Locale.ROOT, "%.0f", mostKg)
              : String.valueOf(mostKg))
          + " kg";
    }
  }

  /** This shop did one of these works within so many days. */
  public record OwnWork(Ruling ruling, Set<String> works, int days) {
    public String reach() {
      return counted(days, "day");
    }
  }

  /** This shop mended the same cause within so many days, and it is back. */
  public record RepeatRepair(Ruling ruling, int days) {
    public String reach() {
      return counted(days, "day");
    }
  }

  /** Another fault brought this one, and it is decided like that. */
  public record Consequence(Ruling ruling) {}

  /** From one month after a day up to another, with no more than so many earlier claims. */
  public record Goodwill(
      Ruling ruling, Basis basis, int fromMonth, int untilMonth, int mostClaims) {
    /** What may have come before, as part of a sentence. */
    public String allowed() {
      return mostClaims == 0
          ? "no claim came before"
          : "no more than " + counted(mostClaims, "claim") + " came before";
    }

    /** The end of a sentence that begins with how many there were. */
    public String exceeded() {
      return mostClaims == 0 ? "the first claim alone counts" : "more than " + mostClaims;
    }
  }

  /** What holds where no other clause does. */
  public record Otherwise(Ruling ruling) {}
}
