package firmlever.hydraulics;

import java.util.Arrays;
import java.util.List;

/**
 * Brakes that fit the readings, drawn in fixed order.
 *
 * <p>Given lever, caliper area, contact pressure, dead travel, true force and what pumping takes
 * up, each throw is linear in gas, added give, own give and gap. So the former are drawn from their
 * spreads, and for each draw the latter four from the normal distribution that the readings leave,
 * held above zero one after the other (the Geweke-Hajivassiliou-Keane method); the draw's weight is
 * how well it explains the readings.
 */
final class ThrowDraws {
  // Rows of the fixed points.
  private static final int LEVER = 0;
  private static final int CONTACT = 1;
  private static final int DEAD = 2;
  private static final int AREA = 3;
  private static final int SCALE = 4;
  private static final int PULL = 5; // two of them, taken in turn
  private static final int GAP_PUMPED = 7;
  private static final int GAS_PUMPED = 8;
  private static final int LINEAR = 9; // four of them

  /** Places of the linear unknowns; the last is drawn first, so gas gets the truest draw. */
  private static final int GAP = 0;

  private static final int OWN = 1;
  private static final int ADDED = 2;
  private static final int GAS = 3;
  private static final int UNKNOWNS = 4;

  /** Four of these still multiply without vanishing. */
  private static final double LEAST_SHARE = 1e-70;

  private static final Pumping NO_PUMPING = new Pumping(0, 0);
  private static final double[][] UNIFORM = Spreads.uniform(LINEAR + UNKNOWNS);
  private static final double[][] SCORE = Spreads.normal(UNIFORM);

  private final AssumedBrake assumed;
  private final Readings readings;
  private final double ambientMpa;
  private final double ownGive;
  private final double[] best = new double[UNKNOWNS];
  private final double[] spread = new double[UNKNOWNS];
  private final double[][] drawn = new double[UNKNOWNS][Spreads.POINTS];
  private final double[][] shareBelowZero = new double[UNKNOWNS][Spreads.POINTS];
  private final Start[] starts = new Start[Spreads.POINTS];
  private final double[] weight = new double[Spreads.POINTS];
  private final Fit fit;
  private double bestFit = Double.NEGATIVE_INFINITY;

