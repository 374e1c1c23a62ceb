package firmlever.warranty;

import firmlever.belief.Elimination;
import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.WorkBudget;
import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Claim;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Statement;
import firmlever.casefile.Fluid;
import firmlever.rulebase.warranty.WarrantyFacts.Basis;
import firmlever.rulebase.warranty.WarrantyFacts.Missing;
import firmlever.rulebase.warranty.WarrantyRules.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Symptom;
import firmlever.warranty.ClaimJudge.Premise;
import firmlever.warranty.Judged.Considered;
import firmlever.warranty.Judged.Decision;
import firmlever.warranty.policy.Clause;
import firmlever.warranty.policy.Clause.Terms;
import firmlever.warranty.policy.Outcome.Award;
import firmlever.warranty.policy.Policy;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * Finds what would turn a decision: the smallest sets of further findings that change it.
 *
 * <p>Answers to checks are searched over the belief: those that move the cause the furthest are put
 * together, and the sets that move it the furthest are kept, beside the facts that are missing and
 * what could come to light. What is kept is decided in full, the smallest sets first, so that
 * whatever is named does turn the decision. The search ends with what it has where its budget is
 * used up.
 */
final class TurnSearch {
  /** No more findings than this in a set. */
  static final int MOST = 3;

  /** Answers put together in each direction. */
  private static final int ANSWERS = 6;

  /** Sets of answers of each size that are decided in full. */
  private static final int TRIED = 2;

  private static final int TOLD = 3;
  private static final double STILL_POSSIBLE = 0.03;

  /** Events and works that come to light are put a week back, or as far as the clause reaches. */
  private static final int A_WEEK = 7;

  private final ClaimJudge judge;
  private final Vocabulary vocabulary;

  TurnSearch(ClaimJudge judge, Vocabulary vocabulary) {
    this.judge = judge;
    this.vocabulary = vocabulary;
  }

  /**
   * What was found.
   *
   * @param allTried whether the budget lasted to the end
   */
  record Found(List<Turn> turns, boolean allTried) {}

  /**
   * What is searched: a claim, and what is decided of it.
   *
   * @param premises by the further findings that touch the belief, what is believed with them
   * @param known what sets of findings were found to come to
   */
  private record Search(
      CaseFile file,
      Policy policy,
      Premise premise,
      Judged judged,
      int cause,
      Map<List<Further>, Premise> premises,
      Map<List<Further>, Judged> known) {
    Belief belief() {
      return premise.belief();
    }
  }

  /**
   * Up to three of the smallest sets that turn the decision, each to another result. Where more is
   * asked for, also the smallest set that settles it, which may be larger.
   */
  Found turns(CaseFile file, Policy policy, Premise premise, Judged judged, WorkBudget budget) {
    List<Award> now = judged.results();
    boolean asked = now.contains(Award.ASKED);
    int cause = premise.belief().position(judged.decisions().get(0).cause());
    Search search =
        new Search(file, policy, premise, judged, cause, new HashMap<>(), new HashMap<>());
    search.premises().put(List.of(), premise);
    List<Further> facts = missingFacts(search);
    // Half of it: what the answers promise is worth nothing without a decision in full.
    WorkBudget half = WorkBudget.of(budget.left() / 2);
    List<Move> singles = singles(search, half);
    budget.take(half.spent());
    Map<List<Award>, Turn> found = new LinkedHashMap<>();
    for (int size = 1; size <= MOST && !budget.usedUp(); size++) {
      boolean first = found.isEmpty();
      List<List<Further>> sets = new ArrayList<>();
      choose(facts, size, 0, new ArrayList<>(), sets);
      if (judged.missing().contains(Missing.FINDINGS)) {
        withAnswers(search, singles, facts, size, sets, budget);
      }
      if (first) {
        sets.addAll(answers(search, singles, size, false, budget));
      }
      if (size == 1) {
        comingToLight(search).forEach(one -> sets.add(List.of(one)));
      }
      for (List<Further> set : sets) {
        Optional<Judged> after = outlook(search, set, budget);
        if (after.isEmpty()) {
          break;
        }
        List<Award> end = after.get().results();
        if (!end.equals(now) && (first || settled(end))) {
          found.putIfAbsent(
              end, smallest(search, new Turn(set, after.get().matters()), end, budget));
        }
        if (found.size() == TOLD) {
          break;
        }
      }
      boolean settled = found.keySet().stream().anyMatch(TurnSearch::settled);
      if (asked ? settled : !found.isEmpty()) {
        break;
      }
    }
    return new Found(List.copyOf(found.values()), !half.usedUp() && !budget.usedUp());
  }

