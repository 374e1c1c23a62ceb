package firmlever.rulebase;

import firmlever.casefile.Fluid;
import firmlever.vocabulary.Vocabulary.Does;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * The facts a rule can match: one case, put into the plain words and units that rules speak.
 *
 * <p>A number that nobody recorded is NaN, so that no comparison with it holds. No component may be
 * named by a substring of {@code alphaIndexedBy} or {@code betaIndexedBy} (a fault of the rule
 * compiler); a test keeps that.
 */
public final class Facts {
  private Facts() {}

  /**
   * The brake.
   *
   * @param position {@code front}, {@code rear} or {@code unknown}
   * @param fluid what it is built for
   * @param reservoir {@code diaphragm}, {@code sealed} or {@code unknown}
   * @param ageYears years since it was fitted, or NaN
   * @param pistons number of caliper pistons, 0 when not known
   * @param hoseMm hose length in mm, or NaN
   * @param rotorMm rotor diameter in mm, or NaN
   */
  public record Brake(
      String position,
      Fluid fluid,
      String reservoir,
      double ageYears,
      int pistons,
      double hoseMm,
      double rotorMm) {
    public boolean mineral() {
      return fluid.family() == Fluid.Family.MINERAL;
    }

    /** Built for a glycol fluid (DOT 3, 4, 5.1 or an unnamed DOT). */
    public boolean glycol() {
      return fluid.family() == Fluid.Family.GLYCOL;
    }

    public boolean fluidKnown() {
      return fluid != Fluid.UNKNOWN;
    }
  }

  /**
   * How it is used: ambient temperature in °C, rider and load in kg, altitude in m; NaN unknown.
   */
  public record Use(double ambientC, double riderAndLoadKg, double altitudeM) {}

  /** A symptom found present, or looked for and found absent. */
  public record Finding(String symptom, boolean present) {
    public boolean absent() {
      return !present;
    }
  }

  /**
   * That one symptom is a kind of another: where the finer is there, so is the coarser.
   *
   * @param finest whether no symptom is a kind of the finer one
   * @param fineSaid name of the finer one
   * @param coarseAbsentSaid how the absence of the coarser one is called
   */
  public record KindOf(
      String fine, String coarse, boolean finest, String fineSaid, String coarseAbsentSaid) {}

  /**
   * A measured value.
   *
   * @param reading its name in the case file ({@code throw-firm}), or a comparison of two: {@code
   *     gained-by-pumping} (throw-firm less throw-after-five), {@code pad-thickness} (the
   *     thinnest), {@code pad-difference}, {@code piston-advance} (the least), {@code
   *     piston-advance-share} (least over most, 0 to 1)
   * @param value in mm, %, °C or a plain share
   * @param error standard error of the reading, in the unit of {@code value}
   */
  public record Reading(String reading, double value, double error) {}

  /**
   * A symptom judged by the hydraulic model from several readings together.
   *
   * @param ifPresent likelihood of the readings if the symptom is present, 0 to 1; 1 less that if
   *     it is absent
   * @param limit what divides present from absent, in {@code unit}
   */
  public record Estimate(String symptom, double ifPresent, double limit, String unit) {
    /** Whether it leans to either side enough to be evidence: odds of 3 to 2 and more. */
    public boolean telling() {
      return Math.abs(ifPresent - 0.5) >= 0.1;
    }

    /** The limit, spoken: {@code 4 mm}. */
    public String spoken() {
      return String.format(Locale.ROOT, "%.3g %s", limit, unit).replaceFirst("\\.?0+ ", " ");
    }
  }

  /**
   * How far the levers of sound brakes of this kind go; there where a throw was measured.
   *
   * @param low a firm pull takes less in 2.5 of 100 sound brakes, mm
   * @param middle and less than this in half of them, mm
   * @param high and more than this in 2.5 of 100, mm
   * @param forceN force of that pull, N
   */
  public record SoundBrake(double low, double middle, double high, double forceN) {
    /** Spoken: {@code a sound brake of this kind takes 8 to 15 mm at 100 N}. */
    public String takes() {
      return String.format(
          Locale.ROOT,
          "a sound brake of this kind takes %.0f to %.0f mm at %.0f N",
          low,
          high,
          forceN);
    }
  }

