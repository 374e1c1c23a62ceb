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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Chooses what to do next by the expected cost of the whole repair, looking one step ahead: the
 * cheapest order of works as things stand, against each check followed by the cheapest order of
 * works for each way it may come out. Hard rules come first: a held work never leads; what releases
 * it takes its place.
 */
public final class Planner {
  /** A look must save at least this many minutes; a smaller saving counts as none. */
  private static final double WORTH_SAVING = 0.5;

  /** ... and this against the look that the works ask for anyway (from memory). */
  private static final double WORTH_A_DETOUR = 10;

  /** So many of the checks that promise most are weighed fully. */
  private static final int MOST_WEIGHED = 6;

  /** So many for the later steps of a plan, which is made anew before any of them is due. */
  private static final int LATER_WEIGHED = 2;

  /** So many where only the next step is wanted, not its cost. */
  private static final int FORESEEN_WEIGHED = 1;

  /** What may come after a look is weighed without the least likely stories, so much in all. */
  private static final double FORGOTTEN = 0.005;

  /** The plan follows its likelier branch no further than this many steps. */
  private static final int MOST_STEPS = 5;

  /** ... nor when this little is left that it should ever be followed so far. */
  private static final double TOO_UNLIKELY = 0.01;

  private static final double NEVER = 1e-9;

  final Tables tables;

  private final Map<State, WorkOrder> orders = new HashMap<>();
  private final Map<State, State[][]> afters = new HashMap<>();
  private final Map<State, State[]> failures = new HashMap<>();
  private final Map<State, Integer> foreseen = new HashMap<>();

  Planner(Problem problem) {
    this.tables = new Tables(problem);
  }

  /** The id of the one next step; empty where nothing is worth its minutes. */
  public static Optional<String> next(Problem problem) {
    Planner planner = new Planner(problem);
    Choice choice = planner.choose(State.start(planner.tables));
    return choice.isNone() ? Optional.empty() : Optional.of(planner.tables.id(choice.step()));
  }

  /** How far a plan goes; what must wait is told in any case. */
  public enum Extent {
    /** Its first step, without what follows, where it begins with a look; else the whole plan. */
    FIRST_LOOK,
    WHOLE
  }

  /** The plan as far as it is wanted. */
  public static Plan plan(Problem problem, Extent extent) {
    return new Planner(problem).plan(extent);
  }

  private Plan plan(Extent extent) {
    State start = State.start(tables);
    State state = start;
    Choice choice = choose(start);
    double expected = choice.cost();
    double reach = 1;
    int most = extent == Extent.FIRST_LOOK && choice.isLook() ? 1 : MOST_STEPS;
    List<Step> steps = new ArrayList<>();
    while (!choice.isNone() && steps.size() < most && reach > TOO_UNLIKELY) {
      List<Branch> branches = branches(state, choice.step());
      Branch on =
          branches.stream()
              .filter(branch -> branch.result() != Result.ALL_RIGHT)
              .max(Comparator.comparingDouble(Branch::probability))
              .orElseThrow();
      boolean goesOn = most > 1 && on.probability() > NEVER;
      Choice next = goesOn ? choose(on.state(), LATER_WEIGHED) : Choice.NOTHING;
      List<Outcome> outcomes = new ArrayList<>();
      for (Branch each : branches) {
        int follows = each == on || most == 1 ? next.step() : follows(each);
        outcomes.add(
            new Outcome(
                each.result(),
                each.symptom(),
                each.probability(),
                follows == Tables.NONE ? Optional.empty() : Optional.of(tables.id(follows))));
      }
      steps.add(step(start, state, choice, outcomes));
      reach *= on.probability();
      state = on.state();
      choice = next;
    }
    steps.addAll(waiting(start, steps.stream().map(Step::id).toList()));
    return new Plan(steps, expected);
  }

  /** One way a step may come out, and how things stand then. */
  private record Branch(Result result, int symptom, double probability, State state) {}

  private int follows(Branch branch) {
    boolean over = branch.result() == Result.ALL_RIGHT || branch.probability() <= NEVER;
    return over ? Tables.NONE : foresee(branch.state());
  }

