package firmlever.diagnosis;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Odds;
import firmlever.diagnosis.RideVerdict.Answer;
import firmlever.diagnosis.RideVerdict.Because;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.BrakeModel.Unlooked;
import firmlever.vocabulary.HazardKind;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Judges whether a brake may be ridden: by what was found, by how likely the causes of each kind of
 * hazard are, and by what nobody has looked at.
 *
 * <p>Any brake with a complaint has some chance of any fault. What counts against the limit of a
 * kind is therefore the chance that the findings add to what is known without them: over the causes
 * whose odds the findings at least double, the chance that any of them is present. A cause that is
 * likelier than not counts whole. What the record alone makes likely asks for a look.
 */
final class RideJudge {
  /** Findings point at a cause if they multiply its odds by at least this (from memory). */
  private static final double POINTED_AT = 2;

  private static final double LIKELIER_THAN_NOT = 0.5;

  /** Of the causes of one kind so many are named, the likeliest. */
  private static final int NAMED = 3;

  private final Vocabulary vocabulary;
  private final Map<String, HazardKind> kinds;

  RideJudge(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.kinds = HazardKind.builtIn();
  }

  /** Judges the brake of this model, given what is believed of it. */
  RideVerdict judge(BrakeModel model, Inference.Posterior belief) {
    List<Because> forbids = new ArrayList<>();
    List<Because> doubts = new ArrayList<>();
    model
        .hazards()
        .forEach(each -> forbids.add(new Because(each.symptom(), false, 1, each.said().why())));
    model
        .contradictions()
        .forEach(
            each ->
                doubts.add(
                    new Because(
                        each.symptoms().get(0),
                        false,
                        1,
                        "findings contradict each other: " + each.said().why())));
    Map<String, Because> stopping = new LinkedHashMap<>();
    Map<String, Because> doubted = new LinkedHashMap<>();
    for (HazardKind kind : kinds.values()) {
      List<Integer> pointed = new ArrayList<>();
      List<Integer> recorded = new ArrayList<>();
      for (int i = 0; i < belief.posterior().length; i++) {
        if (!of(model, i).contains(kind.id())) {
          continue;
        }
        if (pointedAt(model.network(), belief, i)) {
          pointed.add(i);
        } else if (belief.posterior()[i] > kind.limit() && raisedByRecord(model, i)) {
          recorded.add(i);
        }
      }
      double chance = added(model, belief, pointed);
      if (chance > kind.limit()) {
        because(model, belief, pointed, above(kind, chance))
            .forEach((stops(kind, model) ? stopping : doubted)::putIfAbsent);
      }
      because(
              model,
              belief,
              recorded,
              "it " + kind.name() + ", and the record makes it likelier than usual")
          .forEach(doubted::putIfAbsent);
    }
    forbids.addAll(likeliestFirst(stopping));
    doubts.addAll(likeliestFirst(doubted));
    List<String> notLooked = model.unlooked().stream().map(Unlooked::symptom).toList();
    if (!forbids.isEmpty()) {
      return new RideVerdict(Answer.STOP, List.copyOf(forbids), notLooked);
    }
    boolean fine = doubts.isEmpty() && notLooked.isEmpty();
    return new RideVerdict(fine ? Answer.FINE : Answer.NOT_CLEARED, List.copyOf(doubts), notLooked);
  }

  private static boolean stops(HazardKind kind, BrakeModel model) {
    return (model.backed() ? kind.atRear() : kind.above()).equals("stop");
  }

  private List<String> of(BrakeModel model, int cause) {
    return vocabulary.cause(model.network().causes().get(cause)).hazards();
  }

  private static boolean pointedAt(Network network, Inference.Posterior belief, int i) {
    return belief.posterior()[i] > LIKELIER_THAN_NOT
        || belief.logOdds(i) - network.priorLogOdds()[i] >= Math.log(POINTED_AT);
  }

  private static boolean raisedByRecord(BrakeModel model, int i) {
    double base = requireNonNull(model.bases().get(model.network().causes().get(i))).per100() / 100;
    return model.network().priorLogOdds()[i] - Odds.log(base) >= Math.log(POINTED_AT);
  }

  /** The chance that any of the causes is present, as far as the findings add it; 0 to 1. */
  private static double added(BrakeModel model, Inference.Posterior belief, List<Integer> causes) {
    double before = 1;
    for (int i : causes) {
      before *= belief.posterior()[i] > LIKELIER_THAN_NOT ? 1 : 1 - model.network().prior(i);
    }
    return 1 - none(model, belief, causes) / before;
  }

  /**
   * The chance that none of the causes is present, exactly: the probability of the observations
   * without them, over that with them.
   */
  private static double none(BrakeModel model, Inference.Posterior belief, List<Integer> causes) {
    if (causes.size() < 2) {
      return causes.isEmpty() ? 1 : 1 - belief.posterior()[causes.get(0)];
    }
    Network network = model.network();
    double[] prior = network.priorLogOdds().clone();
    double absent = 0;
    for (int i : causes) {
      absent += Math.log1p(-network.prior(i));
      prior[i] = Double.NEGATIVE_INFINITY;
    }
    Network without =
        new Network(
            network.causes(), prior, network.symptoms(), network.background(), network.strength());
    double evidence = Inference.solve(without, model.observations()).logEvidence();
    return Math.exp(absent + evidence - belief.logEvidence());
  }

  private static String above(HazardKind kind, double chance) {
    return String.format(
        Locale.ROOT,
        "it %s; the findings add %.2f to the chance of such a cause, and the limit is %.2f",
        kind.name(),
        chance,
        kind.limit());
  }

  private static Map<String, Because> because(
      BrakeModel model, Inference.Posterior belief, List<Integer> causes, String why) {
    Map<String, Because> reasons = new LinkedHashMap<>();
    causes.stream()
        .sorted(belief.likelierFirst())
        .limit(NAMED)
        .forEach(
            i -> {
              String cause = model.network().causes().get(i);
              reasons.put(cause, new Because(cause, true, belief.posterior()[i], why));
            });
    return reasons;
  }

  private static List<Because> likeliestFirst(Map<String, Because> reasons) {
    return reasons.values().stream()
        .sorted(Comparator.comparingDouble((Because each) -> -each.probability()))
        .toList();
  }
}
