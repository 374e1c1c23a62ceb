package firmlever.comeback;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.casefile.CaseFile;
import firmlever.comeback.Tally.CauseRule;
import firmlever.comeback.Tally.Judged;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RatePrior;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Expectations;
import firmlever.rulebase.BrakeModel;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.numbers.gamma.LogBeta;

/**
 * What the closed cases say about how common each cause is: a proposal for a person to read, never
 * applied by itself.
 *
 * <p>For each cause the rules expect a share of the visits, its history counted in; the visits show
 * one. The expected share stands as a beta distribution that weighs {@link #weight} visits, and the
 * visits are added to it. How much it weighs is learned from all causes together: where this shop's
 * causes lie close to the elicited shares, a single cause that strays is drawn back towards them.
 *
 * @param weight how many visits the elicited numbers are worth
 * @param visits learned from
 * @param rates one for each rule that says how common a cause is
 * @param frequencies how often a cause showed a symptom, where the visits contradict the rules
 * @param before calibration on the held-back visits with the rules as they are
 * @param after with the proposal
 * @param checked what it would change in the case files that test the rules
 */
public record Learning(
    double weight,
    long visits,
    List<Rate> rates,
    List<Frequency> frequencies,
    Calibration before,
    Calibration after,
    List<Changed> checked,
    long casesChecked) {

  /** However far a shop lies from the elicited shares, they are worth this many visits. */
  private static final double LEAST_WEIGHT = 200;

  private static final double LARGEST_WEIGHT = 5000;
  private static final int GRID = 60;

  /** One proposal moves a base rate at most so many times up or down: the next may go on. */
  private static final double AT_MOST_TIMES = 5;

  private static final double LARGEST_PER_100 = 60;

  /** A frequency is held against its rule only where it was looked for this often. */
  private static final int LOOKED_FOR = 30;

  /**
   * A base rate.
   *
   * @param rule that says it now
   * @param now of 100 brakes
   * @param proposed of 100 brakes
   * @param seen visits with the cause
   * @param expected visits with it that the rules expect, history counted in
   * @param range of 100 brakes: 95 % interval of the proposed one
   */
  public record Rate(
      String cause,
      String rule,
      double now,
      double proposed,
      long visits,
      long seen,
      double expected,
      Interval range) {
    /** Whether the proposal is worth a rule: the present number lies outside its interval. */
    public boolean differs() {
      return !range.contains(now);
    }
  }

  /** How often a cause that was there alone showed a symptom, against what the rules say. */
  public record Frequency(
      String cause, String symptom, Proportion seen, double now, Interval range) {}

  /** A case file that would meet its expectation no more, or would meet it only then. */
  public record Changed(String id, boolean metBefore, List<String> missedAfter) {}

  /** Learns from the tally, and tries the proposal on held-back visits and on these case files. */
  public static Learning from(Tally tally, Diagnostician diagnostician, List<CaseFile> tests) {
    double weight = weight(tally);
    List<Rate> rates = new ArrayList<>();
    long visits = 0;
    for (Map.Entry<CauseRule, Tally.CauseTally> each : tally.causes.entrySet()) {
      visits = Math.max(visits, each.getValue().visits);
      rates.add(rate(each.getKey(), each.getValue(), weight));
    }
    Map<String, Double> shifts = new HashMap<>();
    rates.stream()
        .filter(Rate::differs)
        .forEach(r -> shifts.put(r.rule, logOdds(r.proposed) - logOdds(r.now)));
    Calibration.Counter before = new Calibration.Counter(10);
    Calibration.Counter after = new Calibration.Counter(10);
    for (Judged judged : tally.heldBack.values()) {
      Belief belief = diagnostician.belief(judged.file());
      judge(belief.model().network(), belief.posterior(), judged, before);
      Network shifted = shifted(belief.model(), shifts);
      judge(shifted, Inference.solve(shifted, belief.model().observations()), judged, after);
    }
    List<Changed> changed = new ArrayList<>();
    long checked = 0;
    for (CaseFile test : tests) {
      if (test.expectation().isEmpty()) {
        continue;
      }
      checked++;
      BrakeModel model = diagnostician.belief(test).model();
      List<String> missedBefore = missed(diagnostician, test, model);
      List<String> missedAfter = missed(diagnostician, test, model.with(shifted(model, shifts)));
      if (missedBefore.isEmpty() != missedAfter.isEmpty()) {
        changed.add(new Changed(test.id(), missedBefore.isEmpty(), missedAfter));
      }
    }
    return new Learning(
        weight,
        visits,
        List.copyOf(rates),
        frequencies(tally, diagnostician),
        before.calibration(),
        after.calibration(),
        List.copyOf(changed),
        checked);
  }

  private static List<String> missed(Diagnostician diagnostician, CaseFile test, BrakeModel model) {
    Diagnosis diagnosis = diagnostician.diagnose(test, model, Options.WITHOUT_DRAWS);
    return Expectations.missed(test.expectation().orElseThrow(), diagnosis);
  }

  private static void judge(
      Network network, Inference.Posterior posterior, Judged judged, Calibration.Counter into) {
    for (int i = 0; i < network.causes().size(); i++) {
      into.add(
          Math.max(0, Math.min(1, posterior.posterior()[i])),
          judged.truth().contains(network.causes().get(i)));
    }
  }

  /** The weight under which the visits are likeliest, all causes taken together. */
  private static double weight(Tally tally) {
    double best = LEAST_WEIGHT;
    double highest = Double.NEGATIVE_INFINITY;
    for (int step = 0; step <= GRID; step++) {
      double weight = LEAST_WEIGHT * Math.pow(LARGEST_WEIGHT / LEAST_WEIGHT, (double) step / GRID);
      double sum = 0;
      for (Tally.CauseTally each : tally.causes.values()) {
        double mean = each.expected.value() / each.visits;
        double a = weight * mean;
        double b = weight * (1 - mean);
        sum += LogBeta.value(a + each.seen, b + each.visits - each.seen) - LogBeta.value(a, b);
      }
      if (sum > highest) {
        highest = sum;
        best = weight;
      }
    }
    return best;
  }

  private static Rate rate(CauseRule key, Tally.CauseTally counts, double weight) {
    double mean = counts.expected.value() / counts.visits;
    RatePrior learned =
        new RatePrior(weight * mean, weight * (1 - mean))
            .after(new Proportion(counts.seen, counts.visits));
    Interval range = learned.interval(0.95);
    return new Rate(
        key.cause(),
        key.rule(),
        counts.per100,
        moved(counts.per100, mean, learned.mean()),
        counts.visits,
        counts.seen,
        counts.expected.value(),
        new Interval(
            moved(counts.per100, mean, range.low()), moved(counts.per100, mean, range.high())));
  }

  /** The base rate moved as far on the log odds as the share of the visits was. */
  private static double moved(double per100, double mean, double share) {
    double odds =
        Math.exp(logOdds(per100) + Math.log(share / (1 - share)) - Math.log(mean / (1 - mean)));
    double moved = Math.min(LARGEST_PER_100, 100 * odds / (1 + odds));
    return Math.max(per100 / AT_MOST_TIMES, Math.min(per100 * AT_MOST_TIMES, moved));
  }

  private static double logOdds(double per100) {
    return Math.log(per100 / (100 - per100));
  }

  private static Network shifted(BrakeModel model, Map<String, Double> shifts) {
    Network network = model.network();
    double[] priors = network.priorLogOdds().clone();
    for (int i = 0; i < priors.length; i++) {
      String rule = model.bases().get(network.causes().get(i)).said().rule();
      priors[i] += shifts.getOrDefault(rule, 0.0);
    }
    return new Network(
        network.causes(), priors, network.symptoms(), network.background(), network.strength());
  }

  private static List<Frequency> frequencies(Tally tally, Diagnostician diagnostician) {
    List<Frequency> found = new ArrayList<>();
    if (tally.heldBack.isEmpty()) {
      return found;
    }
    Network network =
        diagnostician.belief(tally.heldBack.firstEntry().getValue().file()).model().network();
    tally.links.forEach(
        (link, seen) -> {
          int i = network.causes().indexOf(link.cause());
          int j = network.symptoms().indexOf(link.symptom());
          if (i < 0 || j < 0 || seen.trials() < LOOKED_FOR) {
            return;
          }
          double now = 1 - (1 - network.background()[j]) * (1 - network.strength()[i][j]);
          // The seven words are about 0.15 to 0.25 apart: a smaller gap is no other word.
          Interval range = seen.wilson(0.95);
          if (now < range.low() - 0.1 || now > range.high() + 0.1) {
            found.add(new Frequency(link.cause(), link.symptom(), seen, now, range));
          }
        });
    return List.copyOf(found);
  }
}
