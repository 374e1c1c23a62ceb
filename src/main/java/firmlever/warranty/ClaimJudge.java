package firmlever.warranty;

import firmlever.belief.Elimination;
import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Cost;
import firmlever.rulebase.BrakeModel;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.warranty.WarrantyFacts.Brought;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyRules;
import firmlever.vocabulary.Brings;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.Judged.Matter;
import firmlever.warranty.belief.Chances;
import firmlever.warranty.belief.Confirmation;
import firmlever.warranty.belief.Firmness;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * What a claim comes to: which causes are in question, which clause decides on each, and whether
 * that is sure enough. Holds no state between claims.
 */
final class ClaimJudge {
  /** Causes less likely than this are not decided on, unless somebody named them. */
  static final double WORTH_TELLING = 0.03;

  private static final String WRONG_FLUID = "wrong-fluid";

  private final RuleBase rules;
  private final WarrantyRules warranty;
  private final Brings brings = Brings.builtIn();

  ClaimJudge(RuleBase rules, WarrantyRules warranty) {
    this.rules = rules;
    this.warranty = warranty;
  }

  /** What a claim is decided on: what is believed of the brake, and what its record has brought. */
  record Premise(Belief belief, Traces traces) {}

  /** The premise of a case as it would be; empty where the work does not fit into the budget. */
  Optional<Premise> premise(CaseFile file, Policy policy, int draws, WorkBudget budget) {
    return budget.take(RuleBase.CONSULTATION * (1 + Traces.consultations(file)))
        ? premise(file, policy, rules.consult(file), draws, budget)
        : Optional.empty();
  }

  /** The same of a case of which the rules have been asked, which costs nothing any more. */
  Optional<Premise> premise(
      CaseFile file, Policy policy, BrakeModel model, int draws, WorkBudget budget) {
    return belief(file, policy, model, draws, budget)
        .map(belief -> new Premise(belief, Traces.of(file, policy, model, rules)));
  }

  /** What the claim comes to, in full; empty where the work does not fit into the budget. */
  Optional<Judged> inFull(CaseFile file, Policy policy, Premise premise, WorkBudget budget) {
    Belief belief = premise.belief();
    List<Decision> decisions = decisions(file, policy, belief, premise.traces());
    return judged(file, policy, belief, decisions, true, budget);
  }

  /**
   * What a claim would come to, where only that counts: firmness is drawn only where a clause can
   * hang on it, and by few draws first, which leave aside what changes nothing.
   *
   * @param file the case of the premise, or one that differs from it in nothing that is believed
   * @return empty where the work does not fit into the budget
   */
  Optional<Judged> outlook(
      CaseFile file, Policy policy, Premise premise, Judged before, WorkBudget budget) {
    Belief belief = premise.belief();
    int draws = belief.firmness().draws();
    Optional<Traces> traces = traces(file, policy, premise, budget);
    if (traces.isEmpty()) {
      return Optional.empty();
    }
    List<Decision> decisions = decisions(file, policy, belief, traces.get());
    Belief rough = belief.against(policy, Draws.ROUGH);
    Optional<Judged> roughly = judged(file, policy, rough, decisions, false, budget);
    return roughly.filter(each -> !each.results().equals(before.results())).isEmpty()
        ? roughly
        : judged(file, policy, belief.against(policy, draws), decisions, false, budget);
  }

  private Optional<Traces> traces(
      CaseFile file, Policy policy, Premise premise, WorkBudget budget) {
    boolean same = premise.traces().serves(file);
    if (!budget.take(RuleBase.CONSULTATION * (same ? 1 : 1 + Traces.consultations(file)))) {
      return Optional.empty();
    }
    return Optional.of(
        same
            ? premise.traces().in(file)
            : Traces.of(file, policy, premise.belief().model(), rules));
  }

  /** Empty where the work does not fit into the budget. */
  private static Optional<Belief> belief(
      CaseFile file, Policy policy, BrakeModel model, int draws, WorkBudget budget) {
    Optional<Confirmation> confirmation = Confirmation.of(file, policy);
    Network network =
        confirmation.map(each -> each.added(model.network())).orElseGet(model::network);
    List<Observation> seen = new ArrayList<>(model.observations());
    confirmation.ifPresent(each -> seen.addAll(each.seen(network)));
    Elimination shape = Elimination.of(network, seen);
    if (!budget.take(shape.work())) {
      return Optional.empty();
    }
    Inference.Posterior posterior = Inference.solve(network, seen, shape);
    return Optional.of(
        new Belief(
            model,
            network,
            List.copyOf(seen),
            posterior,
            new Chances(network, seen, shape, posterior),
            confirmation,
            new Firmness(network, List.copyOf(seen), shape, draws)));
  }

