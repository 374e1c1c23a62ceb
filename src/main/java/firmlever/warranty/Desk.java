package firmlever.warranty;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Redraw;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Outcome;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.WarrantyFacts.Suspect;
import firmlever.rulebase.WarrantyRules;
import firmlever.rulebase.WarrantyRules.Finding;
import firmlever.warranty.Dossier.Decided;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Outcome.Result;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Decides claims: case and policy in, dossier out. Holds no state between cases and may be used by
 * any number of threads.
 */
public final class Desk {
  /** Redrawn models behind a firmness: enough to tell 0.8 from 0.9. */
  static final int DRAWS = 100;

  /** Enough to leave aside what turns nothing; what seems to turn a decision is decided in full. */
  private static final int ROUGH_DRAWS = 20;

  private static final long SEED = 1;
  private static final double LIKELIER_THAN_NOT = 0.5;

  private static final double WORTH_TELLING = 0.03;
  private static final int ALTERNATIVES = 5;

  private final RuleBase rules;
  private final WarrantyRules warranty;
  private final Diagnostician diagnostician;
  private final TurnSearch search;

  public Desk(RuleBase rules, WarrantyRules warranty) {
    this.rules = rules;
    this.warranty = warranty;
    this.diagnostician = new Diagnostician(rules);
    this.search = new TurnSearch(this, rules.vocabulary());
  }

  /**
   * What is believed of a case.
   *
   * @param suspects the causes to decide on, most probable first
   */
  record Belief(BrakeModel model, Inference.Posterior posterior, List<Suspect> suspects) {}

  /**
   * Decides one claim.
   *
   * @throws BadInput where the claim does not fit the policy or the brake
   */
  public Dossier judge(Submitted submitted, Policy policy) throws BadInput {
    CaseFile file = submitted.file();
    BrakeModel model = rules.consult(file);
    submitted.check(policy, model);
    Belief belief = belief(file, policy, model, DRAWS, true);
    Diagnosis diagnosis = diagnostician.diagnose(file, model, Diagnostician.Options.WITHOUT_DRAWS);
    List<Decided> decided = new ArrayList<>();
    for (Decision decision : decide(file, policy, belief)) {
      decided.add(
          new Decided(
              decision,
              diagnosis.cause(decision.cause()),
              search.turns(file, policy, belief, decision)));
    }
    List<CauseBelief> alternatives =
        diagnosis.causes().stream()
            .filter(cause -> decided.stream().noneMatch(d -> of(d, cause)))
            .filter(cause -> cause.probability() >= WORTH_TELLING)
            .limit(ALTERNATIVES)
            .toList();
    return new Dossier(
        file, submitted.digest(), policy, diagnosis, DRAWS, List.copyOf(decided), alternatives);
  }

  private static boolean of(Decided decided, CauseBelief cause) {
    return decided.decision().cause().equals(cause.id());
  }

  /** Decides on each cause in question of a case. */
  public List<Decision> decide(CaseFile file, Policy policy) {
    return decide(file, policy, belief(file, policy));
  }

  private Belief belief(CaseFile file, Policy policy) {
    return belief(file, policy, rules.consult(file), DRAWS, true);
  }

  /**
   * The result for one cause, where only the result counts: firmness is drawn only where a clause
   * can hang on it, and by few draws first, which leave aside what changes nothing.
   *
   * @return empty where the cause is not in question
   */
  Optional<Result> resultFor(CaseFile file, Policy policy, String cause, Result before) {
    BrakeModel model = rules.consult(file);
    Optional<Result> roughly =
        result(cause, decide(file, policy, belief(file, policy, model, ROUGH_DRAWS, false)));
    return roughly.equals(Optional.of(before))
        ? roughly
        : result(cause, decide(file, policy, belief(file, policy, model, DRAWS, false)));
  }

  static Optional<Result> result(String cause, List<Decision> decisions) {
    return decisions.stream()
        .filter(each -> each.cause().equals(cause))
        .map(Decision::result)
        .findFirst();
  }

