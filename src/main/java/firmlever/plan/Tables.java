package firmlever.plan;

import static java.util.Objects.requireNonNull;

import firmlever.belief.Scenarios.Scenario;
import firmlever.plan.Problem.Check;
import firmlever.plan.Problem.Hold;
import firmlever.plan.Problem.HoldKind;
import firmlever.plan.Problem.Work;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * The problem as arrays. Causes are bits of a long, in the order in which the scenarios name them;
 * steps are numbers: {@code w} for the work at that position, {@code ~c} for the check.
 */
final class Tables {
  /** No step. */
  static final int NONE = Integer.MIN_VALUE;

  /** What is set up already shortens a step, but never below this share of its minutes. */
  private static final double LEAST_SHARE = 0.25;

  private static final int MOST_SET_UPS = 16;

  final Problem problem;
  final int checks;
  final int works;

  /** Position in the network of the cause of each bit. */
  final int[] causes;

  /**
   * By scenario: bits of its causes, and its share of the probability of all. Not to be changed.
   */
  final long[] masks;

  final double[] weights;

  /** By work and bit: probability that one go mends the cause. */
  final double[][] mends;

  /** By work: bits of the causes it can mend. */
  final long[] mendable;

  /** By bit: works that mend the cause, the most mended per minute first. */
  final int[][] menders;

  /** Probability that the acceptance check passes what is wrong; cost of that in minutes. */
  final double misses;

  final double comeback;

  /** Cost of giving up a brake that is not all right, in minutes. */
  final double giveUp;

  private final List<String> setUps;

  /** By set of set-ups, as bits: their minutes. */
  private final double[] setUpMinutes;

  /** By kind, works first, and step: minutes alone, and set-ups needed. */
  private final double[][] minutes;

  private final int[][] needs;

  /** By work: parts and acceptance check, in minutes. */
  private final double[] afterWork;

  /**
   * By check and symptom: probability that it does not show by itself, nor, by bit, through each
   * cause.
   */
  private final double[][] quiet;

  private final double[][][] quietWith;

  /** By check and causes present: how it may come out. */
  private final List<Map<Long, double[]>> results = new ArrayList<>();

  /** By work: its holds. */
  private final Waiting[][] waiting;

  /** By work: works that release any hold of it, as bits. */
  private final long[] releasedBy;

  final boolean anyHolds;

  /**
   * A hold, resolved.
   *
   * @param check position of the check it speaks of, or -1
   * @param releasers works any of which releases it, best first; none but for a hold on works
   * @param released the same as bits
   */
  record Waiting(Hold hold, int check, int[] releasers, long released) {
    boolean open(long done, BitSet made) {
      return check < 0 ? (done & released) == 0 : !made.get(check);
    }
  }

  Tables(Problem problem) {
    this.problem = problem;
    this.checks = problem.checks().size();
    this.works = problem.works().size();
    this.misses = problem.shop().acceptanceMisses();
    this.comeback = problem.shop().comebackMinutes();
    this.giveUp = problem.shop().giveUpMinutes();
    this.causes =
        problem.scenarios().stream()
            .flatMapToInt(s -> Arrays.stream(s.causes()))
            .distinct()
            .toArray();
    if (causes.length > Long.SIZE || works > Long.SIZE) {
      throw new IllegalArgumentException(
          "at most 64 causes and 64 works, not " + causes.length + " and " + works);
    }
    masks = new long[problem.scenarios().size()];
    weights = new double[masks.length];
    readScenarios();
    setUps = problem.shop().setUpMinutes().keySet().stream().sorted().toList();
    if (setUps.size() > MOST_SET_UPS) {
      throw new IllegalArgumentException(
          "at most " + MOST_SET_UPS + " set-ups, not " + setUps.size());
    }
    setUpMinutes = new double[1 << setUps.size()];
    for (int set = 1; set < setUpMinutes.length; set++) {
      String first = setUps.get(Integer.numberOfTrailingZeros(set));
      setUpMinutes[set] =
          setUpMinutes[set & (set - 1)] + requireNonNull(problem.shop().setUpMinutes().get(first));
    }
    minutes = new double[][] {new double[works], new double[checks]};
    needs = new int[][] {new int[works], new int[checks]};
    afterWork = new double[works];
    mends = new double[works][causes.length];
    mendable = new long[works];
    for (int w = 0; w < works; w++) {
      Work work = problem.works().get(w);
      minutes[0][w] = work.minutes();
      needs[0][w] = bits(work.needs());
      for (String part : work.parts()) {
        afterWork[w] +=
            problem.shop().partMinutes().getOrDefault(part, problem.shop().otherPartMinutes());
      }
      if (!work.mends().isEmpty()) {
        afterWork[w] += problem.shop().acceptanceMinutes();
      }
      for (int bit = 0; bit < causes.length; bit++) {
        mends[w][bit] = work.mends().getOrDefault(causes[bit], 0.0);
        if (mends[w][bit] > 0) {
          mendable[w] |= 1L << bit;
        }
      }
    }
    quiet = new double[checks][];
    quietWith = new double[checks][][];
    for (int c = 0; c < checks; c++) {
      Check check = problem.checks().get(c);
      minutes[1][c] = check.minutes();
      needs[1][c] = bits(check.needs());
      results.add(new HashMap<>());
      quiet[c] = new double[check.shows().size()];
      quietWith[c] = new double[check.shows().size()][causes.length];
      for (int k = 0; k < quiet[c].length; k++) {
        int symptom = check.shows().get(k);
        quiet[c][k] = 1 - problem.network().background()[symptom];
        for (int bit = 0; bit < causes.length; bit++) {
          quietWith[c][k][bit] = 1 - problem.network().strength()[causes[bit]][symptom];
        }
      }
    }
    menders = new int[causes.length][];
    for (int bit = 0; bit < causes.length; bit++) {
      int at = bit;
      menders[bit] =
          IntStream.range(0, works)
              .filter(w -> mends[w][at] > 0)
              .boxed()
              .sorted(Comparator.comparingDouble(w -> -mends[w][at] / (price(w, 0) + 1e-9)))
              .mapToInt(Integer::intValue)
              .toArray();
    }
    waiting = resolvedHolds();
    releasedBy = new long[works];
    for (int w = 0; w < works; w++) {
      for (Waiting each : waiting[w]) {
        releasedBy[w] |= each.released();
      }
    }
    anyHolds = Arrays.stream(waiting).anyMatch(holds -> holds.length > 0);
  }