  /** The set without whatever is not needed for the same end. */
  private Turn smallest(Search search, Turn turn, List<Award> end, WorkBudget budget) {
    for (Further each : turn.findings()) {
      List<Further> fewer = new ArrayList<>(turn.findings());
      fewer.remove(each);
      Optional<Judged> after =
          fewer.isEmpty()
              ? Optional.empty()
              : outlook(search, fewer, budget).filter(judged -> judged.results().equals(end));
      if (after.isPresent()) {
        return smallest(search, new Turn(fewer, after.get().matters()), end, budget);
      }
    }
    return turn;
  }

  private static boolean settled(List<Award> results) {
    return !results.contains(Award.ASKED);
  }

  /** Answers that make the cause surer, alone and beside missing facts. */
  private void withAnswers(
      Search search,
      List<Move> singles,
      List<Further> facts,
      int size,
      List<List<Further>> sets,
      WorkBudget budget) {
    for (int told = 0; told < size; told++) {
      List<List<Further>> some = new ArrayList<>();
      choose(facts, told, 0, new ArrayList<>(), some);
      for (List<Further> answers : answers(search, singles, size - told, true, budget)) {
        some.forEach(each -> sets.add(joined(each, answers)));
      }
    }
  }

  private static <T> List<T> joined(List<T> some, List<T> others) {
    List<T> all = new ArrayList<>(some);
    all.addAll(others);
    return all;
  }

  /** What the claim comes to with the findings added; empty where the budget is used up. */
  private Optional<Judged> outlook(Search search, List<Further> set, WorkBudget budget) {
    Optional<Judged> known = Optional.ofNullable(search.known().get(set));
    if (known.isEmpty()) {
      known = decided(search, set, budget);
      known.ifPresent(judged -> search.known().put(set, judged));
    }
    return known;
  }

  private Optional<Judged> decided(Search search, List<Further> set, WorkBudget budget) {
    List<Further> touching = set.stream().filter(Further::touchesBelief).toList();
    Premise premise = search.premises().get(touching);
    if (premise == null) {
      int draws = search.belief().firmness().draws();
      Optional<Premise> made =
          judge.premise(added(search.file(), touching), search.policy(), draws, budget);
      if (made.isEmpty()) {
        return Optional.empty();
      }
      premise = made.get();
      search.premises().put(touching, premise);
    }
    return judge.outlook(
        added(search.file(), set), search.policy(), premise, search.judged(), budget);
  }

  private static CaseFile added(CaseFile file, List<Further> set) {
    CaseFile more = file;
    for (Further each : set) {
      more = each.addedTo(more);
    }
    return more;
  }

  /** All sets of that size that say no symptom or fact twice. */
  private static void choose(
      List<Further> from, int size, int start, List<Further> chosen, List<List<Further>> sets) {
    if (chosen.size() == size) {
      sets.add(List.copyOf(chosen));
      return;
    }
    for (int i = start; i < from.size(); i++) {
      Further next = from.get(i);
      if (chosen.stream().noneMatch(each -> each.id().equals(next.id()))) {
        chosen.add(next);
        choose(from, size, i + 1, chosen, sets);
        chosen.remove(chosen.size() - 1);
      }
    }
  }

  /** Answers to checks, the last of them as it is seen, and the log odds of the cause with all. */
  private record Move(
      List<Further> answers, Observation last, List<Observation> seen, double logOdds) {}

