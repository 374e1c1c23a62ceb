package firmlever.hydraulics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;

/**
 * What lever throws say of the inside of a brake.
 *
 * @param gasMl trapped gas at ambient pressure, mL
 * @param clearanceMm gap between pad and rotor at each piston, mm
 * @param addedGiveMlPerMpa give beyond a sound brake's (hose, pads, alignment), mL per MPa
 * @param gasTravelMm travel between contact and the firm pull that gas takes, mm at the tip
 * @param giveTravelMm travel up to the firm pull that added give takes, mm at the tip
 * @param meaning what it comes to
 * @param gasRatherThanGive share of the soft brakes that fit in which gas takes more travel than
 *     give
 * @param timesGas how many times likelier such readings are of a soft brake in which gas leads than
 *     of one in which give leads, above 0
 * @param sound how far sound brakes of this kind go at the force of the first firm pull
 * @param tookMm throw at that pull, mm; empty where nobody measured one
 * @param makersMm throw by the maker's figure, mm, where it is on record
 * @param wouldTell the reading that would narrow it most, where it is unclear
 * @param fitted one brake that fits and lies in the middle of all that do, to draw its curve
 * @param findings symptoms as uncertain evidence
 * @param fits whether any credible brake gives such readings; if not, measure again
 * @param assumptions brake data that was filled in
 */
