package firmlever.warranty;

import firmlever.belief.Inference;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.TooManySymptoms;
import firmlever.casefile.CaseFile;
import firmlever.casefile.Fluid;
import firmlever.rulebase.WarrantyFacts.Basis;
import firmlever.rulebase.WarrantyFacts.Missing;
import firmlever.rulebase.WarrantyRules.State;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Symptom;
import firmlever.warranty.Clause.Terms;
import firmlever.warranty.Desk.Belief;
import firmlever.warranty.Dossier.Considered;
import firmlever.warranty.Dossier.Decision;
import firmlever.warranty.Dossier.Turn;
import firmlever.warranty.Outcome.Result;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * Finds what would turn a decision: the smallest sets of further findings that change it.
 *
 * <p>Belief is searched first, with one added answer at a time: the answers that move the cause the
 * furthest up or down are kept, with the missing facts and what could come to light. Sets of these
 * are then decided in full, the smallest first, so that whatever is named does turn the decision.
 */
final class TurnSearch {
  /** No more findings than this in a set. */
  static final int MOST = 3;

  /** Answers kept in each direction. */
  private static final int ANSWERS = 4;

  private static final int TOLD = 3;
  private static final double STILL_POSSIBLE = 0.01;

  /** Events and works that come to light are put a week back, or as far as the clause reaches. */
  private static final int A_WEEK = 7;

  private final Desk desk;
  private final Vocabulary vocabulary;

  TurnSearch(Desk desk, Vocabulary vocabulary) {
    this.desk = desk;
    this.vocabulary = vocabulary;
  }

  /**
   * Up to three of the smallest sets that turn the decision, each to another result. Where more is
   * asked for, also the smallest set that settles it, which may be larger.
   */
  List<Turn> turns(CaseFile file, Policy policy, Belief belief, Decision decision) {
    boolean asked = decision.result().equals(Result.ASKED);
    List<Further> settling = new ArrayList<>(missingFacts(file, policy, decision));
    List<Further> down = List.of();
    if (!decision.confirmed()) {
      List<Move> moves = moves(belief, decision);
      double now = belief.posterior().logOdds(position(belief, decision));
      down = strongest(moves, Comparator.comparingDouble(Move::logOdds), m -> m.logOdds() < now);
      Comparator<Move> highest = Comparator.comparingDouble(move -> -move.logOdds());
      List<Further> up = strongest(moves, highest, m -> m.logOdds() > now);
      if (!asked) {
        down = joined(down, up);
      } else if (decision.missing().contains(Missing.FINDINGS)) {
        settling.addAll(up);
      }
    }
    List<Further> all = joined(settling, down);
    Map<Optional<Result>, Turn> found = new LinkedHashMap<>();
    for (int size = 1; size <= MOST; size++) {
      boolean first = found.isEmpty();
      List<List<Further>> sets = new ArrayList<>();
      choose(first ? all : settling, size, 0, new ArrayList<>(), sets);
      if (size == 1) {
        comingToLight(file, policy, belief, decision).forEach(one -> sets.add(List.of(one)));
      }
      for (List<Further> set : sets) {
        Optional<Result> after = resultWith(file, policy, belief, decision, set);
        if (!after.equals(Optional.of(decision.result())) && (first || after.isPresent())) {
          found.putIfAbsent(after, new Turn(set, after));
        }
        if (found.size() == TOLD) {
          break;
        }
      }
      boolean settled = found.keySet().stream().anyMatch(Optional::isPresent);
      if (asked ? settled : !found.isEmpty()) {
        break;
      }
    }
    return List.copyOf(found.values());
  }

  private static List<Further> joined(List<Further> some, List<Further> others) {
    List<Further> all = new ArrayList<>(some);
    all.addAll(others);
    return all;
  }

  private static int position(Belief belief, Decision decision) {
    return belief.model().network().causes().indexOf(decision.cause());
  }