  /** Works all draws. */
  ThrowDraws(AssumedBrake assumed, Readings readings, double ambientMpa, double temperatureC) {
    this.assumed = assumed;
    this.readings = readings;
    this.ambientMpa = ambientMpa;
    this.ownGive = assumed.middle().giveMlPerMpa(temperatureC);
    best[GAP] = Figures.MOST_CLEARANCE.at(0);
    spread[GAP] = Figures.MOST_CLEARANCE.at(1);
    best[OWN] = 1;
    spread[OWN] = assumed.giveSpread();
    spread[ADDED] = Figures.MOST_GIVE.value() * ownGive;
    spread[GAS] = Figures.MOST_GAS.value();
    fit = new Fit();
    double greatest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < Spreads.POINTS; i++) {
      weight[i] = logWeight(i);
      greatest = Math.max(greatest, weight[i]);
    }
    double sum = 0;
    for (int i = 0; i < Spreads.POINTS; i++) {
      weight[i] = Math.exp(weight[i] - greatest);
      sum += weight[i];
    }
    for (int i = 0; i < Spreads.POINTS; i++) {
      weight[i] /= sum;
    }
  }

  /**
   * How far the readings lie from the nearest credible brake, as a chi-square: about the number of
   * readings when all is well.
   */
  double misfit() {
    return -2 * bestFit;
  }

  /** Numbers of the draws, each as often as its weight says, in order. */
  int[] chosen() {
    int[] chosen = new int[Spreads.POINTS];
    double reached = weight[0];
    int i = 0;
    for (int n = 0; n < Spreads.POINTS; n++) {
      double aim = (n + 0.5) / Spreads.POINTS;
      while (reached < aim && i < Spreads.POINTS - 1) {
        i++;
        reached += weight[i];
      }
      chosen[n] = i;
    }
    return chosen;
  }

  double gasMl(int i) {
    return drawn[GAS][i];
  }

  double addedGive(int i) {
    return drawn[ADDED][i];
  }

  double gapMm(int i) {
    return drawn[GAP][i];
  }

  /** Brake and condition of draw i. */
  Fitted fitted(int i, double temperatureC) {
    Start start = starts[i];
    Brake middle = assumed.middle();
    Brake brake =
        new Brake(
            middle.leverBoreMm(),
            start.throwPerMl() * Brake.areaMm2(middle.leverBoreMm()) / 1000,
            start.areaMm2(),
            middle.hoseLengthMm(),
            middle.hoseBoreMm(),
            middle.hoseSoftness(),
            middle.fluid(),
            middle.fixedVolumeMl(),
            middle.pistonDepthMm(),
            middle.caliperGiveMmPerMpa(),
            middle.bladeFlexMmPerN() * drawn[OWN][i],
            start.deadMm(),
            start.contactMpa());
    double give = drawn[OWN][i] * ownGive + drawn[ADDED][i];
    double added = give - brake.giveMlPerMpa(temperatureC);
    Condition condition =
        new Condition(drawn[GAS][i], drawn[GAP][i], added, 0, temperatureC, ambientMpa);
    return new Fitted(brake, condition);
  }

  /** Share of the readings' say that would put the gas below zero, were that possible. */
  double gasBelowZero() {
    return belowZero(GAS);
  }

  double addedGiveBelowZero() {
    return belowZero(ADDED);
  }

  double gapBelowZero() {
    return belowZero(GAP);
  }

  private double belowZero(int unknown) {
    double sum = 0;
    for (int i = 0; i < Spreads.POINTS; i++) {
      sum += weight[i] * shareBelowZero[unknown][i];
    }
    return sum;
  }

  /** Travel that gas takes between contact and a firm pull in draw i, mm at the tip. */
  double gasTravelMm(int i, double forceN) {
    return gasTravelMm(starts[i], drawn[GAS][i], forceN);
  }

  private double gasTravelMm(Start start, double gasMl, double forceN) {
    double squeezed = gasShare(pressureMpa(start, forceN)) - gasShare(start.contactMpa());
    return start.throwPerMl() * gasMl * squeezed;
  }

  /** Travel that added give takes up to a firm pull in draw i, mm at the tip. */
  double giveTravelMm(int i, double forceN) {
    return giveTravelMm(starts[i], drawn[ADDED][i], forceN);
  }

  private static double giveTravelMm(Start start, double addedGive, double forceN) {
    return start.throwPerMl() * addedGive * pressureMpa(start, forceN);
  }

  /**
   * Share of the soft brakes in which gas takes more travel than give, before anything is read.
   *
   * @param softMm travel of gas and give together above which a brake is soft, mm
   */
  double gasRatherThanGiveBeforehand(double forceN, double softMm) {
    int soft = 0;
    int gasLeads = 0;
    for (int i = 0; i < Spreads.POINTS; i++) {
      double gasMl = spread[GAS] * Math.abs(SCORE[LINEAR + GAS][i]);
      double addedGive = spread[ADDED] * Math.abs(SCORE[LINEAR + ADDED][i]);
      double gasMm = gasTravelMm(starts[i], gasMl, forceN);
      double giveMm = giveTravelMm(starts[i], addedGive, forceN);
      if (gasMm + giveMm > softMm) {
        soft++;
        gasLeads += gasMm > giveMm ? 1 : 0;
      }
    }
    return soft == 0 ? 0.5 : (double) gasLeads / soft;
  }

  /** Throw when the pads touch in draw i, mm. */
  double contactThrowMm(int i) {
    Start start = starts[i];
    return throwMm(i, start, start.contactMpa(), NO_PUMPING);
  }

  /** Throw at one more pull of a stated force in draw i, the scale as wrong as it is there, mm. */
  double nextThrowMm(int i, double statedN) {
    Start start = starts[i];
    double forceN = trueForceN(statedN, readings.firm().size(), i);
    return throwMm(i, start, pressureMpa(start, forceN), NO_PUMPING);
  }

  /** The same, after five strokes. */
  double nextAfterFiveMm(int i, double statedN) {
    Start start = starts[i];
    double forceN = trueForceN(statedN, 1, i);
    return throwMm(i, start, pressureMpa(start, forceN), start.pumping());
  }

  /** What five strokes take off the throw at a firm pull in draw i, mm. */
  double pumpedMm(int i, double forceN) {
    Start start = starts[i];
    double pressureMpa = pressureMpa(start, forceN);
    return throwMm(i, start, pressureMpa, NO_PUMPING)
        - throwMm(i, start, pressureMpa, start.pumping());
  }

  private double throwMm(int i, Start start, double pressureMpa, Pumping pumping) {
    double[] slope = new double[UNKNOWNS];
    double sum = slopes(start, pressureMpa, pumping, slope);
    for (int a = 0; a < UNKNOWNS; a++) {
      sum += slope[a] * drawn[a][i];
    }
    return sum;
  }

  /** The state of one draw that is not linear in the throw. */
  private record Start(
      double throwPerMl, double contactMpa, double deadMm, double areaMm2, Pumping pumping) {}

  private Start start(int i) {
    Brake middle = assumed.middle();
    return new Start(
        middle.throwMmPerMl() * Math.exp(assumed.leverSpread() * SCORE[LEVER][i]),
        middle.contactPressureMpa() * Math.exp(Figures.SPREAD_OF_START.at(0) * SCORE[CONTACT][i]),
        deadMm(middle, SCORE[DEAD][i]),
        middle.pistonAreaMm2() * Math.exp(assumed.areaSpread() * SCORE[AREA][i]),
        Pumping.between(UNIFORM[GAP_PUMPED][i], UNIFORM[GAS_PUMPED][i]));
  }

  /** Travel before the return port shuts, so many standard deviations from the usual, mm. */
  static double deadMm(Brake middle, double score) {
    return Math.max(0, middle.deadTravelMm() + Figures.SPREAD_OF_START.at(1) * score);
  }

  /**
   * Force that was truly there in pull number n: part of the error is the scale's, part the hand's.
   */
  private double trueForceN(double forceN, int n, int i) {
    double shared = 0.8 * SCORE[SCALE][i];
    double own = 0.6 * SCORE[PULL + n % 2][i];
    return forceN * Math.exp(standardError(readings.scaleErrorShare()) * (shared + own));
  }

  /** An error of so much either way, all values alike likely, as a standard deviation. */
  static double standardError(double eitherWay) {
    return eitherWay / Math.sqrt(3);
  }

  private double logWeight(int i) {
    Start start = start(i);
    starts[i] = start;
    fit.clear();
    if (readings.lightMm().isPresent()) {
      fit.add(readings.lightMm().getAsDouble(), start, start.contactMpa(), NO_PUMPING);
    }
    List<Readings.Pull> firm = readings.firm();
    for (int n = 0; n < firm.size(); n++) {
      double forceN = trueForceN(firm.get(n).forceN(), n, i);
      fit.add(firm.get(n).throwMm(), start, pressureMpa(start, forceN), NO_PUMPING);
    }
    if (readings.afterFiveMm().isPresent()) {
      double forceN = trueForceN(readings.firmForceN(), 1, i);
      double pressureMpa = pressureMpa(start, forceN);
      fit.add(readings.afterFiveMm().getAsDouble(), start, pressureMpa, start.pumping());
    }
    return fit.draw(i);
  }

  private static double pressureMpa(Start start, double forceN) {
    return forceN * start.throwPerMl() / 1000;
  }

  private double gasShare(double pressureMpa) {
    return TrappedGas.takenUpMl(1, pressureMpa, ambientMpa);
  }

  /**
   * Sets how much each unknown moves the throw at a pressure, and returns the throw without them.
   */
  private double slopes(Start start, double pressureMpa, Pumping pumping, double[] slope) {
    double perMl = start.throwPerMl();
    double forceN = pressureMpa * 1000 / perMl;
    double closed = Math.min(1, pressureMpa / start.contactMpa());
    double gapMmThrow = closed * perMl * start.areaMm2() / 1000;
    slope[GAP] = gapMmThrow * (1 - pumping.gapShare());
    slope[OWN] = perMl * ownGive * pressureMpa + assumed.middle().bladeFlexMmPerN() * forceN;
    slope[ADDED] = perMl * pressureMpa;
    slope[GAS] =
        perMl * (gasShare(pressureMpa) - pumping.gasShare() * gasShare(start.contactMpa()));
    double followedMm = pumping.gapShare() * Figures.DEFAULT_CLEARANCE.value();
    return closed * start.deadMm() + gapMmThrow * followedMm;
  }

  /** Least squares of one draw, with the spreads as prior. */
  private final class Fit {
    private final double[][] precision = new double[UNKNOWNS][UNKNOWNS];
    private final double[] pull = new double[UNKNOWNS];
    private final double[] slope = new double[UNKNOWNS];
    private final double perVariance;
    private double squares;

    Fit() {
      double error = standardError(readings.rulerErrorMm());
      perVariance = 1 / (error * error);
    }

    void clear() {
      squares = 0;
      for (int a = 0; a < UNKNOWNS; a++) {
        Arrays.fill(precision[a], 0);
        precision[a][a] = 1 / (spread[a] * spread[a]);
        pull[a] = best[a] * precision[a][a];
        squares += best[a] * pull[a];
      }
    }

    void add(double throwMm, Start start, double pressureMpa, Pumping pumping) {
      double restMm = throwMm - slopes(start, pressureMpa, pumping, slope);
      squares += restMm * restMm * perVariance;
      for (int a = 0; a < UNKNOWNS; a++) {
        pull[a] += slope[a] * restMm * perVariance;
        for (int b = 0; b <= a; b++) {
          precision[a][b] += slope[a] * slope[b] * perVariance;
        }
      }
    }

    /** Draws the unknowns and returns the logarithm of the draw's weight. */
    double draw(int i) {
      double log = -solve() / 2;
      double cut = 1;
      double near = 1;
      for (int a = UNKNOWNS - 1; a >= 0; a--) {
        double sum = pull[a];
        for (int c = a + 1; c < UNKNOWNS; c++) {
          sum -= precision[c][a] * drawn[c][i];
        }
        double sd = 1 / precision[a][a];
        double mean = sum * sd;
        double above = Math.max(LEAST_SHARE, Normal.below(mean / sd));
        shareBelowZero[a][i] = 1 - above;
        near *= Math.min(1, 2 * above);
        cut *= above * sd;
        drawn[a][i] = Normal.drawAboveZero(mean, sd, above, UNIFORM[LINEAR + a][i]);
      }
      bestFit = Math.max(bestFit, log + Math.log(near));
      return log + Math.log(cut);
    }

    /** Cholesky factor in place and forward solution in pull; returns the least sum of squares. */
    private double solve() {
      double least = squares;
      for (int a = 0; a < UNKNOWNS; a++) {
        for (int b = 0; b <= a; b++) {
          double sum = precision[a][b];
          for (int c = 0; c < b; c++) {
            sum -= precision[a][c] * precision[b][c];
          }
          precision[a][b] = a == b ? Math.sqrt(sum) : sum / precision[b][b];
        }
        double sum = pull[a];
        for (int c = 0; c < a; c++) {
          sum -= precision[a][c] * pull[c];
        }
        pull[a] = sum / precision[a][a];
        least -= pull[a] * pull[a];
      }
      return least;
    }
  }
}