public record ThrowEstimate(
    Interval gasMl,
    Interval clearanceMm,
    Interval addedGiveMlPerMpa,
    Interval gasTravelMm,
    Interval giveTravelMm,
    Meaning meaning,
    double gasRatherThanGive,
    double timesGas,
    SoundThrow sound,
    OptionalDouble tookMm,
    OptionalDouble makersMm,
    Optional<NextReading> wouldTell,
    Fitted fitted,
    List<SoftFinding> findings,
    boolean fits,
    List<AssumedBrake.Assumption> assumptions) {

  /** Copies the lists. */
  public ThrowEstimate {
    findings = List.copyOf(findings);
    assumptions = List.copyOf(assumptions);
  }

  /** What the throws come to. */
  public enum Meaning {
    /** Gas takes the travel: a bleed can help. */
    GAS,
    /** Hose, pads or alignment give: a bleed will not help. */
    GIVE,
    /** Soft, but gas and give would feel alike in these readings. */
    GAS_OR_GIVE,
    /** Firm at its end, but long before contact: pads, pistons, adjustment. */
    CLEARANCE,
    /** As a sound brake. */
    SOUND,
    /** The readings leave it open. */
    OPEN
  }

  /** A reading worth taking. */
  public enum Reading {
    /** Throw when the pads just touch. */
    THROW_LIGHT,
    /** Throw at another, stated force. */
    THROW_AT_FORCE,
    /** Throw at a firm pull after five strokes. */
    THROW_AFTER_FIVE
  }

  /**
   * A reading worth taking next.
   *
   * @param reading which
   * @param forceN at what force, N; that of a firm pull where it does not matter
   * @param settles share of the doubt about gas and give that it is to take away, 0 to 1
   */
  public record NextReading(Reading reading, double forceN, double settles) {}

  private static final double TAIL = 0.025;
  private static final double ENOUGH = 0.8;
  private static final double MISFIT = 16;
  private static final double SMALL_MM = 0.5;

  /**
   * Reads the throws.
   *
   * @param assumed the brake, gaps filled
   * @param readings throws; at least one of light, firm or after five
   * @param ambientMpa absolute air pressure, MPa, see {@link Air#pressureMpa}
   * @param temperatureC temperature of the fluid, °C
   * @param limits limits of the symptoms
   * @return empty without any reading of throw; nothing is worked out then
   */
  public static Optional<ThrowEstimate> of(
      AssumedBrake assumed,
      Readings readings,
      double ambientMpa,
      double temperatureC,
      FeelLimits limits) {
    if (!readings.hasThrow()) {
      return Optional.empty();
    }
    return Optional.of(new Reader(assumed, readings, ambientMpa, temperatureC, limits).estimate());
  }

  /** One reading of the draws. */
  private static final class Reader {
    private final AssumedBrake assumed;
    private final Readings readings;
    private final FeelLimits limits;
    private final double temperatureC;
    private final ThrowDraws draws;
    private final int[] chosen;
    private final double forceN;
    private final SoundThrow sound;
    private final double[] gasTravelMm;
    private final double[] giveTravelMm;

    Reader(
        AssumedBrake assumed,
        Readings readings,
        double ambientMpa,
        double temperatureC,
        FeelLimits limits) {
      this.assumed = assumed;
      this.readings = readings;
      this.limits = limits;
      this.temperatureC = temperatureC;
      draws = new ThrowDraws(assumed, readings, ambientMpa, temperatureC);
      chosen = draws.chosen();
      forceN = readings.firmForceN();
      sound = SoundThrow.of(assumed, forceN, readings.scaleErrorShare(), temperatureC);
      gasTravelMm = column(i -> draws.gasTravelMm(i, forceN));
      giveTravelMm = column(i -> draws.giveTravelMm(i, forceN));
    }

    ThrowEstimate estimate() {
      double gasLeads = share(n -> soft(n) && gasTravelMm[n] > giveTravelMm[n]);
      double anySoft = share(this::soft);
      double gasRatherThanGive = anySoft > 0 ? gasLeads / anySoft : 0.5;
      double soft = softShare();
      Meaning meaning = meaning(soft, gasRatherThanGive);
      double[] gapMm = column(draws::gapMm);
      double[] gapSorted = sorted(gapMm);
      double[] gasSorted = sorted(gasTravelMm);
      double[] giveSorted = sorted(giveTravelMm);
      double[] distance = new double[chosen.length];
      addDistance(distance, gapMm, gapSorted);
      addDistance(distance, gasTravelMm, gasSorted);
      addDistance(distance, giveTravelMm, giveSorted);
      boolean unclear = meaning == Meaning.GAS_OR_GIVE || meaning == Meaning.OPEN;
      return new ThrowEstimate(
          interval(sorted(column(draws::gasMl)), draws.gasBelowZero()),
          interval(gapSorted, draws.gapBelowZero()),
          interval(sorted(column(draws::addedGive)), draws.addedGiveBelowZero()),
          interval(gasSorted, draws.gasBelowZero()),
          interval(giveSorted, draws.addedGiveBelowZero()),
          meaning,
          gasRatherThanGive,
          timesGas(gasRatherThanGive),
          sound,
          readings.firm().isEmpty()
              ? OptionalDouble.empty()
              : OptionalDouble.of(readings.firm().get(0).throwMm()),
          limits.makersThrowMm(),
          unclear ? wouldTell() : Optional.empty(),
          draws.fitted(nearest(distance), temperatureC),
          findings(soft),
          draws.misfit() < MISFIT,
          assumed.assumptions());
    }

    private double softTravelMm(int n) {
      return gasTravelMm[n] + giveTravelMm[n];
    }

    private boolean soft(int n) {
      return softTravelMm(n) > limits.softMm();
    }

    /**
     * Share of the fitting brakes that are soft. Two unknowns that cannot be negative make a small
     * sum rare before anything is read; dividing by the sum takes that back.
     */
    private double softShare() {
      double soft = 0;
      double all = 0;
      for (int n = 0; n < chosen.length; n++) {
        double weight = 1 / Math.max(SMALL_MM, softTravelMm(n));
        soft += soft(n) ? weight : 0;
        all += weight;
      }
      return soft / all;
    }

    /** Odds of gas against give with the readings, over those before any. */
    private double timesGas(double gasRatherThanGive) {
      double before = draws.gasRatherThanGiveBeforehand(forceN, limits.softMm());
      return odds(gasRatherThanGive) / odds(before);
    }

    /** No draw of so many is no proof that there is none: half a draw is held back. */
    private static double odds(double share) {
      double least = 0.5 / Spreads.POINTS;
      double held = Math.max(least, Math.min(1 - least, share));
      return held / (1 - held);
    }

    private Meaning meaning(double soft, double gasRatherThanGive) {
      if (readings.firm().isEmpty() && readings.afterFiveMm().isEmpty()) {
        return Meaning.OPEN; // nobody pulled: softness would come from nothing but the prior
      }
      if (soft > 0.5) {
        if (gasRatherThanGive > ENOUGH) {
          return Meaning.GAS;
        }
        return gasRatherThanGive < 1 - ENOUGH ? Meaning.GIVE : Meaning.GAS_OR_GIVE;
      }
      double[] contact = column(draws::contactThrowMm);
      double latestMm = limits.makersThrowMm().orElse(sound.contactMm().high());
      double longThrow = share(n -> contact[n] > latestMm);
      if (longThrow > 0.5) {
        return Meaning.CLEARANCE;
      }
      return soft < 1 - ENOUGH && longThrow < 1 - ENOUGH ? Meaning.SOUND : Meaning.OPEN;
    }

    private List<SoftFinding> findings(double soft) {
      List<SoftFinding> found = new ArrayList<>();
      double rulerMm = ThrowDraws.standardError(readings.rulerErrorMm());
      found.add(new SoftFinding("spongy-lever", soft, limits.softMm(), "mm"));
      throwMm()
          .ifPresent(
              mm ->
                  found.add(
                      SoftFinding.ofReading(
                          "long-throw",
                          mm,
                          rulerMm,
                          limits.makersThrowMm().orElse(sound.mm().high()),
                          "mm")));
      found.add(pumpsUp(rulerMm));
      readings
          .creepMm()
          .ifPresent(
              mm ->
                  found.add(
                      SoftFinding.ofReading("lever-sinks", mm, rulerMm, limits.creepMm(), "mm")));
      double swells = share(n -> giveTravelMm[n] > limits.softMm());
      found.add(new SoftFinding("hose-swells", swells, limits.softMm(), "mm"));
      return found;
    }

    /** The longest throw read at first pull. */
    private Optional<Double> throwMm() {
      double longest = readings.lightMm().orElse(Double.NEGATIVE_INFINITY);
      for (Readings.Pull pull : readings.firm()) {
        longest = Math.max(longest, pull.throwMm());
      }
      return Double.isInfinite(longest) ? Optional.empty() : Optional.of(longest);
    }

    private SoftFinding pumpsUp(double rulerMm) {
      if (readings.afterFiveMm().isPresent() && !readings.firm().isEmpty()) {
        double gainedMm = readings.firm().get(0).throwMm() - readings.afterFiveMm().getAsDouble();
        double errorMm = rulerMm * Math.sqrt(2);
        return SoftFinding.ofReading("pumps-up", gainedMm, errorMm, limits.pumpMm(), "mm");
      }
      double[] gained = column(i -> draws.pumpedMm(i, forceN));
      double pumps = share(n -> gained[n] >= limits.pumpMm());
      return new SoftFinding("pumps-up", pumps, limits.pumpMm(), "mm");
    }

    /** The reading that takes most doubt away of how far gas and give reach. */
    private Optional<NextReading> wouldTell() {
      List<NextReading> open = new ArrayList<>();
      if (readings.lightMm().isEmpty()) {
        double[] seen = column(draws::contactThrowMm);
        open.add(new NextReading(Reading.THROW_LIGHT, forceN, settles(seen)));
      }
      double hardN = Math.min(2.5 * forceN, Figures.HARDEST_STOP.value());
      for (double otherN : new double[] {0.3 * forceN, hardN}) {
        if (readings.firm().stream().noneMatch(pull -> near(pull.forceN(), otherN))) {
          double[] seen = column(i -> draws.nextThrowMm(i, otherN));
          open.add(new NextReading(Reading.THROW_AT_FORCE, otherN, settles(seen)));
        }
      }
      if (readings.afterFiveMm().isEmpty()) {
        double[] seen = column(i -> draws.nextAfterFiveMm(i, forceN));
        open.add(new NextReading(Reading.THROW_AFTER_FIVE, forceN, settles(seen)));
      }
      return open.stream().max(Comparator.comparingDouble(NextReading::settles));
    }

    private static boolean near(double oneN, double otherN) {
      return Math.abs(oneN - otherN) < 0.25 * Math.max(oneN, otherN);
    }

    /** Share of the variance of gas and give that a straight line through a reading explains. */
    private double settles(double[] seen) {
      double error = ThrowDraws.standardError(readings.rulerErrorMm());
      double seenVariance = covariance(seen, seen) + error * error;
      double explained = 0;
      double all = 0;
      for (double[] doubt : List.of(gasTravelMm, giveTravelMm)) {
        double both = covariance(doubt, seen);
        explained += both * both / seenVariance;
        all += covariance(doubt, doubt);
      }
      return all == 0 ? 0 : explained / all;
    }

    private static double covariance(double[] one, double[] other) {
      double oneMean = Arrays.stream(one).average().orElse(0);
      double otherMean = Arrays.stream(other).average().orElse(0);
      double sum = 0;
      for (int n = 0; n < one.length; n++) {
        sum += (one[n] - oneMean) * (other[n] - otherMean);
      }
      return sum / one.length;
    }

    /** Adds the squared distance of each value from the middle, in units of the spread. */
    private static void addDistance(double[] distance, double[] values, double[] sorted) {
      double median = at(sorted, 0.5);
      double spread = Math.max(at(sorted, 0.84) - at(sorted, 0.16), Double.MIN_NORMAL);
      for (int n = 0; n < distance.length; n++) {
        double off = (values[n] - median) / spread;
        distance[n] += off * off;
      }
    }

    /** The draw of least distance. */
    private int nearest(double[] distance) {
      int nearest = 0;
      for (int n = 1; n < distance.length; n++) {
        nearest = distance[n] < distance[nearest] ? n : nearest;
      }
      return chosen[nearest];
    }

    private double[] column(IntToDoubleFunction of) {
      double[] values = new double[chosen.length];
      for (int n = 0; n < values.length; n++) {
        values[n] = of.applyAsDouble(chosen[n]);
      }
      return values;
    }

    private double share(IntPredicate holds) {
      int count = 0;
      for (int n = 0; n < chosen.length; n++) {
        count += holds.test(n) ? 1 : 0;
      }
      return (double) count / chosen.length;
    }

    private static double[] sorted(double[] values) {
      double[] sorted = values.clone();
      Arrays.sort(sorted);
      return sorted;
    }

    /** Reaches down to zero unless the readings rule zero out. */
    private static Interval interval(double[] sorted, double belowZero) {
      double low = belowZero > TAIL / 2 ? 0 : at(sorted, TAIL);
      return new Interval(low, at(sorted, 0.5), at(sorted, 1 - TAIL));
    }

    private static double at(double[] sorted, double share) {
      return sorted[(int) (share * sorted.length)];
    }
  }
}
