package firmlever.warranty;

import static java.util.Objects.requireNonNull;

import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Cost;
import firmlever.document.Money;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Does;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Outcome.Payer;
import firmlever.warranty.policy.Policy;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Who pays what of the works and parts claimed for, to the coin.
 *
 * <p>A work is for the faults it mends, a part for those that sit in it; a bleed belongs to the
 * work that opened the brake, where there is one. Where a line is for several faults, the one whose
 * clause goes first in the policy decides it.
 *
 * @param lines one for each work and part, in the order of the claim
 */
public record Costs(List<Line> lines) {
  /** Nothing is claimed for with a price. */
  static final Costs NONE = new Costs(List.of());

  /**
   * One work or part.
   *
   * @param causes ids of the faults it is for, as far as they are decided on
   * @param result what is decided of it; asked where that is open
   * @param clause the clause that decides it; empty where it is open for want of more
   * @param pays what each pays of it; they add up to its price
   * @param missing what it lacks
   */
  public record Line(
      Cost cost,
      List<String> causes,
      Award result,
      Optional<Clause> clause,
      Map<Payer, Money> pays,
      Set<Missing> missing) {}

  /** What each pays of all lines; nobody who pays nothing. */
  public Map<Payer, Money> totals() {
    Map<Payer, Money> totals = new EnumMap<>(Payer.class);
    lines.forEach(
        line -> line.pays().forEach((payer, part) -> totals.merge(payer, part, Money::plus)));
    return totals;
  }

  /** The sum of all prices; empty where there are none. */
  public Optional<Money> total() {
    return lines.stream().map(line -> line.cost().price()).reduce(Money::plus);
  }

  /** The same works and parts where one result holds for all, as a person decided it. */
  Costs by(Award result) {
    return new Costs(
        lines.stream()
            .map(
                line ->
                    line(
                        line.cost(),
                        List.of(),
                        result,
                        Optional.empty(),
                        new LinkedHashMap<>(),
                        result.equals(Award.ASKED) ? line.missing() : Set.of()))
            .toList());
  }

  /** Ids of the causes a line may be for, before anything is decided; none for what follows. */
  static Set<String> tied(Cost cost, List<Cost> all, Belief belief, Vocabulary vocabulary) {
    if (!cost.causes().isEmpty()) {
      return new LinkedHashSet<>(cost.causes());
    }
    if (follows(cost, all, vocabulary)) {
      return Set.of();
    }
    if (!cost.work().isEmpty()) {
      return belief.model().mends().getOrDefault(cost.work(), Map.of()).keySet();
    }
    Set<String> causes = new LinkedHashSet<>();
    vocabulary.causes().values().stream()
        .filter(cause -> Scope.within(cause.part(), cost.part()))
        .forEach(cause -> causes.add(cause.id()));
    return causes;
  }

  /** A bleed, or fluid, beside a work that opens the brake and is none. */
  private static boolean follows(Cost cost, List<Cost> all, Vocabulary vocabulary) {
    return (vocabulary.worksThat(Does.FILLS).contains(cost.work()) || cost.part().equals("fluid"))
        && all.stream().anyMatch(each -> opens(each, vocabulary));
  }

  private static boolean opens(Cost cost, Vocabulary vocabulary) {
    return vocabulary.worksThat(Does.OPENS).contains(cost.work())
        && !vocabulary.worksThat(Does.FILLS).contains(cost.work());
  }

