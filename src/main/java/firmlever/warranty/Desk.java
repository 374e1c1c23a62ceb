package firmlever.warranty;

import firmlever.belief.Balance;
import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Redraw;
import firmlever.belief.TooManySymptoms;
import firmlever.belief.WorkBudget;
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
import java.util.Locale;
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

  /** A draw beside its solve takes as long as so many visits to table entries. */
  private static final long DRAW = 50_000;

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
   * @param draws redrawn models behind their firmness
   */
  record Belief(
      BrakeModel model, Inference.Posterior posterior, List<Suspect> suspects, int draws) {}

  /**
   * Decides one claim.
   *
   * @throws BadInput where the claim does not fit the policy or the brake
   */
  public Dossier judge(Submitted submitted, Policy policy) throws BadInput {
    return judge(submitted, policy, WorkBudget.ofOneAnswer());
  }

  /**
   * The same within a budget, from which it takes what it spends.
   *
   * @throws TooManySymptoms where the decision alone, without a search for what would turn it, does
   *     not fit into it
   */
  Dossier judge(Submitted submitted, Policy policy, WorkBudget budget) throws BadInput {
    CaseFile file = submitted.file();
    BrakeModel model = rules.consult(file);
    submitted.check(policy, model);
    int draws = draws(model, budget);
    Diagnosis diagnosis = diagnostician.diagnose(file, model, Diagnostician.Options.BARE, budget);
    Belief belief = belief(file, policy, model, draws, true, budget).orElseThrow();
    List<String> stoppedEarly = new ArrayList<>();
    if (draws < DRAWS) {
      stoppedEarly.add(
          String.format(
              Locale.ROOT,
              "Firmness was tried with %d redrawn models instead of %d: %s.",
              draws,
              DRAWS,
              WorkBudget.USED_UP));
    }
    List<Decision> decisions = decide(file, policy, belief);
    List<Decided> decided = new ArrayList<>();
    for (Decision decision : decisions) {
      // Each has its share of what is left, so that the first cannot leave nothing to the others.
      WorkBudget share = WorkBudget.of(budget.left() / (decisions.size() - decided.size()));
      TurnSearch.Found turns = search.turns(file, policy, belief, decision, share);
      budget.take(share.spent());
      decided.add(
          new Decided(
              decision, diagnosis.cause(decision.cause()), turns.turns(), turns.allTried()));
    }
    if (decided.stream().anyMatch(each -> !each.allTried())) {
      stoppedEarly.add(
          "The search for what would turn a decision stopped before all was tried: "
              + WorkBudget.USED_UP
              + ".");
    }
    List<CauseBelief> alternatives =
        diagnosis.causes().stream()
            .filter(cause -> decided.stream().noneMatch(d -> of(d, cause)))
            .filter(cause -> cause.probability() >= WORTH_TELLING)
            .limit(ALTERNATIVES)
            .toList();
    return new Dossier(
        file,
        submitted.digest(),
        policy,
        diagnosis,
        draws,
        List.copyOf(decided),
        alternatives,
        List.copyOf(stoppedEarly));
  }

  /**
   * Redrawn models that half of what the diagnosis leaves allows, and never fewer than the rough
   * ones.
   *
   * @throws TooManySymptoms where not even those fit
   */
  private static int draws(BrakeModel model, WorkBudget budget) {
    Network network = model.network();
    List<Observation> seen = model.observations();
    long left = budget.left();
    if (least(network, seen) > left) {
      throw new TooManySymptoms(network, seen, some -> least(network, some), left);
    }
    long half = (left - Balance.work(network, seen) - Inference.work(network, seen)) / 2;
    return (int) Math.min(DRAWS, Math.max(ROUGH_DRAWS, half / drawing(network, seen)));
  }

  /** Work without which nothing is decided. */
  private static long least(Network network, List<Observation> seen) {
    return Balance.work(network, seen)
        + Inference.work(network, seen)
        + ROUGH_DRAWS * drawing(network, seen);
  }

  /** Work of one draw. */
  private static long drawing(Network network, List<Observation> seen) {
    return DRAW + Inference.work(network, seen);
  }

  private static boolean of(Decided decided, CauseBelief cause) {
    return decided.decision().cause().equals(cause.id());
  }

  /** Decides on each cause in question of a case. */
  public List<Decision> decide(CaseFile file, Policy policy) {
    BrakeModel model = rules.consult(file);
    WorkBudget budget = WorkBudget.ofOneAnswer();
    return decide(
        file,
        policy,
        belief(file, policy, model, draws(model, budget), true, budget).orElseThrow());
  }

  /** What a cause would come to; empty where it is not in question. */
  record Outlook(Optional<Result> result) {}

  /**
   * The result for one cause, where only the result counts: firmness is drawn only where a clause
   * can hang on it, and by few draws first, which leave aside what changes nothing.
   *
   * @return empty where the work does not fit into the budget
   */
  Optional<Outlook> outlook(
      CaseFile file, Policy policy, Decision before, int draws, WorkBudget budget) {
    if (!budget.take(RuleBase.CONSULTATION)) {
      return Optional.empty();
    }
    BrakeModel model = rules.consult(file);
    Optional<Outlook> roughly =
        belief(file, policy, model, ROUGH_DRAWS, false, budget)
            .flatMap(belief -> outlook(file, policy, before, belief, budget));
    return roughly.filter(each -> !each.result().equals(Optional.of(before.result()))).isEmpty()
        ? roughly
        : belief(file, policy, model, draws, false, budget)
            .flatMap(belief -> outlook(file, policy, before, belief, budget));
  }

  /** The same where the belief stays as it is. */
  Optional<Outlook> outlook(
      CaseFile file, Policy policy, Decision before, Belief belief, WorkBudget budget) {
    return budget.take(RuleBase.CONSULTATION)
        ? Optional.of(new Outlook(result(before.cause(), decide(file, policy, belief))))
        : Optional.empty();
  }

  private static Optional<Result> result(String cause, List<Decision> decisions) {
    return decisions.stream()
        .filter(each -> each.cause().equals(cause))
        .map(Decision::result)
        .findFirst();
  }

  /** Empty where the work does not fit into the budget. */
  private static Optional<Belief> belief(
      CaseFile file, Policy policy, BrakeModel model, int draws, boolean shown, WorkBudget budget) {
    return Inference.solve(model.network(), model.observations(), budget)
        .flatMap(
            posterior ->
                suspects(file, policy, model, posterior, draws, shown, budget)
                    .map(suspects -> new Belief(model, posterior, suspects, draws)));
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

  /**
   * What the closed case has confirmed; else what is probable enough; and what is claimed. Empty
   * where the draws do not fit into the budget.
   */
  private static Optional<List<Suspect>> suspects(
      CaseFile file,
      Policy policy,
      BrakeModel model,
      Inference.Posterior posterior,
      int draws,
      boolean shown,
      WorkBudget budget) {
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
    List<Observation> seen = model.observations();
    if (needed && !budget.take(draws * drawing(network, seen))) {
      return Optional.empty();
    }
    double[] firmness = firmness(network, seen, ordered, needed ? draws : 0);
    List<Suspect> suspects = new ArrayList<>();
    for (int at = 0; at < ordered.size(); at++) {
      int i = ordered.get(at);
      String id = network.causes().get(i);
      suspects.add(new Suspect(id, posterior.posterior()[i], firmness[at], confirmed.contains(id)));
    }
    return Optional.of(suspects);
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
