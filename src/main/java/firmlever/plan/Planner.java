package firmlever.plan;

import firmlever.plan.Plan.Kind;
import firmlever.plan.Plan.Outcome;
import firmlever.plan.Plan.Reason;
import firmlever.plan.Plan.Result;
import firmlever.plan.Plan.Step;
import firmlever.plan.Plan.Why;
import firmlever.plan.Problem.Hold;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Chooses what to do next by the expected cost of the whole repair, looking one step ahead: the
 * cheapest order of works as things stand, against each check followed by the cheapest order of
 * works for each way it may come out. Hard rules come first: a held work never leads; what releases
 * it takes its place.
 */
public final class Planner {
  /** A check must save at least this, in minutes. */
  private static final double WORTH_SAVING = 1e-6;

  /** So many of the checks that promise most are weighed fully. */
  private static final int MOST_WEIGHED = 6;

  private static final int FORESEEN_WEIGHED = 2;

  /** The plan follows its likelier branch no further than this many steps. */
  private static final int MOST_STEPS = 5;

  /** ... nor when this little is left that it should ever be followed so far. */
  private static final double TOO_UNLIKELY = 0.01;

  private static final double NEVER = 1e-9;

  private static final double LIKELIER_THAN_NOT = 0.5;

  final Tables tables;

  Planner(Problem problem) {
    this.tables = new Tables(problem);
  }

  /** The one next step, without outcomes; empty where nothing is worth its minutes. */
  public static Optional<Step> next(Problem problem) {
    Planner planner = new Planner(problem);
    State start = planner.tables.start();
    Choice choice = planner.choose(start);
    return choice.isNone()
        ? Optional.empty()
        : Optional.of(planner.step(start, start, choice, List.of()));
  }

  /** The whole plan. */
  public static Plan plan(Problem problem) {
    return new Planner(problem).plan();
  }

  private Plan plan() {
    State start = tables.start();
    State state = start;
    Choice choice = choose(start);
    double expected = choice.cost();
    double reach = 1;
    List<Step> steps = new ArrayList<>();
    while (!choice.isNone() && steps.size() < MOST_STEPS && reach > TOO_UNLIKELY) {
      List<Branch> branches = branches(state, choice.step());
      List<Outcome> outcomes =
          branches.stream()
              .map(b -> new Outcome(b.result(), b.probability(), b.next().id(tables)))
              .toList();
      steps.add(step(start, state, choice, outcomes));
      Branch on =
          branches.stream()
              .filter(branch -> branch.result() != Result.ALL_RIGHT)
              .max(Comparator.comparingDouble(Branch::probability))
              .orElseThrow();
      reach *= on.probability();
      state = on.state();
      choice = on.next();
    }
    steps.addAll(waiting(start, steps.stream().map(Step::id).toList()));
    return new Plan(steps, expected);
  }

  /** One way a step may come out, how things stand then, and what follows. */
  private record Branch(Result result, double probability, State state, Choice next) {}

  private List<Branch> branches(State state, int step) {
    if (step < 0) {
      double chance = state.chance(tables, ~step);
      List<Branch> branches = new ArrayList<>();
      if (chance > NEVER) {
        State present = state.after(tables, ~step, true);
        branches.add(new Branch(Result.PRESENT, chance, present, foresee(present)));
      }
      if (chance < 1 - NEVER) {
        State absent = state.after(tables, ~step, false);
        branches.add(new Branch(Result.ABSENT, 1 - chance, absent, foresee(absent)));
      }
      return branches;
    }
    double stays = state.faultyAfter(tables, step) * (1 - tables.problem.shop().acceptanceMisses());
    Branch right = new Branch(Result.ALL_RIGHT, 1 - stays, state, Choice.NOTHING);
    if (stays < NEVER) {
      return List.of(right, new Branch(Result.NOT_ALL_RIGHT, 0, state, Choice.NOTHING));
    }
    State failed = state.afterFailed(tables, step);
    return List.of(right, new Branch(Result.NOT_ALL_RIGHT, stays, failed, foresee(failed)));
  }