  private int bits(Collection<String> names) {
    int bits = 0;
    for (String name : names) {
      int at = setUps.indexOf(name);
      bits |= at < 0 ? 0 : 1 << at;
    }
    return bits;
  }

  /** Takes the scenarios over as bits, and sees that some have a probability. */
  private void readScenarios() {
    Map<Integer, Integer> bitOf = new HashMap<>();
    for (int bit = 0; bit < causes.length; bit++) {
      bitOf.put(causes[bit], bit);
    }
    double sum = 0;
    for (int s = 0; s < masks.length; s++) {
      Scenario scenario = problem.scenarios().get(s);
      for (int cause : scenario.causes()) {
        masks[s] |= 1L << requireNonNull(bitOf.get(cause));
      }
      weights[s] = scenario.probability();
      sum += weights[s];
    }
    if (!(sum > 0)) {
      throw new IllegalArgumentException("the scenarios have no probability at all");
    }
    for (int s = 0; s < masks.length; s++) {
      weights[s] /= sum;
    }
  }

  /** Set-ups in place before anything is done, as bits. */
  int inPlace() {
    return bits(problem.inPlace());
  }

  /** What the step costs in minutes, parts and acceptance check included, once set-ups are paid. */
  double price(int step, int paid) {
    int kind = step >= 0 ? 0 : 1;
    int at = step >= 0 ? step : ~step;
    double full = minutes[kind][at];
    double price = full - setUpMinutes[needs[kind][at] & paid];
    return Math.max(price, full * LEAST_SHARE) + (kind == 0 ? afterWork[at] : 0);
  }

  /** Set-ups in place after the step, as bits. */
  int paidAfter(int step, int paid) {
    return paid | (step >= 0 ? needs[0][step] : needs[1][~step]);
  }

  /** Probability of each way the check may come out when just these causes are present. */
  double[] results(int check, long mask) {
    return results.get(check).computeIfAbsent(mask, causesThere -> resultsOf(check, causesThere));
  }

  private double[] resultsOf(int check, long mask) {
    Check known = problem.checks().get(check);
    double[] chances = new double[known.results()];
    double none = 1;
    for (int k = 0; k < quiet[check].length; k++) {
      double absent = quiet[check][k];
      for (long open = mask; open != 0; open &= open - 1) {
        absent *= quietWith[check][k][Long.numberOfTrailingZeros(open)];
      }
      // The scenarios were weighed with the hint: a look must not bring it in once more.
      Double hint = problem.hinted().get(known.shows().get(k));
      if (hint != null) {
        absent = hint * absent / (1 - absent + hint * absent);
      }
      double found = (1 - known.misses()) * (1 - absent) + known.falseAlarms() * absent;
      chances[k] = none * found;
      none *= 1 - found;
    }
    chances[quiet[check].length] = none;
    return chances;
  }

  int results(int check) {
    return quiet[check].length + 1;
  }

  String id(int step) {
    return step >= 0 ? problem.works().get(step).id() : problem.checks().get(~step).id();
  }

  /** Whether the work is a mere acceptance check. */
  boolean onlyTests(int work) {
    return problem.works().get(work).mends().isEmpty();
  }

  String cause(int bit) {
    return problem.network().causes().get(causes[bit]);
  }