  /** The sets of answers of that size that move the belief in the cause the furthest. */
  private static List<List<Further>> answers(
      Search search, List<Move> singles, int size, boolean up, WorkBudget budget) {
    Belief belief = search.belief();
    int cause = search.cause();
    double now = belief.posterior().logOdds(cause);
    List<Move> single =
        furthest(singles, up, ANSWERS).stream()
            .filter(move -> up ? move.logOdds() > now : move.logOdds() < now)
            .toList();
    List<Move> moves = single;
    for (int more = 1; more < size; more++) {
      List<Move> larger = new ArrayList<>();
      for (Move move : moves) {
        Further last = move.answers().get(move.answers().size() - 1);
        boolean after = false;
        for (Move next : single) {
          Further answer = next.answers().get(0);
          if (after && move.answers().stream().noneMatch(a -> a.id().equals(answer.id()))) {
            joined(belief, cause, move, next, budget).ifPresent(larger::add);
          }
          after |= answer == last;
        }
      }
      moves = larger;
    }
    return furthest(moves, up, TRIED).stream().map(Move::answers).toList();
  }

  private static List<Move> furthest(List<Move> moves, boolean up, int many) {
    Comparator<Move> order = Comparator.comparingDouble(Move::logOdds);
    return moves.stream().sorted(up ? order.reversed() : order).limit(many).toList();
  }

  /**
   * Where each answer that has not been given yet would move the belief in the cause, in the order
   * of the symptoms. Those the cause shows most often are solved first, for the budget may not last
   * for all.
   */
  private List<Move> singles(Search search, WorkBudget budget) {
    Belief belief = search.belief();
    Network network = belief.network();
    int cause = search.cause();
    List<Integer> possible = new ArrayList<>();
    for (int i = 0; i < network.causes().size(); i++) {
      if (i == cause || belief.posterior().posterior()[i] >= STILL_POSSIBLE) {
        possible.add(i);
      }
    }
    List<Integer> open = new ArrayList<>();
    for (int j = 0; j < network.symptoms().size(); j++) {
      Symptom symptom = vocabulary.symptoms().get(network.symptoms().get(j));
      int at = j;
      // What somebody confirmed is no symptom that can be looked for.
      if (symptom != null
          && symptom.canBeChecked()
          && !belief.model().findings().containsKey(symptom.id())
          && possible.stream().anyMatch(i -> network.strength()[i][at] > 0)) {
        open.add(j);
      }
    }
    open.sort(Comparator.comparingDouble(j -> -network.strength()[cause][j]));
    Map<Integer, List<Move>> moves = new TreeMap<>();
    // What is absent adds nothing to the table, so that its shape stays.
    Elimination shape = Elimination.of(network, belief.seen());
    for (int j : open) {
      boolean hinted = belief.seen().stream().anyMatch(seen -> seen.symptom() == j);
      List<Observation> absent = Observation.joined(belief.seen(), Observation.absent(j));
      Elimination its = hinted ? Elimination.of(network, absent) : shape;
      if (!budget.take(its.work())) {
        break;
      }
      Inference.Posterior without = Inference.solve(network, absent, its);
      String symptom = network.symptoms().get(j);
      moves.put(
          j,
          List.of(
              new Move(
                  List.of(Further.answer(symptom, true)),
                  Observation.present(j),
                  Observation.joined(belief.seen(), Observation.present(j)),
                  otherwise(belief.posterior(), without, cause)),
              new Move(
                  List.of(Further.answer(symptom, false)),
                  Observation.absent(j),
                  absent,
                  without.logOdds(cause))));
    }
    return moves.values().stream().flatMap(List::stream).toList();
  }

  /**
   * Log odds of a cause after one answer, from those before it and after the other. The difference
   * is off in its last digits; it only says what to try first.
   */
  private static double otherwise(
      Inference.Posterior before, Inference.Posterior other, int cause) {
    double chance = Math.exp(other.logEvidence() - before.logEvidence());
    double with = before.posterior()[cause] - chance * other.posterior()[cause];
    double without = 1 - before.posterior()[cause] - chance * (1 - other.posterior()[cause]);
    return Math.log(Math.max(Double.MIN_NORMAL, with))
        - Math.log(Math.max(Double.MIN_NORMAL, without));
  }

