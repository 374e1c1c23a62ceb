package firmlever.comeback;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.casefile.CaseFile;
import firmlever.comeback.Tally.CauseRule;
import firmlever.comeback.Tally.Judged;
import firmlever.comeback.statistics.Calibration;
import firmlever.comeback.statistics.ExactTest;
import firmlever.comeback.statistics.FalseDiscovery;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RatioPrior;
import firmlever.comeback.statistics.RatioPrior.Count;
import firmlever.comeback.statistics.UnitSum;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnostician;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.diagnosis.Diagnostician.Options;
import firmlever.diagnosis.Expectations;
import firmlever.rulebase.BrakeModel;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * What the closed cases say about how common each cause is: a proposal for a person to read, never
 * applied by itself.
 *
 * <p>For each cause the rules expect a share of the visits, its history counted in; the visits show
 * one. By what factor the two differ is a gamma distribution of mean 1, and the visits are added to
 * it: a cause with little exposure stays near its elicited share, seen or never seen. How much that
 * distribution is worth is learned from all causes together. A recorder whose share of a cause lies
 * off that of the others by more than chance is left out for that cause: one person's habit of
 * calling everything air must not become a base rate.
 *
 * @param weight how many expected cases of each cause the elicited numbers are worth
 * @param visits learned from
 * @param rates one for each rule that says how common a cause is, those that change most first
 * @param leftOut recorders whose word on a cause was not learned from
 * @param frequencies how often a cause showed a symptom, where the visits contradict the rules
 * @param before calibration on the held-back visits with the rules as they are
 * @param after with the proposal
 * @param checked what it would change in the case files that test the rules
 */
public record Learning(
    double weight,
    long visits,
    List<Rate> rates,
    List<LeftOut> leftOut,
    List<Frequency> frequencies,
    Calibration before,
    Calibration after,
    List<Changed> checked,
    long casesChecked) {

  /** The share of the recorders left out that may be so by chance. */
  private static final double FALSE_SHARE = 0.05;

  /** One proposal moves a base rate at most so many times up or down: the next may go on. */
  private static final double AT_MOST_TIMES = 5;

  private static final double LARGEST_PER_100 = 60;

  /** A frequency is held against its rule only where it was looked for this often. */
  private static final int LOOKED_FOR = 30;

  /**
   * A recorder whose word on a cause was not learned from.
   *
   * @param seen visits of the recorder with the cause
   * @param expected of them by the rules
   * @param others how many times the expected number all others together saw
   */
  public record LeftOut(String cause, String recorder, long seen, double expected, double others) {}

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
    List<LeftOut> leftOut = leftOut(tally);
    Map<CauseRule, Counted> counted = counted(tally, leftOut);
    RatioPrior prior = RatioPrior.of(counted.values().stream().map(Counted::count).toList());
    List<Rate> rates = new ArrayList<>();
    counted.forEach(
        (key, counts) -> rates.add(rate(key, tally.causes.get(key).per100, counts, prior)));
    rates.sort(
        Comparator.comparingDouble((Rate r) -> -Math.abs(r.proposed - r.now))
            .thenComparing(Rate::rule));
    long visits =
        tally.causes.values().stream()
            .mapToLong(cause -> cause.byRecorder.values().stream().mapToLong(c -> c.visits).sum())
            .max()
            .orElse(0);
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
        prior.events(),
        visits,
        List.copyOf(rates),
        leftOut,
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

  /** What was learned from of one cause. */
  private record Counted(long visits, Count count) {}

  private static Map<CauseRule, Counted> counted(Tally tally, List<LeftOut> leftOut) {
    Set<String> out = new HashSet<>();
    leftOut.forEach(each -> out.add(each.cause + "/" + each.recorder));
    Map<CauseRule, Counted> counted = new TreeMap<>();
    tally.causes.forEach(
        (key, cause) -> {
          long visits = 0;
          long seen = 0;
          UnitSum expected = UnitSum.ZERO;
          for (Map.Entry<String, Tally.CauseCount> each : cause.byRecorder.entrySet()) {
            if (!out.contains(key.cause() + "/" + each.getKey())) {
              visits += each.getValue().visits;
              seen += each.getValue().seen;
              expected = expected.plus(each.getValue().expected);
            }
          }
          if (expected.value() > 0) {
            counted.put(key, new Counted(visits, new Count(seen, expected.value())));
          }
        });
    return counted;
  }

  /**
   * Recorders whose share of a cause lies off the others' by more than chance, one for each cause
   * at most: the one who lies off most, as in the others' company he would make them look odd.
   */
  private static List<LeftOut> leftOut(Tally tally) {
    List<LeftOut> all = new ArrayList<>();
    List<Double> chances = new ArrayList<>();
    tally.causes.forEach(
        (key, cause) -> {
          LeftOut oddest = null;
          double least = 1;
          int tried = 0;
          for (Map.Entry<String, Tally.CauseCount> each : cause.byRecorder.entrySet()) {
            long seen = each.getValue().seen;
            double expected = each.getValue().expected.value();
            long otherSeen = -seen;
            double otherExpected = -expected;
            for (Tally.CauseCount any : cause.byRecorder.values()) {
              otherSeen += any.seen;
              otherExpected += any.expected.value();
            }
            // With two recorders nobody knows which is odd.
            if (cause.byRecorder.size() < 3 || !(expected > 0 && otherExpected > 0)) {
              continue;
            }
            tried++;
            double chance = ExactTest.poisson(seen, expected, otherSeen, otherExpected);
            if (oddest == null || chance < least) {
              least = chance;
              oddest =
                  new LeftOut(
                      key.cause(), each.getKey(), seen, expected, otherSeen / otherExpected);
            }
          }
          if (oddest != null) {
            all.add(oddest);
            chances.add(Math.min(1, least * tried));
          }
        });
    List<Double> adjusted = FalseDiscovery.adjusted(chances);
    List<LeftOut> leftOut = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      if (adjusted.get(i) <= FALSE_SHARE) {
        leftOut.add(all.get(i));
      }
    }
    return List.copyOf(leftOut);
  }

  private static Rate rate(CauseRule key, double per100, Counted counts, RatioPrior prior) {
    double mean = counts.count.expected() / counts.visits;
    Interval range = prior.interval(counts.count, 0.95);
    double proposed = moved(per100, mean, prior.mean(counts.count));
    return new Rate(
        key.cause(),
        key.rule(),
        per100,
        Math.max(per100 / AT_MOST_TIMES, Math.min(per100 * AT_MOST_TIMES, proposed)),
        counts.visits,
        counts.count.seen(),
        counts.count.expected(),
        new Interval(moved(per100, mean, range.low()), moved(per100, mean, range.high())));
  }

  /** The base rate moved as far on the log odds as the share of the visits was. */
  private static double moved(double per100, double mean, double times) {
    double share = Math.min(0.999, mean * times);
    if (share == 0) {
      return 0;
    }
    double odds =
        Math.exp(logOdds(per100) + Math.log(share / (1 - share)) - Math.log(mean / (1 - mean)));
    return Math.min(LARGEST_PER_100, 100 * odds / (1 + odds));
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
