package firmlever.hydraulics;

import java.util.Arrays;

/**
 * How far the levers of sound brakes of one kind go: no gas, no added give, the gap of a sound
 * caliper, everything else drawn from what is known of the brake. Holds 95 of 100 sound brakes.
 *
 * @param mm throw to the firm pull, mm at the tip; the ends leave 2.5 of 100 out on either side
 * @param contactMm the same when the pads just touch
 * @param forceN force of the pull, N
 */
public record SoundThrow(Interval mm, Interval contactMm, double forceN) {
  // Rows of the fixed points.
  private static final int LEVER = 0;
  private static final int AREA = 1;
  private static final int DEAD = 2;
  private static final int GAP = 3;
  private static final int GIVE = 4;
  private static final int FORCE = 5;
  private static final double[][] SCORE = Spreads.normal(Spreads.uniform(FORCE + 1));

  private static final double[] GAP_MM =
      Arrays.stream(SCORE[GAP])
          .map(score -> Math.exp(Figures.SPREAD_OF_CLEARANCE.value() * score))
          .map(factor -> Figures.DEFAULT_CLEARANCE.value() * factor)
          .toArray();

  private static final double TAIL = 0.025;

  /**
   * Works the range out.
   *
   * @param assumed the brake, gaps filled
   * @param forceN force of the pull as stated, N, above 0
   * @param scaleErrorShare how far that force may be off either way, as a share
   * @param temperatureC temperature of the fluid, °C
   */
  public static SoundThrow of(
      AssumedBrake assumed, double forceN, double scaleErrorShare, double temperatureC) {
    Brake middle = assumed.middle();
    double ownGive = middle.giveMlPerMpa(temperatureC);
    double forceError = ThrowDraws.standardError(scaleErrorShare);
    double[] firmMm = new double[Spreads.POINTS];
    double[] contactMm = new double[Spreads.POINTS];
    for (int i = 0; i < Spreads.POINTS; i++) {
      double perMl = middle.throwMmPerMl() * Math.exp(assumed.leverSpread() * SCORE[LEVER][i]);
      double areaMm2 = middle.pistonAreaMm2() * Math.exp(assumed.areaSpread() * SCORE[AREA][i]);
      double give = Math.max(0, 1 + assumed.giveSpread() * SCORE[GIVE][i]);
      double pullN = forceN * Math.exp(forceError * SCORE[FORCE][i]);
      double pressureMpa = pullN * perMl / 1000;
      double deadMm = ThrowDraws.deadMm(middle, SCORE[DEAD][i]);
      double closingMm = deadMm + perMl * areaMm2 * GAP_MM[i] / 1000;
      double yieldMm = give * (perMl * ownGive * pressureMpa + middle.bladeFlexMmPerN() * pullN);
      double closed = Math.min(1, pressureMpa / middle.contactPressureMpa());
      firmMm[i] = closed * closingMm + yieldMm;
      contactMm[i] = closingMm + yieldMm * middle.contactPressureMpa() / pressureMpa;
    }
    return new SoundThrow(interval(firmMm), interval(contactMm), forceN);
  }

  private static Interval interval(double[] mm) {
    Arrays.sort(mm);
    return new Interval(at(mm, TAIL), at(mm, 0.5), at(mm, 1 - TAIL));
  }

  private static double at(double[] sorted, double share) {
    return sorted[(int) (share * sorted.length)];
  }
}
