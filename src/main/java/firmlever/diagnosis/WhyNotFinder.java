package firmlever.diagnosis;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Presence;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnosis.Weight;
import firmlever.diagnosis.WhyNot.Check;
import firmlever.diagnosis.WhyNot.NotApplied;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.Judge;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.RuleText;
import firmlever.rulebase.RuleText.Statement;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** Finds out why a cause is not believed in. Holds no state between cases. */
public final class WhyNotFinder {
  private final RuleBase rules;

  public WhyNotFinder(RuleBase rules) {
    this.rules = rules;
  }

  /**
   * Why {@code cause}, an id of the vocabulary, is not believed in.
   *
   * @param texts the rules about the cause, as they are written
   */
  public WhyNot of(CaseFile file, String cause, List<RuleText> texts) {
    BrakeModel model = rules.consult(file);
    Network network = model.network();
    Inference.Posterior posterior = Inference.solve(network, model.observations());
    int position = network.causes().indexOf(cause);
    Optional<CauseBelief> belief =
        position < 0
            ? Optional.empty()
            : Optional.of(Diagnostician.belief(model, posterior, cause));
    Judge judge = new Judge(file, model, rules.vocabulary());
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
        position < 0 ? List.of() : checks(file, model, cause),
        !model.hazards().isEmpty());
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
        int symptom = positions.get(weight.symptom());
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
   * What each check that was not made yet would make of the cause. The rules are asked anew for
   * both outcomes, because a finding can bring others with it and can move what is common.
   */
  private List<Check> checks(CaseFile file, BrakeModel model, String cause) {
    double evidence = Inference.solve(model.network(), model.observations()).logEvidence();
    Map<String, Integer> positions = model.network().symptomPositions();
    return rules.vocabulary().symptoms().values().stream()
        .filter(Symptom::canBeChecked)
        .map(Symptom::id)
        .filter(symptom -> !model.findings().containsKey(symptom))
        .map(
            symptom ->
                new Check(
                    symptom,
                    chance(model, positions.get(symptom), evidence),
                    probability(file.with(symptom, Presence.PRESENT), cause),
                    probability(file.with(symptom, Presence.ABSENT), cause)))
        .sorted(Comparator.comparingDouble(Check::swing).reversed())
        .toList();
  }

  private static double chance(BrakeModel model, int symptom, double logEvidence) {
    List<Observation> with =
        Diagnostician.added(model.observations(), Observation.present(symptom));
    return Math.exp(Inference.solve(model.network(), with).logEvidence() - logEvidence);
  }

  private double probability(CaseFile file, String cause) {
    BrakeModel model = rules.consult(file);
    int position = model.network().causes().indexOf(cause);
    return position < 0
        ? 0
        : Inference.solve(model.network(), model.observations()).posterior()[position];
  }
}