  /** The works that would help and are held, and do not stand in the plan already. */
  private List<Step> waiting(State start, List<String> listed) {
    List<Step> waiting = new ArrayList<>();
    for (int w = 0; w < tables.works; w++) {
      List<Hold> waits = tables.waits(w, start);
      double meets = meets(start, w);
      if (!waits.isEmpty() && meets > 0 && !listed.contains(tables.id(w))) {
        Why why = new Why(Reason.WAITS, meets, met(start, w));
        double minutes = tables.price(w, start.paid);
        waiting.add(new Step(tables.id(w), Kind.WORK, minutes, 0, waits, why, List.of()));
      }
    }
    waiting.sort(Comparator.comparingDouble(step -> -step.why().probability()));
    return waiting;
  }

  private Step step(State start, State state, Choice choice, List<Outcome> outcomes) {
    int step = choice.step();
    return new Step(
        tables.id(step),
        step < 0 ? Kind.CHECK : Kind.WORK,
        tables.price(step, state.paid),
        choice.saves(),
        step < 0 ? List.of() : tables.waits(step, start),
        why(state, choice),
        outcomes);
  }

  private Why why(State state, Choice choice) {
    int step = choice.step();
    double probability = step < 0 ? state.chance(tables, ~step) : meets(state, step);
    if (!choice.releases().isEmpty()) {
      return new Why(
          Reason.RELEASES, probability, choice.releases().stream().map(tables::id).toList());
    }
    if (step < 0) {
      return new Why(Reason.TELLS_APART, probability, spokenFor(state, ~step));
    }
    return tables.mendable[step] == 0
        ? new Why(Reason.NOTHING_WRONG, 1 - state.faulty, List.of())
        : new Why(Reason.MENDS, probability, met(state, step));
  }

  /** Probability that a cause is there that the work can mend. */
  private double meets(State state, int work) {
    double meets = 0;
    for (int s = 0; s < state.masks.length; s++) {
      meets += (state.masks[s] & tables.mendable[work]) == 0 ? 0 : state.weights[s];
    }
    return meets;
  }

  /** The causes that are there which the work can mend, likeliest first. */
  private List<String> met(State state, int work) {
    double[] belief = state.belief(tables.causes.length);
    return IntStream.range(0, belief.length)
        .filter(bit -> (tables.mendable[work] >> bit & 1) != 0 && belief[bit] > 0)
        .boxed()
        .sorted(Comparator.comparingDouble(bit -> -belief[bit]))
        .map(tables::cause)
        .toList();
  }

  /** The causes the check would make likelier, the most gained first. */
  private List<String> spokenFor(State state, int check) {
    double[] before = state.belief(tables.causes.length);
    double[] after = state.after(tables, check, true).belief(tables.causes.length);
    return IntStream.range(0, before.length)
        .filter(bit -> after[bit] > before[bit])
        .boxed()
        .sorted(Comparator.comparingDouble(bit -> before[bit] - after[bit]))
        .map(tables::cause)
        .toList();
  }

  /**
   * A choice.
   *
   * @param step the step, or {@link Tables#NONE}
   * @param cost expected cost of the rest of the repair, in minutes
   * @param saves by how much it would be dearer without the step
   * @param releases works of the order that wait for the step
   */
  record Choice(int step, double cost, double saves, List<Integer> releases) {
    static final Choice NOTHING = new Choice(Tables.NONE, 0, 0, List.of());

    boolean isNone() {
      return step == Tables.NONE;
    }

    Optional<String> id(Tables tables) {
      return isNone() ? Optional.empty() : Optional.of(tables.id(step));
    }
  }

  /** The best step as things stand. */
  Choice choose(State state) {
    return choose(state, MOST_WEIGHED);
  }

  /** What would follow, foreseen with less care: it is planned anew when its turn comes. */
  private Choice foresee(State state) {
    return choose(state, FORESEEN_WEIGHED);
  }

  private Choice choose(State state, int mostWeighed) {
    WorkOrder order = WorkOrder.best(tables, state, 0);
    return mendsWhatIsFound(state, order)
        ? begin(state, order)
        : bestCheck(state, order, mostWeighed).orElseGet(() -> begin(state, order));
  }