  /** Whether the work is held by something that the step would release. */
  boolean waitsFor(int work, int step, long done, BitSet made) {
    return Arrays.stream(waiting[work])
        .filter(each -> each.open(done, made))
        .anyMatch(
            each ->
                step < 0
                    ? each.check() == ~step
                    : Arrays.stream(each.releasers()).anyMatch(other -> other == step));
  }

  /** Whether any hold of the work can be released by that step. */
  boolean mayWaitFor(int work, int step) {
    return step >= 0 ? (releasedBy[work] >> step & 1) != 0 : waitsForCheck(work, ~step);
  }

  private boolean waitsForCheck(int work, int check) {
    for (Waiting each : waiting[work]) {
      if (each.check() == check) {
        return true;
      }
    }
    return false;
  }

  /** What the work still waits for. */
  List<Hold> waits(int work, long done, BitSet made) {
    List<Hold> waits = new ArrayList<>();
    for (Waiting each : waiting[work]) {
      if (each.open(done, made)) {
        waits.add(each.hold());
      }
    }
    return waits;
  }

  /**
   * The step to take next on the way to a work: the work itself if nothing holds it, else what
   * releases it, or {@link #NONE} if nothing can.
   *
   * @param barred works that may not be used
   * @param done works done
   */
  int towards(int work, long barred, long done, BitSet made) {
    if ((barred >> work & 1) != 0) {
      return NONE;
    }
    int first = work;
    for (Waiting each : waiting[work]) {
      if (!each.open(done, made)) {
        continue;
      }
      int step = NONE;
      if (each.hold().kind() == HoldKind.CHECK_FIRST) {
        step = each.check() < 0 ? NONE : ~each.check();
      } else {
        for (int k = 0; k < each.releasers().length && step == NONE; k++) {
          step = towards(each.releasers()[k], barred | 1L << work, done, made);
        }
      }
      if (step == NONE) {
        return NONE;
      }
      // Checks before works: they may show that the work is not wanted.
      if (first == work || first >= 0 && step < 0) {
        first = step;
      }
    }
    return first;
  }

  private Waiting[][] resolvedHolds() {
    Map<String, Integer> symptoms = problem.network().symptomPositions();
    Map<String, Integer> workAt = new HashMap<>();
    List<List<Waiting>> resolved = new ArrayList<>();
    for (int w = 0; w < works; w++) {
      workAt.put(problem.works().get(w).id(), w);
      resolved.add(new ArrayList<>());
    }
    for (Hold hold : problem.holds()) {
      Integer held = workAt.get(hold.work());
      if (held == null) {
        continue;
      }
      int[] releasers =
          switch (hold.kind()) {
            case MEND_FIRST -> menders(symptom(symptoms, hold), held);
            case DO_FIRST ->
                workAt.containsKey(hold.first())
                    ? new int[] {workAt.get(hold.first())}
                    : new int[0];
            default -> new int[0];
          };
      int check = -1;
      if (hold.kind() == HoldKind.CHECK_FIRST) {
        int symptom = symptom(symptoms, hold);
        for (int c = 0; c < checks; c++) {
          check = problem.checks().get(c).settles().contains(symptom) ? c : check;
        }
      }
      long released = 0;
      for (int releaser : releasers) {
        released |= 1L << releaser;
      }
      resolved.get(held).add(new Waiting(hold, check, releasers, released));
    }
    return resolved.stream().map(holds -> holds.toArray(Waiting[]::new)).toArray(Waiting[][]::new);
  }

  private static int symptom(Map<String, Integer> symptoms, Hold hold) {
    Integer at = symptoms.get(hold.first());
    if (at == null) {
      throw new IllegalArgumentException(
          hold.work() + " waits for " + hold.first() + ", which is no symptom of the network");
    }
    return at;
  }

  /**
   * The works that count as mending what shows the symptom: those that mend it at least half as
   * surely as the surest, by what they mend of it per minute.
   */
  private int[] menders(int symptom, int held) {
    double[] share = new double[works];
    double most = 0;
    for (int w = 0; w < works; w++) {
      for (int s = 0; s < masks.length; s++) {
        share[w] += weights[s] * mendsWhatShows(w, symptom, masks[s]);
      }
      most = Math.max(most, w == held ? 0 : share[w]);
    }
    List<Integer> menders = new ArrayList<>();
    for (int w = 0; w < works; w++) {
      if (w != held && share[w] > 0 && share[w] >= most / 2) {
        menders.add(w);
      }
    }
    menders.sort(Comparator.comparingDouble(w -> -share[w] / price(w, 0)));
    return menders.stream().mapToInt(Integer::intValue).toArray();
  }

  /** Expected share of the scenario's chance to show the symptom that the work takes away. */
  private double mendsWhatShows(int work, int symptom, long mask) {
    double before = 1;
    double after = 1;
    for (long open = mask; open != 0; open &= open - 1) {
      int bit = Long.numberOfTrailingZeros(open);
      double strength = problem.network().strength()[causes[bit]][symptom];
      before *= 1 - strength;
      after *= 1 - strength * (1 - mends[work][bit]);
    }
    return after - before;
  }
}