  /**
   * What makes a soft brake soft, by its throws; there where throws were measured and fit a brake.
   *
   * @param timesGas how many times likelier such throws are where gas leads than where give does; 1
   *     where they leave it open
   */
  public record GasOrGive(double timesGas) {}

  /** A figure of the maker's for this brake, in mm or N·m: {@code throw}, {@code pad-limit} … */
  public record MakerFigure(String figure, double value) {}

  /**
   * A work done on the brake.
   *
   * @param daysAgo days before the case was opened; a work told without a date counts as 30
   * @param dated whether a date was told
   * @param fluid what was put in, or {@code UNKNOWN}
   * @param torqueOnRecord whether a torque was written down
   * @param newest whether no other work is younger
   * @param outcome {@code mended}, {@code helped-for-a-while}, {@code unchanged}, {@code worse},
   *     {@code unknown}
   * @param ownWork whether the owner did it, by the code {@code owner}, and no workshop
   * @param does what such a work does, by the vocabulary
   */
  public record Job(
      String work,
      int daysAgo,
      boolean dated,
      Fluid fluid,
      boolean torqueOnRecord,
      boolean newest,
      String outcome,
      Set<String> circumstances,
      Set<String> parts,
      boolean ownWork,
      Set<Does> does) {
    /** Whether the fluid in the line was exchanged or renewed. */
    public boolean bleed() {
      return does.contains(Does.BLEEDS);
    }

    /** Whether the hydraulic system was opened. */
    public boolean opening() {
      return does.contains(Does.OPENS);
    }

    public boolean hoseWork() {
      return does.contains(Does.ON_HOSE);
    }

    /** Tried and in vain. */
    public boolean inVain() {
      return outcome.equals("unchanged") || outcome.equals("worse");
    }

    /** When it was, spoken: {@code 12 days ago}. */
    public String when() {
      return spoken(daysAgo, dated);
    }
  }

  /** Something that happened to the brake; {@code daysAgo} as for a {@link Job}. */
  public record Event(String event, int daysAgo, boolean dated, Set<String> circumstances) {
    public String when() {
      return spoken(daysAgo, dated);
    }
  }

  /** The record as a whole. */
  public record History(List<Job> jobs, List<Event> events, double fluidAgeYears) {
    /** How many bleeds of any kind the last {@code days} hold. */
    public int bleedsWithin(int days) {
      return (int) jobs.stream().filter(job -> job.bleed() && job.daysAgo() <= days).count();
    }

    /** How many bleeds of the last {@code days} were in vain or held only for a while. */
    public int bleedsInVainWithin(int days) {
      return (int)
          jobs.stream()
              .filter(job -> job.bleed() && job.daysAgo() <= days)
              .filter(job -> job.inVain() || job.outcome().equals("helped-for-a-while"))
              .count();
    }

    /** Whether any of these works was done within {@code days}. */
    public boolean doneWithin(int days, String... works) {
      Set<String> wanted = Set.of(works);
      return jobs.stream().anyMatch(job -> wanted.contains(job.work()) && job.daysAgo() <= days);
    }

    /** Whether any of these events fell within {@code days}. */
    public boolean happenedWithin(int days, String... kinds) {
      Set<String> wanted = Set.of(kinds);
      return events.stream().anyMatch(e -> wanted.contains(e.event()) && e.daysAgo() <= days);
    }

    /** Whether the system was opened, or a screw turned, within {@code days}. */
    public boolean openedWithin(int days) {
      return jobs.stream().anyMatch(job -> job.opening() && job.daysAgo() <= days)
          || happenedWithin(days, "screw-turned");
    }

    /** Whether the record tells of any work or event at all. */
    public boolean told() {
      return !jobs.isEmpty() || !events.isEmpty();
    }
  }

  private static String spoken(int daysAgo, boolean dated) {
    if (!dated) {
      return "lately (no date told)";
    }
    return switch (daysAgo) {
      case 0 -> "today";
      case 1 -> "yesterday";
      default -> daysAgo < 120 ? daysAgo + " days ago" : Math.round(daysAgo / 30.4) + " months ago";
    };
  }
}
