package firmlever.rulebase;

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
    PHOTOS("photos of the fault, by reference"),
    FLUID_TEST("a test of the fluid: water drop, moisture or boiling point"),
    SERVICE_RECORD("the service record, whole, with the day of each fluid change"),
    WHO_DID_IT("whose work it was"),
    WHEN_IT_WAS("the day on which it was"),
    LOAD("the weight of rider and load"),
    EARLIER_CLAIMS("how many claims were made on this brake before"),
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

  // What case and diagnosis tell.

  /**
   * A cause that is decided on.
   *
   * @param probability of the cause, in [0, 1]
   * @param firmness share of redrawn models in which it stays likelier than not
   * @param confirmed whether the closed case names it and says how that was confirmed
   */
  public record Suspect(String cause, double probability, double firmness, boolean confirmed) {
    public String spoken() {
      return String.format(
          Locale.ROOT, "probability %.2f, firmness %.2f", shown(probability), firmness);
    }
  }

  /** A probability is never shown as plain 0 or 1. */
  static double shown(double probability) {
    return Math.min(0.99, Math.max(0.01, probability));
  }

  /** A day from which a period can run; whole months from it to the claim. */
  public record Start(Basis basis, LocalDate day, int monthsOld) {
    public String spoken() {
      return basis.spoken() + " " + day + ", " + monthsOld + " whole months before the claim";
    }
  }

  /**
   * A work on record.
   *
   * @param daysAgo days before the case was opened; 0 and not dated where nobody told
   * @param opening whether it opened the hydraulic system
   * @param otherFamily whether fluid of another family than the brake is built for was put in
   * @param mends ids of the causes it is meant to mend
   */
  public record Repair(
      String work,
      int daysAgo,
      boolean dated,
      DoneBy doneBy,
      boolean opening,
      boolean otherFamily,
      Set<String> mends) {
    public boolean own() {
      return doneBy == DoneBy.OWN;
    }

    public boolean others() {
      return doneBy == DoneBy.OTHER;
    }

    public boolean byNobodyKnown() {
      return doneBy == DoneBy.UNKNOWN;
    }

    public String spoken() {
      return work
          + switch (doneBy) {
            case OWN -> " by this shop, ";
            case OTHER -> " by others, ";
            case UNKNOWN -> ", nobody wrote down by whom, ";
          }
          + when(daysAgo, dated);
    }
  }

  /** An event on record; components as for a {@link Repair}. */
  public record Happening(
      String event, int daysAgo, boolean dated, DoneBy doneBy, boolean otherFamily) {
    /** Serviced outside this shop: the word says so, whoever it was. */
    public boolean servicedElsewhere() {
      return event.equals("home-serviced") && doneBy != DoneBy.OWN;
    }

    public boolean crash() {
      return event.equals("crashed") || event.equals("fell-over");
    }

    public String spoken() {
      return event + ", " + when(daysAgo, dated);
    }
  }

  private static String when(int daysAgo, boolean dated) {
    return dated ? daysAgo + " days before the case" : "no day written down";
  }

  /** Years since the fluid is known to have been fresh. */
  public record FluidAge(double years) {
    public String spoken() {
      return String.format(Locale.ROOT, "fluid on record %.1f years old", years);
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
      return claims + " earlier claims";
    }
  }

  /** A piece of evidence that was handed in or stands in the case. */
  public record Shown(Missing evidence) {}

  // The clauses of the policy, each before one cause.

  /** Asks where the cause is not sure enough. */
  public record Certainty(Ruling ruling, double probability, double firmness) {}

  /** Asks where this piece of evidence is missing. */
  public record Demand(Ruling ruling, Missing evidence) {}

  /** Holds for so many months from a day. */
  public record Period(Ruling ruling, Basis basis, int months) {}

  /** Wear, from that month after a day on; 0 for wear from the first day. */
  public record Wear(Ruling ruling, Basis basis, int fromMonth) {}

  /** Fluid of another family was put in by others than this shop. */
  public record WrongFluid(Ruling ruling) {}

  /** A crash or fall within so many days. */
  public record Crash(Ruling ruling, int days) {}

  /** The hydraulic system was opened by others within so many days. */
  public record OpenedByOthers(Ruling ruling, int days) {}

  /** The fluid was not changed for so many years, by a record that is whole. */
  public record Neglect(Ruling ruling, double years) {}

  /** Ridden with more than so much rider and load, in kg. */
  public record BeyondDuty(Ruling ruling, double mostKg) {}

  /** This shop did one of these works within so many days. */
  public record OwnWork(Ruling ruling, Set<String> works, int days) {}

  /** This shop mended the same cause within so many days, and it is back. */
  public record RepeatRepair(Ruling ruling, int days) {}

  /** From one month after a day up to another, with no more than so many earlier claims. */
  public record Goodwill(
      Ruling ruling, Basis basis, int fromMonth, int untilMonth, int mostClaims) {}

  /** What holds where no other clause does. */
  public record Otherwise(Ruling ruling) {}
}