  /** Both together; nothing where the budget is used up. */
  private static Optional<Move> joined(
      Belief belief, int cause, Move move, Move next, WorkBudget budget) {
    List<Observation> seen = Observation.joined(move.seen(), next.last());
    return Inference.solve(belief.network(), seen, budget)
        .map(
            solved ->
                new Move(
                    joined(move.answers(), next.answers()),
                    next.last(),
                    seen,
                    solved.logOdds(cause)));
  }

  /** What the decision lacks, each with the values that make a difference to some clause. */
  private List<Further> missingFacts(Search search) {
    CaseFile file = search.file();
    Policy policy = search.policy();
    Optional<String> own = policy.technicians().stream().sorted().findFirst();
    List<Further> facts = new ArrayList<>();
    for (Missing missing : search.judged().missing()) {
      switch (missing) {
        case FINDINGS, WHAT_FOR -> {}
        case FITTED_DATE ->
            days(search, Basis.FITTED).forEach(day -> facts.add(Further.fitted(day)));
        case PURCHASE_DATE -> {
          if (file.claim().flatMap(Claim::purchased).isPresent()) {
            facts.add(Further.evidence(missing));
          } else {
            days(search, Basis.PURCHASED).forEach(day -> facts.add(Further.boughtWithProof(day)));
          }
        }
        case AROSE -> showed(search).forEach(day -> facts.add(Further.arose(day)));
        case ORIGIN ->
            own.ifPresent(
                code -> {
                  facts.add(Further.origin(Statement.MADE_SO, "in the part as made", code));
                  file.history().stream()
                      .map(entry -> entry.work() + entry.event())
                      .distinct()
                      .forEach(what -> facts.add(Further.origin(what, what, code)));
                });
        case LOAD ->
            terms(search, Clause.Kind.BEYOND_DUTY)
                .forEach(
                    t -> {
                      facts.add(Further.load(Math.floor(t.mostKg())));
                      facts.add(Further.load(Math.floor(t.mostKg()) + 1));
                    });
        case EARLIER_CLAIMS ->
            terms(search, Clause.Kind.GOODWILL)
                .forEach(
                    t -> {
                      facts.add(Further.earlierClaims(t.mostClaims()));
                      facts.add(Further.earlierClaims(t.mostClaims() + 1));
                    });
        case WHO_DID_IT -> {
          own.ifPresent(code -> facts.add(Further.doneBy(code, "this shop")));
          facts.add(Further.doneBy(stranger(policy), "others"));
          if (Fluid.UNKNOWN != other(file)) {
            facts.add(Further.event("home-serviced", A_WEEK, other(file)));
          }
        }
        case WHICH_FLUID -> {
          facts.add(Further.fluid(file.brake().fluid(), vocabulary));
          if (Fluid.UNKNOWN != other(file)) {
            facts.add(Further.fluid(other(file), vocabulary));
          }
        }
        case WHEN_IT_WAS -> {
          Set<Integer> reaches = new TreeSet<>();
          clauses(search)
              .filter(clause -> clause.terms().days() > 0)
              .forEach(clause -> reaches.add(clause.terms().days()));
          for (int days : reaches) {
            facts.add(Further.daysAgo(days));
            facts.add(Further.daysAgo(days + 1));
          }
        }
        case WIPE_PUMP_HOLD, READINGS, PHOTOS, FLUID_TEST, SERVICE_RECORD, PRIOR_APPROVAL ->
            facts.add(Further.evidence(missing));
      }
    }
    return facts;
  }

  /** The clauses about any cause that is decided on. */
  private static Stream<Clause> clauses(Search search) {
    return search.judged().decisions().stream()
        .flatMap(decision -> search.policy().about(decision.cause()).stream())
        .distinct();
  }

  /** For each month a clause counts to, the last first day within it and the first one beyond. */
  private static List<LocalDate> days(Search search, Basis basis) {
    LocalDate day =
        search.file().claim().flatMap(Claim::arose).orElse(Submitted.lastDay(search.file()));
    List<LocalDate> days = new ArrayList<>();
    for (int each : months(search, basis)) {
      days.add(day.minusMonths(each).plusDays(1));
      days.add(day.minusMonths(each));
    }
    return days;
  }

