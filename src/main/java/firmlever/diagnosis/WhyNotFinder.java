package firmlever.diagnosis;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.WhyNot.Check;
import firmlever.diagnosis.WhyNot.NotApplied;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.Judge;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.text.RuleText;
import firmlever.rulebase.text.RuleText.Statement;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** Finds out why a cause is not believed in. Holds no state between cases. */
public final class WhyNotFinder {
  private final RuleBase rules;
  private final RideJudge rideJudge;

  public WhyNotFinder(RuleBase rules) {
    this.rules = rules;
    this.rideJudge = new RideJudge(rules.vocabulary());
  }

  /**
   * Why {@code cause}, an id of the vocabulary, is not believed in.
   *
   * @param texts the rules about the cause, as they are written
   */
  public WhyNot of(CaseFile file, String cause, List<RuleText> texts) {
    return of(file, cause, texts, WorkBudget.ofOneAnswer());
  }

  /**
   * The same within a budget, from which it takes what it spends.
   *
   * @throws firmlever.belief.TooManySymptoms where the balance of the cause alone does not fit
   */
  WhyNot of(CaseFile file, String cause, List<RuleText> texts, WorkBudget budget) {
    BrakeModel model = rules.consult(file);
    Network network = model.network();
    Diagnostician.mustFit(network, model.observations(), budget);
    Inference.Posterior posterior = Inference.solve(network, model.observations());
    int position = network.causes().indexOf(cause);
    Optional<CauseBelief> belief =
        position < 0
            ? Optional.empty()
            : Optional.of(Diagnostician.belief(model, posterior, cause, rules.vocabulary()));
    Judge judge = new Judge(file, model, rules.vocabulary());
    List<String> stoppedEarly = new ArrayList<>();
    boolean stop = rideJudge.judge(model, posterior).stop();
    List<Check> checks =
        position < 0
            ? List.of()
            : checks(file, model, posterior, cause, stop, budget, stoppedEarly);
    return new WhyNot(
        file.id(),
        rules.digest(),
        cause,
        Optional.ofNullable(model.impossible().get(cause))
            .map(said -> Diagnostician.impossible(cause, said)),
        belief,
        position < 0 ? 0 : 1 + likelier(posterior, position),
        network.causes().size(),
        Diagnostician.leader(network, posterior),
        Diagnostician.leading(posterior),
        belief.map(b -> explainedBy(network, posterior, b)).orElse(Map.of()),
        texts.stream()
            .filter(rule -> !model.fired().contains(rule.name()))
            .map(rule -> notApplied(judge, rule, cause))
            .sorted(Comparator.comparingDouble(NotApplied::times).reversed())
            .toList(),
        texts.stream().map(RuleText::name).filter(model.fired()::contains).toList(),
        checks,
        List.copyOf(stoppedEarly),
        stop);
  }

  private static int likelier(Inference.Posterior posterior, int position) {
    return (int)
        IntStream.range(0, posterior.posterior().length)
            .filter(i -> posterior.posterior()[i] > posterior.posterior()[position])
            .count();
  }

  /** Of each present symptom that weighs less than half of what it would alone: who explains it. */
  private static Map<String, String> explainedBy(
      Network network, Inference.Posterior posterior, CauseBelief belief) {
    Map<String, Integer> positions = network.symptomPositions();
    Map<String, String> explained = new LinkedHashMap<>();
    for (Weight weight : belief.symptoms()) {
      if (weight.present() && weight.weight() < weight.alone() / 2) {
        int symptom = requireNonNull(positions.get(weight.symptom()));
        IntStream.range(0, network.causes().size())
            .filter(i -> !network.causes().get(i).equals(belief.id()))
            .filter(i -> network.strength()[i][symptom] > 0)
            .boxed()
            .max(
                Comparator.comparingDouble(
                    i -> posterior.posterior()[i] * network.strength()[i][symptom]))
            .ifPresent(i -> explained.put(weight.symptom(), network.causes().get(i)));
      }
    }
    return explained;
  }

