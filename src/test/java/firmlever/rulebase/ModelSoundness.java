package firmlever.rulebase;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.casefile.CaseFile;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.DoubleStream;

/**
 * How sound the belief is on brakes drawn from the rule base itself: brake, use and job record of a
 * case on file, faults and symptoms thrown by the numbers the rules give for it. What is reckoned
 * is then compared with what was thrown. Prints the report when run.
 */
final class ModelSoundness {
  private ModelSoundness() {}

  private static final int BINS = 10;

  /**
   * Brakes with more symptoms told present are thrown again, to keep the reckoning short. That
   * depends on what is told and on nothing else, so it cannot make the belief right or wrong.
   */
  private static final int MOST_PRESENT = 14;

  /**
   * @param cases brakes thrown
   * @param calibrationError mean distance of confidence and share right of the first cause, in ten
   *     bins
   * @param calibrationFloor what a perfect model keeps below in 95 of 100 samples with the very
   *     same confidences: outcomes thrown anew from them. How these are spread matters as much as
   *     their number (references 11.12 gives 0.027 at 2000 cases for one spread)
   * @param spiegelhalterZ Spiegelhalter's Z of the first cause (Statistics in Medicine 5, 1986)
   * @param faultRatio number of faults reckoned over number thrown
   * @param logLoss nats a brake, over all causes
   * @param simpleLogLoss the same of simple Bayes with the same numbers
   * @param firstRight share in which the first cause is there, of the brakes with any fault
   */
  record Measured(
      int cases,
      double calibrationError,
      double calibrationFloor,
      double spiegelhalterZ,
      double faultRatio,
      double logLoss,
      double simpleLogLoss,
      double firstRight) {
    String spoken(String name) {
      return String.format(
          Locale.ROOT,
          "%s, %d brakes: calibration error %.3f (a perfect model: below %.3f), Spiegelhalter Z %+.2f, faults reckoned to thrown"
              + " %.3f, log loss %.2f nats a brake (simple Bayes %.2f), first cause right %.1f %%",
          name,
          cases,
          calibrationError,
          calibrationFloor,
          spiegelhalterZ,
          faultRatio,
          logLoss,
          simpleLogLoss,
          100 * firstRight);
    }
  }

  /** Networks of all kinds of brakes and job records on file. */
  static List<Network> networks() {
    List<Network> networks = new ArrayList<>();
    for (CaseFile file : Cases.all()) {
      networks.add(Cases.RULES.consult(file).network());
    }
    return networks;
  }

  /**
   * Throws brakes and reckons them.
   *
   * @param presentTold share of the symptoms present that are told
   * @param absentTold share of the symptoms absent that are told
   */
  static Measured measure(
      List<Network> networks, int cases, long seed, double presentTold, double absentTold) {
    Random random = new Random(seed);
    double[] confidence = new double[cases];
    boolean[] right = new boolean[cases];
    double zOver = 0;
    double zUnder = 0;
    double reckoned = 0;
    double thrown = 0;
    double loss = 0;
    double simpleLoss = 0;
    int faulty = 0;
    int faultyRight = 0;
    for (int round = 0; round < cases; ) {
      Network network = networks.get(random.nextInt(networks.size()));
      boolean[] there = causes(network, random);
      List<Observation> seen = told(network, there, random, presentTold, absentTold);
      if (seen.stream().filter(Observation::ratherPresent).count() > MOST_PRESENT) {
        continue;
      }
      round++;
      double[] posterior = Inference.solve(network, seen).posterior();
      double[] simple = simpleBayes(network, seen);
      int first = 0;
      int faults = 0;
      for (int i = 0; i < posterior.length; i++) {
        first = posterior[i] > posterior[first] ? i : first;
        faults += there[i] ? 1 : 0;
        reckoned += posterior[i];
        loss -= Math.log(there[i] ? posterior[i] : 1 - posterior[i]);
        simpleLoss += Math.log1p(Math.exp(there[i] ? -simple[i] : simple[i]));
      }
      thrown += faults;
      double p = posterior[first];
      int hit = there[first] ? 1 : 0;
      faulty += faults > 0 ? 1 : 0;
      faultyRight += hit;
      confidence[round - 1] = p;
      right[round - 1] = there[first];
      zOver += (hit - p) * (1 - 2 * p);
      zUnder += (1 - 2 * p) * (1 - 2 * p) * p * (1 - p);
    }
    return new Measured(
        cases,
        calibrationError(confidence, right),
        calibrationFloor(confidence, random),
        zOver / Math.sqrt(zUnder),
        reckoned / thrown,
        loss / cases,
        simpleLoss / cases,
        faultyRight / (double) faulty);
  }

  private static double calibrationError(double[] confidence, boolean[] right) {
    double[] gap = new double[BINS];
    for (int k = 0; k < confidence.length; k++) {
      gap[Math.min(BINS - 1, (int) (confidence[k] * BINS))] += confidence[k] - (right[k] ? 1 : 0);
    }
    return DoubleStream.of(gap).map(Math::abs).sum() / confidence.length;
  }

  private static double calibrationFloor(double[] confidence, Random random) {
    double[] errors = new double[1000];
    boolean[] right = new boolean[confidence.length];
    for (int sample = 0; sample < errors.length; sample++) {
      for (int k = 0; k < right.length; k++) {
        right[k] = random.nextDouble() < confidence[k];
      }
      errors[sample] = calibrationError(confidence, right);
    }
    Arrays.sort(errors);
    return errors[(int) (0.95 * errors.length)];
  }

  private static boolean[] causes(Network network, Random random) {
    boolean[] there = new boolean[network.causes().size()];
    for (int i = 0; i < there.length; i++) {
      there[i] = random.nextDouble() < network.prior(i);
    }
    return there;
  }

  private static List<Observation> told(
      Network network, boolean[] there, Random random, double presentTold, double absentTold) {
    List<Observation> seen = new ArrayList<>();
    for (int j = 0; j < network.symptoms().size(); j++) {
      double absent = 1 - network.background()[j];
      for (int i = 0; i < there.length; i++) {
        absent *= there[i] ? 1 - network.strength()[i][j] : 1;
      }
      boolean present = random.nextDouble() >= absent;
      if (random.nextDouble() < (present ? presentTold : absentTold)) {
        seen.add(present ? Observation.present(j) : Observation.absent(j));
      }
    }
    return seen;
  }

  /** Log odds of each cause as if each symptom spoke for itself, whatever else is there. */
  private static double[] simpleBayes(Network network, List<Observation> seen) {
    double[] logOdds = network.priorLogOdds().clone();
    for (Observation each : seen) {
      int j = each.symptom();
      double absent = 1 - network.background()[j];
      for (int i = 0; i < logOdds.length; i++) {
        absent *= 1 - network.prior(i) * network.strength()[i][j];
      }
      for (int i = 0; i < logOdds.length; i++) {
        double without = absent / (1 - network.prior(i) * network.strength()[i][j]);
        double with = without * (1 - network.strength()[i][j]);
        logOdds[i] +=
            each.ifPresent() > 0 ? Math.log((1 - with) / (1 - without)) : Math.log(with / without);
      }
    }
    return logOdds;
  }

  /** Prints the report: two plain samples, then one in which what is there is told more often. */
  public static void main(String[] args) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    List<Network> networks = networks();
    out.println(measure(networks, 2000, 1, 0.4, 0.4).spoken("two symptoms in five told"));
    out.println(measure(networks, 1000, 1, 1, 1).spoken("all symptoms told"));
    out.println(measure(networks, 2000, 1, 0.8, 0.5).spoken("present 0.8 told, absent 0.5"));
  }
}