  /**
   * Whether the order begins with a work on what is as good as found. It would be done whatever
   * else came out, so a look before it gains an acceptance check at most, and a mechanic does not
   * look past what lies open. A work that others wait for, such as mending a leak in sight, needs
   * only be likelier than not to meet its cause.
   */
  private boolean mendsWhatIsFound(State state, WorkOrder order) {
    boolean byCostAlone = tables.problem.shop().sure() > 1;
    if (byCostAlone || order.steps.length == 0 || order.steps[0] < 0) {
      return false;
    }
    int first = order.steps[0];
    double enough =
        Arrays.stream(order.steps).anyMatch(step -> releases(first, step, state))
            ? LIKELIER_THAN_NOT
            : tables.problem.shop().sure();
    double[] belief = state.belief(tables.causes.length);
    return IntStream.range(0, belief.length)
        .anyMatch(bit -> (tables.mendable[first] >> bit & 1) != 0 && belief[bit] >= enough);
  }

  private boolean releases(int first, int step, State state) {
    return step >= 0 && step != first && tables.waitsFor(step, first, state);
  }

  /** The check that leaves the repair cheapest, where one makes it cheaper than works alone. */
  private Optional<Choice> bestCheck(State state, WorkOrder order, int mostWeighed) {
    int best = Tables.NONE;
    double cost = order.cost;
    Promises promises = new Promises(tables, state);
    promises.allow(order.steps);
    for (int front : fronts(state)) {
      int[] rest = Arrays.stream(order.steps).filter(step -> step != front).toArray();
      promises.allow(IntStream.concat(IntStream.of(front), Arrays.stream(rest)).toArray());
    }
    for (int weighed = 0; weighed < Math.min(tables.checks, mostWeighed); weighed++) {
      int check = promises.takeBest();
      double with = check < 0 ? cost : afterCheck(state, check, promises);
      if (with < cost - WORTH_SAVING) {
        cost = with;
        best = ~check;
      }
    }
    return best == Tables.NONE
        ? Optional.empty()
        : Optional.of(new Choice(best, cost, order.cost - cost, List.of()));
  }

  /** The first step of the order of works. */
  private Choice begin(State state, WorkOrder order) {
    double cost = order.cost;
    if (order.steps.length == 0) {
      return new Choice(Tables.NONE, cost, 0, List.of());
    }
    int first = order.steps[0];
    List<Integer> releases =
        Arrays.stream(order.steps).filter(step -> releases(first, step, state)).boxed().toList();
    long barred = first >= 0 ? 1L << first : 0;
    for (int work : releases) {
      barred |= first < 0 ? 1L << work : 0;
    }
    double saves = WorkOrder.best(tables, state, barred).cost - cost;
    return new Choice(first, cost, saves, releases);
  }

  /** The best work for each cause that is at all likely, and the acceptance check. */
  private int[] fronts(State state) {
    double[] belief = state.belief(tables.causes.length);
    IntStream best =
        IntStream.range(0, belief.length)
            .filter(bit -> belief[bit] > TOO_UNLIKELY)
            .mapToObj(bit -> Arrays.stream(tables.menders[bit]))
            .flatMapToInt(menders -> menders.filter(w -> free(w, state)).limit(1));
    IntStream tests = IntStream.range(0, tables.works).filter(tables::onlyTests);
    return IntStream.concat(best, tests.filter(w -> free(w, state))).distinct().toArray();
  }

  private boolean free(int work, State state) {
    return tables.towards(work, state.done, state.done, state.made, state.found) == work;
  }

  /** Expected cost of the repair if this check is made now, and then works only. */
  private double afterCheck(State state, int check, Promises promises) {
    double chance = state.chance(tables, check);
    double cost = tables.price(~check, state.paid);
    for (boolean present : new boolean[] {true, false}) {
      double probability = present ? chance : 1 - chance;
      if (probability > NEVER) {
        WorkOrder order = WorkOrder.best(tables, state.after(tables, check, present), 0);
        cost += probability * order.cost;
        promises.allow(order.steps);
      }
    }
    return cost;
  }
}