  /** The result for the same cause with the findings added; empty where it is not in question. */
  private Optional<Result> resultWith(
      CaseFile file, Policy policy, Belief belief, Decision before, List<Further> set) {
    CaseFile more = file;
    for (Further each : set) {
      more = each.addedTo(more);
    }
    boolean sameBelief = set.stream().noneMatch(Further::touchesBelief);
    try {
      List<Decision> decisions =
          desk.decide(more, policy, sameBelief ? belief : desk.belief(more, policy));
      return decisions.stream()
          .filter(each -> each.cause().equals(before.cause()))
          .map(Decision::result)
          .findFirst();
    } catch (TooManySymptoms e) {
      return Optional.of(before.result());
    }
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

  /** An answer, and the log odds of the cause with it. */
  private record Move(Further answer, double logOdds) {}

  private static List<Further> strongest(
      List<Move> moves, Comparator<Move> order, Predicate<Move> which) {
    return moves.stream().filter(which).sorted(order).limit(ANSWERS).map(Move::answer).toList();
  }

  /** Where each answer that has not been given yet would move the belief in the cause. */
  private List<Move> moves(Belief belief, Decision decision) {
    Network network = belief.model().network();
    int cause = position(belief, decision);
    List<Integer> possible = new ArrayList<>();
    for (int i = 0; i < network.causes().size(); i++) {
      if (i == cause || belief.posterior().posterior()[i] >= STILL_POSSIBLE) {
        possible.add(i);
      }
    }
    List<Move> moves = new ArrayList<>();
    for (int j = 0; j < network.symptoms().size(); j++) {
      Symptom symptom = vocabulary.symptoms().get(network.symptoms().get(j));
      int at = j;
      boolean bears = possible.stream().anyMatch(i -> network.strength()[i][at] > 0);
      if (!symptom.canBeChecked()
          || !bears
          || belief.model().findings().containsKey(symptom.id())) {
        continue;
      }
      for (boolean present : new boolean[] {true, false}) {
        List<Observation> seen = new ArrayList<>(belief.model().observations());
        seen.add(present ? Observation.present(j) : Observation.absent(j));
        try {
          moves.add(
              new Move(
                  Further.answer(symptom.id(), present),
                  Inference.solve(network, seen).logOdds(cause)));
        } catch (TooManySymptoms e) {
          // One answer more than the belief can hold: it is not offered.
          continue;
        }
      }
    }
    return moves;
  }

  /** What the decision lacks, each with the values that make a difference to some clause. */
  private static List<Further> missingFacts(CaseFile file, Policy policy, Decision decision) {
    List<Further> facts = new ArrayList<>();
    for (Missing missing : decision.missing()) {
      switch (missing) {
        case FINDINGS -> {}
        case FITTED_DATE ->
            days(file, policy, decision, Basis.FITTED)
                .forEach(day -> facts.add(Further.fitted(day)));
        case PURCHASE_DATE ->
            days(file, policy, decision, Basis.PURCHASED)
                .forEach(day -> facts.add(Further.purchased(day)));
        case LOAD ->
            terms(policy, decision, Clause.Kind.BEYOND_DUTY)
                .forEach(
                    t -> {
                      facts.add(Further.load(Math.floor(t.mostKg())));
                      facts.add(Further.load(Math.floor(t.mostKg()) + 1));
                    });
        case EARLIER_CLAIMS ->
            terms(policy, decision, Clause.Kind.GOODWILL)
                .forEach(
                    t -> {
                      facts.add(Further.earlierClaims(t.mostClaims()));
                      facts.add(Further.earlierClaims(t.mostClaims() + 1));
                    });
        case WHO_DID_IT -> {
          policy.technicians().stream()
              .sorted()
              .findFirst()
              .ifPresent(own -> facts.add(Further.doneBy(own, "this shop")));
          facts.add(Further.doneBy(stranger(policy), "others"));
          if (Fluid.UNKNOWN != other(file)) {
            facts.add(Further.event("home-serviced", A_WEEK, other(file)));
          }
        }
        case WHEN_IT_WAS -> {
          Set<Integer> reaches = new TreeSet<>();
          policy.about(decision.cause()).stream()
              .filter(clause -> clause.terms().days() > 0)
              .forEach(clause -> reaches.add(clause.terms().days()));
          for (int days : reaches) {
            facts.add(Further.daysAgo(days));
            facts.add(Further.daysAgo(days + 1));
          }
        }
        case WIPE_PUMP_HOLD, READINGS, PHOTOS, FLUID_TEST, SERVICE_RECORD ->
            facts.add(Further.evidence(missing));
      }
    }
    return facts;
  }

  /** For each month a clause counts to, the last first day within it and the first one beyond. */
  private static List<LocalDate> days(
      CaseFile file, Policy policy, Decision decision, Basis basis) {
    LocalDate day = Submitted.claimDay(file);
    Set<Integer> months = new TreeSet<>();
    for (Clause clause : policy.about(decision.cause())) {
      Terms t = clause.terms();
      if (t.basis() == basis) {
        months.addAll(List.of(t.months(), t.fromMonth(), t.untilMonth()));
      }
    }
    months.remove(0);
    List<LocalDate> days = new ArrayList<>();
    for (int each : months) {
      days.add(day.minusMonths(each).plusDays(1));
      days.add(day.minusMonths(each));
    }
    return days;
  }

  private static List<Terms> terms(Policy policy, Decision decision, Clause.Kind kind) {
    return policy.about(decision.cause()).stream()
        .filter(clause -> clause.kind() == kind)
        .map(Clause::terms)
        .toList();
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
  private List<Further> comingToLight(
      CaseFile file, Policy policy, Belief belief, Decision decision) {
    List<Further> found = new ArrayList<>();
    for (Considered each : decision.considered()) {
      Clause clause = each.clause();
      if (each.state() != State.FAILS || clause.result().equals(decision.result())) {
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
                    new TreeSet<>(belief.model().mends().keySet())
                        .stream()
                            .filter(
                                work ->
                                    belief.model().mends().get(work).containsKey(decision.cause()))
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