  /**
   * Settles all lines.
   *
   * @param decisions what is decided of each cause in question
   * @param settled the results that are sure enough
   * @param nothing what holds where nothing wrong was found; empty where something was
   */
  static Costs of(
      Claim claim,
      Policy policy,
      Belief belief,
      Vocabulary vocabulary,
      List<Decision> decisions,
      Set<Award> settled,
      Optional<Clause> nothing) {
    Set<String> opened = new LinkedHashSet<>();
    claim.costs().stream()
        .filter(each -> opens(each, vocabulary))
        .forEach(cost -> opened.addAll(tied(cost, claim.costs(), belief, vocabulary)));
    Map<String, Money> spent = new LinkedHashMap<>();
    List<Line> lines = new ArrayList<>();
    for (Cost cost : claim.costs()) {
      Set<String> tied =
          follows(cost, claim.costs(), vocabulary) && cost.causes().isEmpty()
              ? opened
              : tied(cost, claim.costs(), belief, vocabulary);
      List<Decision> of = decisions.stream().filter(d -> tied.contains(d.cause())).toList();
      if (nothing.isPresent()) {
        Award result = nothing.orElseThrow().result().orElseThrow();
        lines.add(line(cost, List.of(), result, nothing, spent, Set.of()));
      } else {
        lines.add(settle(cost, of, policy, belief, settled, spent));
      }
    }
    return new Costs(List.copyOf(lines));
  }

  private static Line settle(
      Cost cost,
      List<Decision> of,
      Policy policy,
      Belief belief,
      Set<Award> settled,
      Map<String, Money> spent) {
    List<Decision> ordered = new ArrayList<>(of);
    ordered.sort(
        Comparator.comparingInt((Decision d) -> -d.clause().priority())
            .thenComparingDouble(d -> -d.probability())
            .thenComparing(Decision::cause));
    Map<Award, Double> chances = new LinkedHashMap<>();
    Set<Integer> before = new TreeSet<>();
    double none = 1;
    for (int i = 0; i < ordered.size(); i++) {
      before.add(belief.position(ordered.get(i).cause()));
      Award result = ordered.get(i).result();
      if (i + 1 == ordered.size() || !ordered.get(i + 1).result().equals(result)) {
        double less = belief.chances().noneOf(before);
        chances.merge(result, none - less, Double::sum);
        none = less;
      }
    }
    for (Decision lead : ordered) {
      Award result = lead.result();
      if (settled.contains(result)
          && requireNonNull(chances.get(result)) >= policy.limit(lead.cause())) {
        List<String> causes =
            ordered.stream()
                .filter(d -> d.result().equals(result) && d.probability() >= policy.consider())
                .map(Decision::cause)
                .toList();
        Clause clause = leading(ordered, result).clause();
        return line(cost, causes, result, Optional.of(clause), spent, Set.of());
      }
    }
    Set<Missing> missing = new TreeSet<>();
    ordered.stream()
        .filter(d -> d.probability() >= 1 - policy.limit(d.cause()))
        .forEach(d -> missing.addAll(d.missing()));
    if (missing.isEmpty()) {
      missing.add(ordered.isEmpty() ? Missing.WHAT_FOR : Missing.FINDINGS);
    }
    List<String> causes = ordered.stream().map(Decision::cause).toList();
    return line(cost, causes, Award.ASKED, Optional.empty(), spent, missing);
  }

  /** The likeliest of those that come to the result. */
  private static Decision leading(List<Decision> ordered, Award result) {
    return ordered.stream()
        .filter(d -> d.result().equals(result))
        .max(Comparator.comparingDouble(Decision::probability))
        .orElseThrow();
  }

  private static Line line(
      Cost cost,
      List<String> causes,
      Award result,
      Optional<Clause> clause,
      Map<String, Money> spent,
      Set<Missing> missing) {
    Map<Payer, Money> pays = new EnumMap<>(Payer.class);
    Money price = cost.price();
    Money paid = result.equals(Award.ASKED) ? price : price.percent(result.sharePercent());
    Optional<Money> cap = clause.flatMap(each -> each.terms().cap());
    if (cap.isPresent()) {
      String id = clause.orElseThrow().id();
      Money before = spent.getOrDefault(id, price.nothing());
      paid = paid.atMost(cap.orElseThrow().minus(before));
      spent.put(id, before.plus(paid));
    }
    pays.put(result.pays(), paid);
    Money rest = price.minus(paid);
    if (!rest.isZero()) {
      pays.merge(Payer.CLAIMANT, rest, Money::plus);
    }
    return new Line(cost, List.copyOf(causes), result, clause, pays, Set.copyOf(missing));
  }
}