  /** What the decisions come to; empty where the draws do not fit into the budget. */
  private Optional<Judged> judged(
      CaseFile file,
      Policy policy,
      Belief belief,
      List<Decision> decisions,
      boolean shown,
      WorkBudget budget) {
    Claim claim = file.claim().orElseThrow();
    List<Integer> scope = Scope.of(claim, belief.network(), rules.vocabulary());
    Map<Award, List<Decision>> byResult = new TreeMap<>();
    decisions.forEach(d -> byResult.computeIfAbsent(d.result(), r -> new ArrayList<>()).add(d));
    List<Award> results = List.copyOf(byResult.keySet());
    List<List<Decision>> decided = List.copyOf(byResult.values());
    List<Set<Integer>> groups = new ArrayList<>();
    byResult.values().forEach(group -> groups.add(positions(belief, group)));
    Set<Integer> all = new TreeSet<>(scope);
    groups.forEach(all::addAll);
    groups.add(all);
    double none = belief.chances().noneOf(all);
    boolean nothing = nothingWrong(file, policy, belief, decisions, all, none);
    boolean needed = shown || nothing;
    for (int g = 0; g < results.size(); g++) {
      String lead = decided.get(g).get(0).cause();
      needed |=
          !results.get(g).equals(Award.ASKED)
              && belief.chances().anyOf(groups.get(g)) >= policy.limit(lead);
    }
    if (needed
        && !budget.take(
            belief.firmness().draws() * Draws.drawing(belief.network(), belief.seen()))) {
      return Optional.empty();
    }
    double[] firmness = new double[groups.size()];
    for (int g = 0; g < firmness.length && needed; g++) {
      firmness[g] = belief.firmness().of(groups.get(g));
    }
    List<Matter> matters = new ArrayList<>();
    for (int g = 0; g < results.size(); g++) {
      double chance = belief.chances().anyOf(groups.get(g));
      if (chance >= policy.consider()) {
        matters.add(matter(policy, belief, decided.get(g), chance, firmness[g]));
      }
    }
    if (nothing) {
      Clause clause = policy.nothingFound().orElseThrow();
      matters.add(
          new Matter(
              clause.result().orElseThrow(),
              List.of(),
              clause,
              none,
              1 - firmness[results.size()],
              List.of(),
              ""));
    } else if (matters.isEmpty()) {
      matters.add(unsure(policy, decisions, firmness[results.size()]));
    }
    matters.sort(Comparator.comparingDouble((Matter m) -> -m.chance()));
    return Optional.of(
        new Judged(
            List.copyOf(matters),
            decisions,
            none,
            belief.confirmation().map(Confirmation::spoken).orElse("")));
  }

  private static Set<Integer> positions(Belief belief, List<Decision> decisions) {
    Set<Integer> positions = new TreeSet<>();
    decisions.forEach(each -> positions.add(belief.position(each.cause())));
    return positions;
  }

  /** The causes to decide on, most probable first. */
  private List<String> inQuestion(Claim claim, List<Integer> scope, Policy policy, Belief belief) {
    double[] posterior = belief.posterior().posterior();
    List<String> names = belief.network().causes();
    Set<Integer> chosen = new TreeSet<>();
    scope.stream().min(belief.posterior().likelierFirst()).ifPresent(chosen::add);
    scope.stream().filter(i -> posterior[i] >= WORTH_TELLING).forEach(chosen::add);
    belief
        .confirmation()
        .ifPresent(
            confirmed ->
                scope.stream()
                    .filter(i -> confirmed.causes().contains(names.get(i)))
                    .forEach(chosen::add));
    for (Cost cost : claim.costs()) {
      for (String cause : Costs.tied(cost, claim.costs(), belief, rules.vocabulary())) {
        if (belief.probability(cause) >= policy.consider()
            || cost.causes().contains(cause) && belief.position(cause) >= 0) {
          chosen.add(belief.position(cause));
        }
      }
    }
    return chosen.stream().sorted(belief.posterior().likelierFirst()).map(names::get).toList();
  }

  /** Decides on all causes in question, however firm the belief in them is. */
  private List<Decision> decisions(CaseFile file, Policy policy, Belief belief, Traces traces) {
    Claim claim = file.claim().orElseThrow();
    List<Integer> scope = Scope.of(claim, belief.network(), rules.vocabulary());
    List<String> causes = inQuestion(claim, scope, policy, belief);
    Map<String, List<Brought>> broughtBy = new LinkedHashMap<>();
    List<String> open = new ArrayList<>(causes);
    for (int at = 0; at < open.size(); at++) {
      String cause = open.get(at);
      List<Brought> by =
          brings.bringersOf(cause).stream()
              .map(each -> brought(cause, each, policy, belief))
              .filter(each -> each.probability() >= 1 - policy.limit(each.by()))
              .sorted(Comparator.comparingDouble((Brought b) -> -b.probability()))
              .toList();
      broughtBy.put(cause, by);
      by.stream().map(Brought::by).filter(each -> !open.contains(each)).forEach(open::add);
    }
    Set<String> byWrongFluid = new HashSet<>();
    for (String cause : open) {
      if (cause.equals(WRONG_FLUID)
          || !brings.why(WRONG_FLUID, cause).isEmpty()
              && belief.probability(WRONG_FLUID) >= policy.caused()) {
        byWrongFluid.add(cause);
      }
    }
    Map<String, Double> probabilities = new HashMap<>();
    open.forEach(cause -> probabilities.put(cause, belief.probability(cause)));
    Decider decider =
        new Decider(
            policy,
            warranty.consult(
                ClaimFacts.of(
                    file,
                    belief.model(),
                    policy,
                    open,
                    broughtBy,
                    byWrongFluid,
                    traces,
                    rules.vocabulary())),
            probabilities,
            broughtBy);
    return causes.stream().map(decider::decide).toList();
  }

