package firmlever.comeback;

import static java.util.Objects.requireNonNull;

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
import firmlever.comeback.visits.Witness;
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
 * distribution is worth is learned from all causes together. A visit counts for as much as what is
 * written down of it can be trusted ({@link Trust}). A recorder whose share of a cause lies off
 * that of the others by more than chance is left out for that cause: one person's habit of calling
 * everything air must not become a base rate.
 *
 * @param weight how many expected cases of each cause the elicited numbers are worth
 * @param visits learned from
 * @param rates one for each rule that says how common a cause is, those of most effect first
 * @param trusts how much the word of each recorder counts, from 0 to 1; the least trusted first
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
    List<Trusted> trusts,
    List<LeftOut> leftOut,
    List<Frequency> frequencies,
    Calibration before,
    Calibration after,
    List<Changed> checked,
    long casesChecked) {

  /** The share of the recorders left out that may be so by chance. */
  private static final double FALSE_SHARE = 0.05;

  /** One proposal moves a base rate at most so many times up or down: the next may go on. */
  public static final double AT_MOST_TIMES = 5;

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

  /** How much the word of a recorder counts, from 0 to 1. */
  public record Trusted(String recorder, double weight) {}

  /**
   * A base rate.
   *
   * @param rule that says it now
   * @param now of 100 brakes
   * @param proposed of 100 brakes
   * @param seen visits with the cause
   * @param expected visits with it that the rules expect, history counted in
   * @param effect how many of 100 visits more or less would be expected to have the cause
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
      double effect,
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
    Trust trust = Trust.of(tally);
    Map<CauseRule, Counted> counted = counted(tally, leftOut, trust);
    RatioPrior prior = RatioPrior.of(counted.values().stream().map(Counted::count).toList());
    long visits =
        tally.causes.values().stream()
            .mapToLong(cause -> cause.byWitness.values().stream().mapToLong(c -> c.visits).sum())
            .max()
            .orElse(0);
    List<Rate> rates = new ArrayList<>();
    counted.forEach(
        (key, counts) ->
            rates.add(
                rate(key, requireNonNull(tally.causes.get(key)).per100, counts, prior, visits)));
    rates.sort(Comparator.comparingDouble((Rate r) -> -r.effect).thenComparing(Rate::rule));
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
        trust.holds().entrySet().stream()
            .map(e -> new Trusted(e.getKey(), e.getValue()))
            .sorted(Comparator.comparingDouble(Trusted::weight).thenComparing(Trusted::recorder))
            .toList(),
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

  /**
   * What was learned from of one cause.
   *
   * @param count weighed by trust
   */
  private record Counted(long visits, long seen, double expected, Count count) {}

  private static Map<CauseRule, Counted> counted(Tally tally, List<LeftOut> leftOut, Trust trust) {
    Set<String> out = new HashSet<>();
    leftOut.forEach(each -> out.add(each.cause + "/" + each.recorder));
    Map<CauseRule, Counted> counted = new TreeMap<>();
    tally.causes.forEach(
        (key, cause) -> {
          long visits = 0;
          long seen = 0;
          double expected = 0;
          double weighedSeen = 0;
          double weighedExpected = 0;
          // In a fixed order, so that rounding is the same for every order of reading.
          for (Map.Entry<Witness, Tally.CauseCount> each : cause.byWitness.entrySet()) {
            if (!out.contains(key.cause() + "/" + each.getKey().by())) {
              double weight = trust.of(each.getKey());
              visits += each.getValue().visits;
              seen += each.getValue().seen;
              expected += each.getValue().expected.value();
              weighedSeen += weight * each.getValue().seen;
              weighedExpected += weight * each.getValue().expected.value();
            }
          }
          if (weighedExpected > 0) {
            counted.put(
                key, new Counted(visits, seen, expected, new Count(weighedSeen, weighedExpected)));
          }
        });
    return counted;
  }

  /**
   * Recorders whose share of a cause lies off the others' by more than chance, one for each cause
   * at most: the one who lies off most, as in the others' company he would make them look odd.
   */
  private static List<LeftOut> leftOut(Tally tally) {
    List<LeftOut> odd = new ArrayList<>();
    List<Double> chances = new ArrayList<>();
    tally.causes.forEach(
        (key, cause) -> {
          // By their own word alone: what a second look found is nobody's habit.
          Map<String, double[]> byRecorder = new TreeMap<>();
          double[] all = new double[2];
          cause.byWitness.forEach(
              (witness, count) -> {
                if (witness.look() != Witness.Look.SECOND) {
                  double[] own = byRecorder.computeIfAbsent(witness.by(), by -> new double[2]);
                  for (double[] each : List.of(own, all)) {
                    each[0] += count.seen;
                    each[1] += count.expected.value();
                  }
                }
              });
          LeftOut oddest = null;
          double least = 1;
          int tried = 0;
          for (Map.Entry<String, double[]> each : byRecorder.entrySet()) {
            long seen = (long) each.getValue()[0];
            double expected = each.getValue()[1];
            long otherSeen = (long) all[0] - seen;
            double otherExpected = all[1] - expected;
            // With two recorders nobody knows which is odd.
            if (byRecorder.size() < 3 || !(expected > 0 && otherExpected > 0)) {
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
            odd.add(oddest);
            chances.add(Math.min(1, least * tried));
          }
        });
    List<Double> adjusted = FalseDiscovery.adjusted(chances);
    List<LeftOut> leftOut = new ArrayList<>();
    for (int i = 0; i < odd.size(); i++) {
      if (adjusted.get(i) <= FALSE_SHARE) {
        leftOut.add(odd.get(i));
      }
    }
    return List.copyOf(leftOut);
  }

  private static Rate rate(
      CauseRule key, double per100, Counted counts, RatioPrior prior, long allVisits) {
    double mean = counts.expected / counts.visits;
    double times = prior.mean(counts.count);
    Interval range = prior.interval(counts.count, 0.95);
    double proposed = moved(per100, mean, times);
    return new Rate(
        key.cause(),
        key.rule(),
        per100,
        Math.max(per100 / AT_MOST_TIMES, Math.min(per100 * AT_MOST_TIMES, proposed)),
        counts.visits,
        counts.seen,
        counts.expected,
        100 * counts.expected * Math.abs(times - 1) / Math.max(1, allVisits),
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
      String rule = requireNonNull(model.bases().get(network.causes().get(i))).said().rule();
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
          // The seven words are about 0.10 to 0.25 apart: a smaller gap is no other word.
          Interval range = seen.wilson(0.95);
          if (now < range.low() - 0.1 || now > range.high() + 0.1) {
            found.add(new Frequency(link.cause(), link.symptom(), seen, now, range));
          }
        });
    return List.copyOf(found);
  }
}