  private static Belief belief(
      CaseFile file, Policy policy, BrakeModel model, int draws, boolean shown) {
    Inference.Posterior posterior = Inference.solve(model.network(), model.observations());
    return new Belief(model, posterior, suspects(file, policy, model, posterior, draws, shown));
  }

  List<Decision> decide(CaseFile file, Policy policy, Belief belief) {
    Map<String, Map<String, Finding>> byCause = new HashMap<>();
    for (Finding finding :
        warranty.consult(ClaimFacts.of(file, belief.model(), policy, belief.suspects()))) {
      byCause
          .computeIfAbsent(finding.ruling().cause(), cause -> new HashMap<>())
          .put(finding.ruling().clause(), finding);
    }
    return belief.suspects().stream()
        .map(
            suspect ->
                Decider.decide(policy, suspect, byCause.getOrDefault(suspect.cause(), Map.of())))
        .toList();
  }

  /** What the closed case has confirmed; else what is probable enough; and what is claimed. */
  private static List<Suspect> suspects(
      CaseFile file,
      Policy policy,
      BrakeModel model,
      Inference.Posterior posterior,
      int draws,
      boolean shown) {
    Network network = model.network();
    Set<String> confirmed = confirmed(file);
    Set<Integer> chosen = new LinkedHashSet<>();
    int first = 0;
    for (int i = 0; i < network.causes().size(); i++) {
      first = posterior.posterior()[i] > posterior.posterior()[first] ? i : first;
      String id = network.causes().get(i);
      boolean claimed = file.claim().map(Claim::cause).filter(id::equals).isPresent();
      boolean probable = confirmed.isEmpty() && posterior.posterior()[i] >= policy.consider();
      if (claimed || probable || confirmed.contains(id)) {
        chosen.add(i);
      }
    }
    if (chosen.isEmpty()) {
      chosen.add(first);
    }
    List<Integer> ordered = new ArrayList<>(chosen);
    ordered.sort(Comparator.comparingDouble((Integer i) -> -posterior.posterior()[i]));
    boolean needed =
        shown
            || ordered.stream()
                .anyMatch(
                    i ->
                        !confirmed.contains(network.causes().get(i))
                            && policy.asksFirmness(
                                network.causes().get(i), posterior.posterior()[i]));
    double[] firmness = firmness(network, model.observations(), ordered, needed ? draws : 0);
    List<Suspect> suspects = new ArrayList<>();
    for (int at = 0; at < ordered.size(); at++) {
      int i = ordered.get(at);
      String id = network.causes().get(i);
      suspects.add(new Suspect(id, posterior.posterior()[i], firmness[at], confirmed.contains(id)));
    }
    return suspects;
  }

  /** The causes a closed case names, where it also says how that was confirmed. */
  private static Set<String> confirmed(CaseFile file) {
    return file.outcome()
        .filter(outcome -> !outcome.confirmed().isEmpty() && !outcome.works().isEmpty())
        .map(Outcome::causes)
        .<Set<String>>map(LinkedHashSet::new)
        .orElse(Set.of());
  }

  /** In what share of the redrawn models each cause stays likelier than not. */
  private static double[] firmness(
      Network network, List<Observation> seen, List<Integer> causes, int draws) {
    List<Integer> symptoms = seen.stream().map(Observation::symptom).toList();
    int[] held = new int[causes.size()];
    for (int draw = 0; draw < draws; draw++) {
      double[] drawn =
          Inference.solve(Redraw.draw(network, symptoms, SEED, draw), seen).posterior();
      for (int at = 0; at < held.length; at++) {
        held[at] += drawn[causes.get(at)] >= LIKELIER_THAN_NOT ? 1 : 0;
      }
    }
    double[] firmness = new double[held.length];
    for (int at = 0; at < held.length; at++) {
      firmness[at] = held[at] / (double) Math.max(1, draws);
    }
    return firmness;
  }
}