  private Brought brought(String cause, String by, Policy policy, Belief belief) {
    double probability = belief.probability(by);
    return new Brought(cause, by, probability, probability >= policy.limit(by));
  }

  /**
   * Nothing is called right that nobody looked at: either one of the shop's own people signed that
   * nothing is wrong, or the fault was found elsewhere and what is claimed was looked at.
   */
  private static boolean nothingWrong(
      CaseFile file,
      Policy policy,
      Belief belief,
      List<Decision> decisions,
      Set<Integer> claimed,
      double none) {
    if (decisions.isEmpty()
        || policy.nothingFound().isEmpty()
        || none < policy.limit(decisions.get(0).cause())) {
      return false;
    }
    Optional<Confirmation> confirmation = belief.confirmation();
    if (confirmation.isPresent() && confirmation.get().causes().isEmpty()) {
      return confirmation.get().own();
    }
    Network network = belief.network();
    boolean elsewhere = false;
    for (int i = 0; i < network.causes().size(); i++) {
      elsewhere |=
          !claimed.contains(i)
              && belief.posterior().posterior()[i] >= policy.limit(network.causes().get(i));
    }
    return elsewhere
        && belief.seen().stream()
            .filter(seen -> !seen.ratherPresent())
            .anyMatch(
                seen -> claimed.stream().anyMatch(i -> network.strength()[i][seen.symptom()] > 0));
  }

  private static Matter matter(
      Policy policy, Belief belief, List<Decision> decisions, double chance, double firmness) {
    Decision lead = decisions.get(0);
    Optional<Clause> certainty = policy.certainty(lead.cause());
    if (lead.result().equals(Award.ASKED)) {
      return asked(policy, belief, decisions, chance, firmness);
    }
    String why =
        certainty
            .map(Clause::terms)
            .map(
                t ->
                    chance < t.probability()
                        ? asks("chance", chance, t.probability())
                        : firmness < t.firmness() ? asks("firmness", firmness, t.firmness()) : "")
            .orElse("");
    return why.isEmpty()
        ? new Matter(lead.result(), decisions, lead.clause(), chance, firmness, List.of(), "")
        : new Matter(
            Award.ASKED,
            decisions,
            certainty.orElseThrow(),
            chance,
            firmness,
            List.of(Missing.FINDINGS),
            why);
  }

  /** What likely causes lack; and which of them it is, where that is not known well enough. */
  private static Matter asked(
      Policy policy, Belief belief, List<Decision> decisions, double chance, double firmness) {
    Decision lead = decisions.get(0);
    List<Decision> likely =
        decisions.stream()
            .filter(d -> d == lead || d.probability() >= 1 - policy.limit(d.cause()))
            .toList();
    Set<Missing> missing = new TreeSet<>();
    likely.forEach(d -> missing.addAll(d.missing()));
    // Causes that hang on the same clause for want of the same go the same way once it is there.
    List<Decision> alike =
        decisions.stream()
            .filter(d -> d.clause() == lead.clause() && d.missing().equals(lead.missing()))
            .toList();
    boolean sure = belief.chances().anyOf(positions(belief, alike)) >= policy.limit(lead.cause());
    boolean firm =
        policy.certainty(lead.cause()).filter(c -> firmness < c.terms().firmness()).isEmpty();
    if (sure && firm) {
      return new Matter(
          Award.ASKED,
          decisions,
          lead.clause(),
          chance,
          firmness,
          List.copyOf(missing),
          String.join("; ", lead.why()));
    }
    missing.add(Missing.FINDINGS);
    return new Matter(
        Award.ASKED,
        decisions,
        policy.certainty(lead.cause()).orElse(lead.clause()),
        chance,
        firmness,
        List.copyOf(missing),
        "which fault it is, is not known well enough");
  }

  private static String asks(String what, double is, double least) {
    return String.format(
        Locale.ROOT, "its %s is %.3f, and the policy asks for %.2f", what, is, least);
  }

  /** No outcome is likelier than not. */
  private static Matter unsure(Policy policy, List<Decision> decisions, double firmness) {
    Set<Missing> missing = new TreeSet<>(Set.of(Missing.FINDINGS));
    decisions.stream()
        .filter(d -> d.probability() >= 1 - policy.limit(d.cause()))
        .forEach(d -> missing.addAll(d.missing()));
    Decision lead = decisions.get(0);
    return new Matter(
        Award.ASKED,
        decisions,
        policy.certainty(lead.cause()).orElse(lead.clause()),
        lead.probability(),
        firmness,
        List.copyOf(missing),
        "no outcome is likelier than not");
  }
}