  private static NotApplied notApplied(Judge judge, RuleText rule, String cause) {
    Optional<Statement> moves =
        rule.saying("raise", "lower", "impossible")
            .filter(statement -> statement.arguments().get(0).equals(cause))
            .findFirst();
    double times =
        moves
            .map(s -> s.verb().equals("impossible") ? 0 : Double.parseDouble(s.arguments().get(1)))
            .orElse(1.0);
    String why = moves.map(s -> s.arguments().get(s.arguments().size() - 1)).orElse("");
    return new NotApplied(judge.of(rule), times, why);
  }

  /**
   * What each check that was not made yet would make of the cause, the greatest change first. The
   * rules are asked anew for both outcomes, because a finding can bring others with it and can move
   * what is common. The symptoms of the cause itself come first, for the work may not last for all.
   * No test ride is among them where the brake must not be ridden.
   */
  private List<Check> checks(
      CaseFile file,
      BrakeModel model,
      Inference.Posterior now,
      String cause,
      boolean stop,
      WorkBudget budget,
      List<String> stoppedEarly) {
    Network network = model.network();
    double[] shows = network.strength()[network.causes().indexOf(cause)];
    Map<String, Integer> positions = network.symptomPositions();
    List<String> open =
        rules.vocabulary().symptoms().values().stream()
            .filter(Symptom::canBeChecked)
            .filter(symptom -> !(stop && symptom.isRidden()))
            .map(Symptom::id)
            .filter(symptom -> !model.findings().containsKey(symptom))
            .toList();
    List<String> order =
        open.stream()
            .sorted(
                Comparator.comparingDouble(
                    symptom -> -shows[requireNonNull(positions.get(symptom))]))
            .toList();
    Map<String, Check> found = new HashMap<>();
    for (String symptom : order) {
      Optional<Check> check = check(file, model, now, symptom, cause, budget);
      if (check.isEmpty()) {
        stoppedEarly.add(
            String.format(
                Locale.ROOT,
                "What a check would make of it was worked out for %d of %d checks, those that speak"
                    + " most of this cause first: %s.",
                found.size(),
                order.size(),
                WorkBudget.USED_UP));
        break;
      }
      found.put(symptom, check.get());
    }
    return open.stream()
        .filter(found::containsKey)
        .map(found::get)
        .sorted(Comparator.comparingDouble(Check::swing).reversed())
        .toList();
  }

  /** Empty where the work does not fit into the budget. */
  private Optional<Check> check(
      CaseFile file,
      BrakeModel model,
      Inference.Posterior now,
      String symptom,
      String cause,
      WorkBudget budget) {
    if (!budget.take(2 * RuleBase.CONSULTATION)) {
      return Optional.empty();
    }
    Network network = model.network();
    int position = requireNonNull(network.symptomPositions().get(symptom));
    List<Observation> with =
        Observation.joined(model.observations(), Observation.present(position));
    Optional<Inference.Posterior> seen = Inference.solve(network, with, budget);
    if (seen.isEmpty()) {
      return Optional.empty();
    }
    double chance = Math.exp(seen.get().logEvidence() - now.logEvidence());
    Optional<Double> ifPresent = probability(file.with(symptom, Presence.PRESENT), cause, budget);
    Optional<Double> ifAbsent =
        ifPresent.flatMap(p -> probability(file.with(symptom, Presence.ABSENT), cause, budget));
    return ifAbsent.map(absent -> new Check(symptom, chance, ifPresent.orElseThrow(), absent));
  }

  private Optional<Double> probability(CaseFile file, String cause, WorkBudget budget) {
    BrakeModel model = rules.consult(file);
    int position = model.network().causes().indexOf(cause);
    return position < 0
        ? Optional.of(0.0)
        : Inference.solve(model.network(), model.observations(), budget)
            .map(posterior -> posterior.posterior()[position]);
  }
}