  private static Set<Integer> months(Search search, Basis basis) {
    Set<Integer> months = new TreeSet<>();
    clauses(search)
        .map(Clause::terms)
        .filter(t -> t.basis() == basis)
        .forEach(t -> months.addAll(List.of(t.months(), t.fromMonth(), t.untilMonth())));
    months.remove(0);
    return months;
  }

  /** Days on which the fault may have shown: around each entry of the record and each period. */
  private static Set<LocalDate> showed(Search search) {
    CaseFile file = search.file();
    Set<LocalDate> days = new TreeSet<>();
    for (Entry entry : file.history()) {
      entry
          .daysAgo()
          .ifPresent(
              ago -> {
                days.add(file.opened().minusDays(ago));
                days.add(file.opened().minusDays(ago + 1L));
              });
    }
    file.brake().fitted().ifPresent(from -> around(search, Basis.FITTED, from, days));
    file.claim()
        .flatMap(Claim::purchased)
        .ifPresent(from -> around(search, Basis.PURCHASED, from, days));
    LocalDate last = Submitted.lastDay(file);
    days.add(last);
    days.removeIf(
        day ->
            day.isAfter(last)
                || file.brake().fitted().filter(day::isBefore).isPresent()
                || file.claim().flatMap(Claim::purchased).filter(day::isBefore).isPresent());
    return days;
  }

  private static void around(Search search, Basis basis, LocalDate from, Set<LocalDate> days) {
    for (int each : months(search, basis)) {
      days.add(from.plusMonths(each));
      days.add(from.plusMonths(each).minusDays(1));
    }
  }

  private static List<Terms> terms(Search search, Clause.Kind kind) {
    return clauses(search).filter(clause -> clause.kind() == kind).map(Clause::terms).toList();
  }

  /** A code that is none of the shop's own. */
  private static String stranger(Policy policy) {
    String code = "elsewhere";
    while (policy.technicians().contains(code)) {
      code += "-";
    }
    return code;
  }

  /** A fluid of another family than the brake is built for; unknown where that is not told. */
  private static Fluid other(CaseFile file) {
    return switch (file.brake().fluid().family()) {
      case MINERAL -> Fluid.DOT_4;
      case GLYCOL, SILICONE -> Fluid.MINERAL_OIL;
      case OTHER, UNKNOWN -> Fluid.UNKNOWN;
    };
  }

  /** For each clause that was passed over, what would have made it hold. */
  private static List<Further> comingToLight(Search search) {
    CaseFile file = search.file();
    Policy policy = search.policy();
    Decision decision = search.judged().decisions().get(0);
    List<Further> found = new ArrayList<>();
    for (Considered each : decision.considered()) {
      Clause clause = each.clause();
      if (each.state() != State.FAILS || clause.result().equals(Optional.of(decision.result()))) {
        continue;
      }
      int days = clause.terms().days() == 0 ? A_WEEK : Math.min(A_WEEK, clause.terms().days());
      Optional<String> own = policy.technicians().stream().sorted().findFirst();
      switch (clause.kind()) {
        case CRASH -> found.add(Further.event("crashed", days, Fluid.UNKNOWN));
        case OPENED_BY_OTHERS -> found.add(Further.event("home-serviced", days, Fluid.UNKNOWN));
        case WRONG_FLUID -> {
          if (other(file) != Fluid.UNKNOWN) {
            found.add(Further.event("home-serviced", days, other(file)));
          }
        }
        case OWN_WORK ->
            own.ifPresent(
                code ->
                    clause.terms().works().stream()
                        .sorted()
                        .findFirst()
                        .ifPresent(
                            work -> found.add(Further.ownWork(work, days, code, Fluid.UNKNOWN))));
        case REPEAT_REPAIR ->
            own.ifPresent(
                code ->
                    new TreeMap<>(search.belief().model().mends())
                        .entrySet().stream()
                            .filter(mend -> mend.getValue().containsKey(decision.cause()))
                            .map(Map.Entry::getKey)
                            .findFirst()
                            .ifPresent(
                                work ->
                                    found.add(Further.ownWork(work, days, code, Fluid.UNKNOWN))));
        default -> {
          // Nothing that is untold can make a clause of the other kinds hold.
        }
      }
    }
    return found;
  }
}