  private List<Branch> branches(State state, int step) {
    if (step < 0) {
      List<Integer> shows = tables.problem.checks().get(~step).shows();
      List<Branch> branches = new ArrayList<>();
      for (int result = 0; result < tables.results(~step); result++) {
        double chance = state.chance(~step, result);
        if (chance > NEVER) {
          boolean found = result < shows.size();
          State after = after(state, ~step, result);
          branches.add(
              new Branch(
                  found ? Result.PRESENT : Result.ABSENT,
                  found ? shows.get(result) : -1,
                  chance,
                  after));
        }
      }
      return branches;
    }
    double stays = state.faultyAfter(tables, step) * (1 - tables.problem.shop().acceptanceMisses());
    Branch right = new Branch(Result.ALL_RIGHT, -1, 1 - stays, state);
    if (stays < NEVER) {
      return List.of(right, new Branch(Result.NOT_ALL_RIGHT, -1, 0, state));
    }
    State failed = failed(state, step);
    return List.of(right, new Branch(Result.NOT_ALL_RIGHT, -1, stays, failed));
  }

  /** The works that would help and are held, and do not stand in the plan already. */
  private List<Step> waiting(State start, List<String> listed) {
    List<Step> waiting = new ArrayList<>();
    for (int w = 0; w < tables.works; w++) {
      List<Hold> waits = tables.waits(w, start.done, start.made);
      double meets = meets(start, w);
      if (!waits.isEmpty() && meets > 0 && !listed.contains(tables.id(w))) {
        Why why = new Why(Reason.WAITS, meets, met(start, w));
        double minutes = tables.price(w, start.paid);
        waiting.add(
            new Step(tables.id(w), Kind.WORK, List.of(), minutes, 0, waits, why, List.of()));
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
        step < 0
            ? tables.problem.checks().get(~step).settles().stream().sorted().toList()
            : List.of(),
        tables.price(step, state.paid),
        saves(state, choice),
        step < 0 ? List.of() : tables.waits(step, start.done, start.made),
        why(state, choice),
        outcomes);
  }

  private Why why(State state, Choice choice) {
    int step = choice.step();
    double probability = step < 0 ? finds(state, ~step) : meets(state, step);
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

  /** Probability that the check finds anything. */
  private double finds(State state, int check) {
    return 1 - state.chance(check, tables.results(check) - 1);
  }

  /** The causes the check would make likelier if it found anything, the most gained first. */
  private List<String> spokenFor(State state, int check) {
    double[] before = state.belief(tables.causes.length);
    int none = tables.results(check) - 1;
    if (state.chance(check, none) < NEVER) {
      return List.of();
    }
    double[] without = after(state, check, none).belief(tables.causes.length);
    return IntStream.range(0, before.length)
        .filter(bit -> without[bit] < before[bit])
        .boxed()
        .sorted(Comparator.comparingDouble(bit -> without[bit] - before[bit]))
        .map(tables::cause)
        .toList();
  }

  /**
   * A choice.
   *
   * @param step the step, or {@link Tables#NONE}
   * @param cost expected cost of the rest of the repair, in minutes
   * @param releases works of the order that wait for the step
   */
  record Choice(int step, double cost, List<Integer> releases) {
    static final Choice NOTHING = new Choice(Tables.NONE, 0, List.of());

    boolean isNone() {
      return step == Tables.NONE;
    }

    boolean isLook() {
      return step < 0 && !isNone();
    }
  }

  /**
   * The best step as things stand: towards what is as good as found; else the look that makes the
   * repair cheapest, where one is worth it; else the cheapest order of works.
   */
  Choice choose(State state) {
    return choose(state, MOST_WEIGHED);
  }

  private Choice choose(State state, int most) {
    if (state.faulty < NEVER) {
      return testsOnly(state);
    }
    WorkOrder order = order(state);
    int towards = towardsWhatIsFound(state, order);
    if (towards != Tables.NONE) {
      return begin(state, order, towards);
    }
    // A look that the works ask for comes before one that would hardly save more: it is about what
    // is suspected, and a mechanic begins there.
    boolean looksAnyway = first(order) < 0 && order.steps.length > 0;
    double enough =
        looksAnyway
            ? Math.min(order.cost, afterCheck(state, ~first(order), null)) - WORTH_A_DETOUR
            : order.cost - WORTH_SAVING;
    for (Weighed look : looks(state, order, most)) {
      if (look.cost() >= enough
          || look.cost() >= looksLater(state, order, look.check()) - WORTH_SAVING) {
        break;
      }
      if (changesWhatIsDone(state, look.check())) {
        return new Choice(~look.check(), look.cost(), List.of());
      }
    }
    return order.steps.length == 0
        ? new Choice(Tables.NONE, order.cost, List.of())
        : begin(state, order, order.steps[0]);
  }

  /** Towards the acceptance check of a brake in which nothing is wrong. */
  private Choice testsOnly(State state) {
    for (int w = 0; w < tables.works; w++) {
      boolean open = tables.onlyTests(w) && (state.done >> w & 1) == 0;
      int step = open ? tables.towards(w, state.done, state.done, state.made) : Tables.NONE;
      if (step != Tables.NONE) {
        List<Integer> releases = step == w ? List.of() : List.of(w);
        return new Choice(step, tables.price(step, state.paid), releases);
      }
    }
    return Choice.NOTHING;
  }

  /** The step with the same care as {@link #choose}, but for what it leads to. */
  private int foresee(State state) {
    Integer known = foreseen.get(state);
    int step = known == null ? foreseen(state) : known;
    foreseen.put(state, step);
    return step;
  }

  private int foreseen(State state) {
    WorkOrder order = order(state);
    int towards = towardsWhatIsFound(state, order);
    if (towards != Tables.NONE) {
      return towards;
    }
    for (Weighed look : looks(state, order, FORESEEN_WEIGHED)) {
      return look.cost() < order.cost - WORTH_SAVING ? ~look.check() : first(order);
    }
    return first(order);
  }

  private static int first(WorkOrder order) {
    return order.steps.length == 0 ? Tables.NONE : order.steps[0];
  }

  /** Whether what follows the look hangs on what it finds. */
  private boolean changesWhatIsDone(State state, int check) {
    int next = Tables.NONE;
    boolean any = false;
    for (int result = 0; result < tables.results(check); result++) {
      if (state.chance(check, result) > TOO_UNLIKELY) {
        int follows = foresee(after(state, check, result));
        if (any && follows != next) {
          return true;
        }
        any = true;
        next = follows;
      }
    }
    return false;
  }

  /**
   * The step towards the first work of the order on what is as good as found; none where nothing
   * is. It would be done whatever else came out, so a look before it gains an acceptance check at
   * most, and a mechanic does not look past what lies open.
   */
  private int towardsWhatIsFound(State state, WorkOrder order) {
    double sure = tables.problem.shop().sure();
    if (sure > 1 || order.steps.length == 0) {
      return Tables.NONE;
    }
    double[] belief = state.belief(tables.causes.length);
    for (int step : order.steps) {
      if (step >= 0 && meetsOne(step, belief, sure)) {
        return tables.towards(step, state.done, state.done, state.made);
      }
    }
    return Tables.NONE;
  }

  private boolean meetsOne(int work, double[] belief, double enough) {
    return IntStream.range(0, belief.length)
        .anyMatch(bit -> (tables.mendable[work] >> bit & 1) != 0 && belief[bit] >= enough);
  }

  private boolean releases(int first, int step, State state) {
    return step >= 0 && step != first && tables.waitsFor(step, first, state.done, state.made);
  }

  /** A look, and what the repair is expected to cost if it is made now, and then works only. */
  private record Weighed(int check, double cost) {}

  /** The looks that promise most, the cheapest repair first. */
  private List<Weighed> looks(State state, WorkOrder order, int most) {
    Promises promises = new Promises(tables, state);
    promises.allow(order.steps);
    for (int front : fronts(state)) {
      promises.allow(broughtToFront(front, order.steps));
    }
    List<Weighed> looks = new ArrayList<>();
    for (int weighed = 0; weighed < most; weighed++) {
      int check = promises.takeBest();
      if (check >= 0) {
        looks.add(new Weighed(check, afterCheck(state, check, promises)));
      }
    }
    looks.sort(Comparator.comparingDouble(Weighed::cost));
    return looks;
  }

  private static int[] broughtToFront(int front, int[] steps) {
    int[] order = new int[steps.length + 1];
    order[0] = front;
    int count = 1;
    for (int step : steps) {
      if (step != front) {
        order[count++] = step;
      }
    }
    return Arrays.copyOf(order, count);
  }

  /**
   * What the repair is expected to cost if the order's first work is done now, and the look is made
   * only if it leaves something to mend.
   */
  private double looksLater(State state, WorkOrder order, int check) {
    int first = first(order);
    if (first < 0) {
      return order.cost;
    }
    double wrong = state.faultyAfter(tables, first);
    double cost = tables.price(first, state.paid) + wrong * tables.misses * tables.comeback;
    if (wrong < NEVER) {
      return cost;
    }
    State failed = failed(state, first);
    return cost + wrong * (1 - tables.misses) * afterCheck(failed, check, null);
  }

  /** This step of the order, or towards one of its works. */
  private Choice begin(State state, WorkOrder order, int first) {
    List<Integer> releases =
        Arrays.stream(order.steps).filter(step -> releases(first, step, state)).boxed().toList();
    return new Choice(first, order.cost, releases);
  }

  /** By how many minutes the repair would be dearer without the step. */
  private double saves(State state, Choice choice) {
    if (state.faulty < NEVER) {
      return 0;
    }
    int step = choice.step();
    long barred = step >= 0 ? 1L << step : 0;
    for (int work : choice.releases()) {
      barred |= step < 0 ? 1L << work : 0;
    }
    WorkOrder without = barred == 0 ? order(state) : WorkOrder.best(tables, state, barred);
    // The search is not exhaustive: with less to choose from it may happen on a cheaper order.
    return Math.max(0, without.cost - choice.cost());
  }

  private WorkOrder order(State state) {
    return orders.computeIfAbsent(state, each -> WorkOrder.best(tables, each, 0));
  }

  /** How things stand once the look has come out this way, but for what is hardly likely then. */
  private State after(State state, int check, int result) {
    State[][] known = afters.computeIfAbsent(state, each -> new State[tables.checks][]);
    if (known[check] == null) {
      known[check] = new State[tables.results(check)];
    }
    if (known[check][result] == null) {
      known[check][result] = state.after(tables, check, result).without(FORGOTTEN);
    }
    return known[check][result];
  }

  /** How things stand once the work was done in vain, but for what is hardly likely then. */
  private State failed(State state, int work) {
    State[] known = failures.computeIfAbsent(state, each -> new State[tables.works]);
    if (known[work] == null) {
      known[work] = state.afterFailed(tables, work).without(FORGOTTEN);
    }
    return known[work];
  }

  /** The best work for each cause that is at all likely, and the acceptance check. */
  private int[] fronts(State state) {
    double[] belief = state.belief(tables.causes.length);
    int[] fronts = new int[tables.works];
    int count = 0;
    long taken = 0;
    for (int bit = 0; bit < belief.length; bit++) {
      int best = belief[bit] > TOO_UNLIKELY ? firstFree(tables.menders[bit], state) : Tables.NONE;
      if (best >= 0 && (taken >> best & 1) == 0) {
        taken |= 1L << best;
        fronts[count++] = best;
      }
    }
    for (int w = 0; w < tables.works; w++) {
      if (tables.onlyTests(w) && (taken >> w & 1) == 0 && free(w, state)) {
        fronts[count++] = w;
      }
    }
    return Arrays.copyOf(fronts, count);
  }

  private int firstFree(int[] works, State state) {
    for (int work : works) {
      if (free(work, state)) {
        return work;
      }
    }
    return Tables.NONE;
  }

  private boolean free(int work, State state) {
    return tables.towards(work, state.done, state.done, state.made) == work;
  }

  /** Expected cost of the repair if this check is made now, and then works only. */
  private double afterCheck(State state, int check, @Nullable Promises promises) {
    double cost = tables.price(~check, state.paid);
    for (int result = 0; result < tables.results(check); result++) {
      double chance = state.chance(check, result);
      if (chance > NEVER) {
        WorkOrder order = order(after(state, check, result));
        cost += chance * order.cost;
        if (promises != null) {
          promises.allow(order.steps);
        }
      }
    }
    return cost;
  }
}
