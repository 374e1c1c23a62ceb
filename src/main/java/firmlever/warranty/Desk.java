package firmlever.warranty;

import firmlever.belief.TooManySymptoms;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.diagnosis.Diagnosis;
import firmlever.diagnosis.Diagnosis.CauseBelief;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.vocabulary.Brings;
import firmlever.warranty.ClaimJudge.Premise;
import firmlever.warranty.Dossier.Balanced;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * Decides claims: case and policy in, dossier out. Holds no state between cases and may be used by
 * any number of threads.
 */
public final class Desk {
  private static final int ALTERNATIVES = 5;

  private final RuleBase rules;
  private final Diagnostician diagnostician;
  private final ClaimJudge judge;
  private final TurnSearch search;
  private final Brings brings = Brings.builtIn();

  public Desk(RuleBase rules, WarrantyRules warranty) {
    this.rules = rules;
    this.diagnostician = new Diagnostician(rules);
    this.judge = new ClaimJudge(rules, warranty);
    this.search = new TurnSearch(judge, rules.vocabulary());
  }

  /**
   * Decides one claim.
   *
   * @throws BadInput where there is no claim, or it does not fit the policy or the brake
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
    int draws = Draws.within(model, budget);
    Diagnosis bare = diagnostician.diagnose(file, model, Diagnostician.Options.BELIEF, budget);
    Premise premise = judge.premise(file, policy, model, draws, budget).orElseThrow();
    Belief belief = premise.belief();
    Judged judged = judge.inFull(file, policy, premise, budget).orElseThrow();
    // What to look at first is told only where findings are asked for.
    Diagnosis diagnosis =
        judged.missing().contains(Missing.FINDINGS)
            ? diagnostician.diagnose(file, model, Diagnostician.Options.BARE)
            : bare;
    List<String> stoppedEarly = new ArrayList<>();
    if (draws < Draws.FULL) {
      stoppedEarly.add(
          String.format(
              Locale.ROOT,
              "Firmness was tried with %d redrawn models instead of %d: %s.",
              draws,
              Draws.FULL,
              WorkBudget.USED_UP));
    }
    TurnSearch.Found turns = search.turns(file, policy, premise, judged, budget);
    if (!turns.allTried()) {
      stoppedEarly.add(
          "The search for what would turn the decision stopped before all was tried: "
              + WorkBudget.USED_UP
              + ".");
    }
    Set<String> told = new HashSet<>();
    judged.decisions().forEach(decision -> told.add(decision.cause()));
    List<CauseBelief> others =
        diagnosis.causes().stream()
            .filter(cause -> !told.contains(cause.id()))
            .filter(cause -> cause.probability() >= ClaimJudge.WORTH_TELLING)
            .toList();
    Claim claim = file.claim().orElseThrow();
    Set<Integer> scope = new HashSet<>(Scope.of(claim, belief.network(), rules.vocabulary()));
    Optional<Clause> nothing =
        judged.matters().stream()
            .filter(matter -> matter.result().outcome() == Outcome.NOTHING_FOUND)
            .map(Matter::clause)
            .findFirst();
    return new Dossier(
        file,
        submitted.digest(),
        policy,
        diagnosis,
        draws,
        judged,
        judged.decisions().stream().map(each -> balanced(each, diagnosis, belief)).toList(),
        Costs.of(
            claim,
            policy,
            belief,
            rules.vocabulary(),
            judged.decisions(),
            Set.copyOf(judged.results()),
            nothing),
        DueAnyway.of(file, policy, judged.matters(), rules.vocabulary(), brings),
        turns.turns(),
        others.stream()
            .filter(cause -> !scope.contains(belief.position(cause.id())))
            .filter(cause -> belief.probability(cause.id()) >= policy.consider())
            .toList(),
        others.stream()
            .filter(cause -> belief.probability(cause.id()) < policy.consider())
            .limit(ALTERNATIVES)
            .toList(),
        List.copyOf(stoppedEarly),
        Optional.empty());
  }

  private static Balanced balanced(Decision decision, Diagnosis diagnosis, Belief belief) {
    Optional<CauseBelief> balance = diagnosis.cause(decision.cause());
    double logOdds = belief.posterior().logOdds(belief.position(decision.cause()));
    return new Balanced(
        decision.cause(),
        balance,
        belief.confirmation().isEmpty() ? 0 : balance.map(b -> logOdds - b.logOdds()).orElse(0.0));
  }

  /** What is decided of a case. */
  public Judged decide(CaseFile file, Policy policy) {
    BrakeModel model = rules.consult(file);
    WorkBudget budget = WorkBudget.ofOneAnswer();
    int draws = Draws.within(model, budget);
    Premise premise = judge.premise(file, policy, model, draws, budget).orElseThrow();
    return judge.inFull(file, policy, premise, budget).orElseThrow();
  }
}
