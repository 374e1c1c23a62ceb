package firmlever.plan;

import java.util.Arrays;
import java.util.BitSet;

/**
 * The order of works, with the checks that must come before them, that is cheapest to expect if
 * nothing else is looked for; and what it costs.
 *
 * <p>Works are chosen one after the other by the probability of being all right they gain per
 * expected minute: for single faults the order by p/c (Kadane and Simon 1977). A work that is held,
 * and works that only help together, are weighed as one run. Then neighbours are exchanged, steps
 * brought to the front or dropped, as long as that is cheaper. A set-up is paid by the first that
 * needs it.
 */
final class WorkOrder {
  /** No more is looked for when what is left to gain is below this, in minutes. */
  private static final double NEGLIGIBLE_MINUTES = 0.05;

  /** So many of the likeliest stories of several causes are weighed as one run of works. */
  private static final int MOST_COVERED = 4;

  /** Probability of a fault above which it does not matter that the brake may be sound. */
  private static final double SURELY_FAULTY = 0.98;

  /** Works and required checks, first to last; after them the brake is given up. */
  final int[] steps;

  /** Expected cost in minutes. */
  final double cost;

  private WorkOrder(int[] steps, double cost) {
    this.steps = steps;
    this.cost = cost;
  }

  /**
   * Finds the order.
   *
   * @param barred works that may not be used, as bits
   */
  static WorkOrder best(Tables tables, State state, long barred) {
    Search search = new Search(tables, state, barred);
    search.greedy();
    search.improve();
    return new WorkOrder(Arrays.copyOf(search.order, search.length), search.cost);
  }

  /**
   * What following the steps costs in each story of the state, in minutes.
   *
   * @param looks is given by check and story what each look among the steps costs of it
   */
  static double[] costs(Tables tables, State state, int[] steps, double[][] looks) {
    Progress progress = new Progress(tables, state);
    double[] costs = new double[state.masks.length];
    double[] inShop = new double[costs.length];
    Arrays.fill(inShop, 1);
    for (int step : steps) {
      double price = tables.price(step, progress.paid);
      double[] look = step < 0 ? new double[costs.length] : costs;
      for (int s = 0; s < costs.length; s++) {
        look[s] += inShop[s] * price;
      }
      if (step < 0) {
        looks[~step] = look;
        for (int s = 0; s < costs.length; s++) {
          costs[s] += look[s];
        }
      }
      double unmissed = progress.unmissed;
      progress.count(step);
      for (int s = 0; s < costs.length && step >= 0; s++) {
        double wrong = 1 - progress.right[s];
        costs[s] += tables.comeback * tables.misses * unmissed * wrong;
        inShop[s] = progress.unmissed * wrong;
      }
    }
    for (int s = 0; s < costs.length; s++) {
      costs[s] += tables.giveUp * Math.min(inShop[s], 1 - progress.right[s]);
    }
    return costs;
  }

  /**
   * How far an order has come. Works act on each cause independently of each other, so the
   * probability that a story is all right is a product over its causes.
   */
  private static final class Progress {
    private final Tables tables;
    private final State state;

    /** By bit: probability that the works have left the cause, if it was there. */
    private final double[] left;

    /**
     * By bit: probability that the works have mended the cause, if it was there; and 1 behind the
     * last, for the places that a story of few causes leaves empty.
     */
    private final double[] mended;

    /** By story: probability that all of it is mended. */
    final double[] right;

    long done;
    BitSet made;
    int paid;
    double wrong;

    /** Probability that no acceptance check has passed what was wrong. */
    double unmissed;

    /** Probability that the brake is still in the shop. */
    double inShop;

    /** What it has cost so far, in minutes. */
    double cost;

    Progress(Tables tables, State state) {
      this.tables = tables;
      this.state = state;
      this.left = new double[tables.causes.length];
      this.mended = new double[tables.causes.length + 1];
      this.right = new double[state.masks.length];
      restart();
    }

    void restart() {
      Arrays.fill(left, 1);
      Arrays.fill(mended, 0);
      mended[left.length] = 1;
      for (int s = 0; s < right.length; s++) {
        right[s] = state.masks[s] == 0 ? 1 : 0;
      }
      done = state.done;
      made = state.made;
      paid = state.paid;
      wrong = state.faulty;
      unmissed = 1;
      inShop = 1;
      cost = 0;
    }

    void copy(Progress other) {
      System.arraycopy(other.left, 0, left, 0, left.length);
      System.arraycopy(other.mended, 0, mended, 0, mended.length);
      System.arraycopy(other.right, 0, right, 0, right.length);
      done = other.done;
      made = other.made;
      paid = other.paid;
      wrong = other.wrong;
      unmissed = other.unmissed;
      inShop = other.inShop;
      cost = other.cost;
    }

    /** Takes the step, and notes that it is done, for what waits for it. */
    void take(int step) {
      if (step < 0) {
        made = (BitSet) made.clone();
        made.set(~step);
      } else {
        done |= 1L << step;
      }
      count(step);
    }

    /** Counts in what the step costs and mends. */
    void count(int step) {
      cost += inShop * tables.price(step, paid);
      paid = tables.paidAfter(step, paid);
      if (step < 0) {
        return;
      }
      long mendable = tables.mendable[step];
      for (long open = mendable; open != 0; open &= open - 1) {
        int bit = Long.numberOfTrailingZeros(open);
        left[bit] *= 1 - tables.mends[step][bit];
        mended[bit] = 1 - left[bit];
      }
      for (int s : state.stories.touched(step)) {
        double now = allMended(s);
        wrong -= state.weights[s] * (now - right[s]);
        right[s] = now;
      }
      wrong = Math.max(0, wrong);
      cost += tables.comeback * tables.misses * unmissed * wrong;
      unmissed *= 1 - tables.misses;
      inShop = unmissed * wrong;
    }

    private double allMended(int story) {
      Stories stories = state.stories;
      double all =
          mended[stories.first[story]]
              * mended[stories.second[story]]
              * mended[stories.third[story]];
      for (long more = stories.further[story]; more != 0; more &= more - 1) {
        all *= mended[Long.numberOfTrailingZeros(more)];
      }
      return all;
    }

    /** Probability that something is still wrong if this work is done next. */
    double wrongAfter(int work) {
      long mendable = tables.mendable[work];
      for (long open = mendable; open != 0; open &= open - 1) {
        int bit = Long.numberOfTrailingZeros(open);
        mended[bit] = 1 - left[bit] * (1 - tables.mends[work][bit]);
      }
      double after = wrong;
      for (int s : state.stories.touched(work)) {
        after -= state.weights[s] * (allMended(s) - right[s]);
      }
      for (long open = mendable; open != 0; open &= open - 1) {
        int bit = Long.numberOfTrailingZeros(open);
        mended[bit] = 1 - left[bit];
      }
      return Math.max(0, after);
    }

    /**
     * What these two steps cost if they come next, but for what the acceptance check after the last
     * work may miss, which is the same in either order.
     */
    double costOf(int first, int second) {
      double until = inShop * tables.price(first, paid);
      double still = inShop;
      if (first >= 0) {
        double after = wrongAfter(first);
        until += second < 0 ? 0 : tables.comeback * tables.misses * unmissed * after;
        still = unmissed * (1 - tables.misses) * after;
      }
      return until + still * tables.price(second, tables.paidAfter(first, paid));
    }

    /** What it costs in all if the brake is given up now. */
    double givenUp() {
      return cost + tables.giveUp * Math.min(inShop, wrong);
    }
  }

  private static final class Search {
    private final Tables tables;
    private final State state;
    private final long barred;

    /** Causes that may be there, as bits, and the works that can gain anything. */
    private final long causes;

    private final int[] works;

    private final int[] covered;
    private final Progress progress;
    private final Progress trial;

    int[] order = new int[0];
    int length;
    double cost;

    Search(Tables tables, State state, long barred) {
      this.tables = tables;
      this.state = state;
      this.barred = barred | state.done;
      this.progress = new Progress(tables, state);
      this.trial = new Progress(tables, state);
      long all = 0;
      for (long mask : state.masks) {
        all |= mask;
      }
      this.causes = all;
      boolean maybeSound = 1 - state.faulty >= tables.problem.shop().sound();
      int[] useful = new int[tables.works];
      int count = 0;
      for (int w = 0; w < useful.length; w++) {
        boolean helps =
            (tables.mendable[w] & causes) != 0
                || tables.onlyTests(w) && state.faulty < 1 && maybeSound;
        if ((this.barred >> w & 1) == 0 && helps) {
          useful[count++] = w;
        }
      }
      works = Arrays.copyOf(useful, count);
      covered = covered(state);
    }

    /** The likeliest stories of several causes, the first of equals first. */
    private static int[] covered(State state) {
      int[] covered = new int[MOST_COVERED];
      int count = 0;
      for (int s = 0; s < state.masks.length; s++) {
        if ((state.masks[s] & (state.masks[s] - 1)) == 0) {
          continue;
        }
        int at = count;
        while (at > 0 && state.weights[covered[at - 1]] < state.weights[s]) {
          at--;
        }
        if (at < MOST_COVERED) {
          count = Math.min(count + 1, MOST_COVERED);
          System.arraycopy(covered, at, covered, at + 1, count - 1 - at);
          covered[at] = s;
        }
      }
      return Arrays.copyOf(covered, count);
    }

    void greedy() {
      int[] chosen = new int[tables.works + tables.checks];
      int count = 0;
      cost = progress.givenUp();
      while (progress.inShop * tables.giveUp > NEGLIGIBLE_MINUTES) {
        int next = steepest();
        if (next == Tables.NONE) {
          break;
        }
        progress.take(next);
        chosen[count++] = next;
        if (progress.givenUp() < cost) {
          cost = progress.givenUp();
          length = count;
        }
      }
      order = Arrays.copyOf(chosen, count);
    }

    void improve() {
      boolean better = true;
      while (better) {
        better = exchanged();
        // The first acceptance check may let a sound brake go, whatever work brings it; the work
        // chosen for that may do better later.
        better |= state.faulty < SURELY_FAULTY && firstMovedBack();
        better |= dropped();
      }
    }

    /** Leaves out the steps without which it is cheaper. */
    private boolean dropped() {
      boolean better = false;
      progress.restart();
      double best = progress.givenUp();
      int bestLength = 0;
      for (int k = 0; k < length; k++) {
        if (redundant(k) && allowedWithout(k)) {
          trial.copy(progress);
          better |= adopt(without(k), k, best, bestLength);
        }
        if (k < length) {
          progress.count(order[k]);
          if (progress.givenUp() < best) {
            best = progress.givenUp();
            bestLength = k + 1;
          }
        }
      }
      return better;
    }

    /**
     * Does the first step later where that is cheaper. Once both orders have taken the same steps,
     * what follows costs the same, so only the beginnings are compared.
     */
    private boolean firstMovedBack() {
      boolean better = false;
      double[] asIs = beginnings();
      progress.restart();
      double givenUp = progress.givenUp();
      for (int k = 1; k < length; k++) {
        progress.count(order[k]);
        givenUp = Math.min(givenUp, progress.givenUp());
        trial.copy(progress);
        trial.count(order[0]);
        boolean promises =
            trial.cost < asIs[k] - 1e-9 || Math.min(givenUp, trial.givenUp()) < cost - 1e-9;
        if (k > 1 && promises && allowed(moved(0, k)) && adopt(moved(0, k))) {
          better = true;
          asIs = beginnings();
          progress.restart();
          givenUp = progress.givenUp();
          for (int again = 1; again <= k && again < length; again++) {
            progress.count(order[again]);
            givenUp = Math.min(givenUp, progress.givenUp());
          }
        }
      }
      return better;
    }

    /** By step: what the order has cost once it is taken. */
    private double[] beginnings() {
      double[] costs = new double[length];
      trial.restart();
      for (int k = 0; k < length; k++) {
        trial.count(order[k]);
        costs[k] = trial.cost;
      }
      return costs;
    }

    /** Whether the step mends nothing that others of the order do not mend. */
    private boolean redundant(int k) {
      long others = 0;
      for (int other = 0; other < length; other++) {
        others |= other == k || order[other] < 0 ? 0 : tables.mendable[order[other]];
      }
      return order[k] < 0 || (tables.mendable[order[k]] & causes & ~others) == 0;
    }

    private int[] without(int k) {
      int[] shorter = new int[order.length - 1];
      System.arraycopy(order, 0, shorter, 0, k);
      System.arraycopy(order, k + 1, shorter, k, shorter.length - k);
      return shorter;
    }

    /** Exchanges neighbours where that is cheaper; what comes after the two is the same anyway. */
    private boolean exchanged() {
      int[] other = order.clone();
      boolean better = false;
      progress.restart();
      for (int k = 0; k + 1 < length; k++) {
        int first = other[k];
        int second = other[k + 1];
        if (isFree(second, progress)
            && progress.costOf(second, first) < progress.costOf(first, second) - 1e-9) {
          other[k] = second;
          other[k + 1] = first;
          better = true;
        }
        progress.take(other[k]);
      }
      return better && adopt(other);
    }

    /** Whether nothing holds the step any more. */
    private boolean isFree(int step, Progress at) {
      return step < 0 || !tables.anyHolds || tables.towards(step, barred, at.done, at.made) == step;
    }

    /** The order with the step at {@code from} moved back to {@code to}. */
    private int[] moved(int from, int to) {
      int[] moved = order.clone();
      System.arraycopy(order, from + 1, moved, from, to - from);
      moved[to] = order[from];
      return moved;
    }

    /** Takes over another order that is allowed, given up where that is best, if it is cheaper. */
    private boolean adopt(int[] other) {
      trial.restart();
      return adopt(other, 0, trial.givenUp(), 0);
    }

    /**
     * The same where the trial has come so far already.
     *
     * @param best what it costs to give up where that was best so far
     * @param bestLength after how many steps that is
     */
    private boolean adopt(int[] other, int from, double best, int bestLength) {
      double least = best;
      int leastLength = bestLength;
      for (int k = from; k < other.length && trial.cost < cost; k++) {
        trial.count(other[k]);
        if (trial.givenUp() < least) {
          least = trial.givenUp();
          leastLength = k + 1;
        }
      }
      if (least < cost - 1e-9) {
        order = other;
        length = leastLength;
        cost = least;
        return true;
      }
      return false;
    }

    /** Whether nothing waits in vain if this step is left out. */
    private boolean allowedWithout(int k) {
      long done = state.done;
      BitSet made = (BitSet) state.made.clone();
      for (int at = 0; at < order.length; at++) {
        int step = order[at];
        if (at == k) {
          continue;
        }
        if (step < 0) {
          made.set(~step);
          continue;
        }
        if (tables.mayWaitFor(step, order[k]) && tables.towards(step, barred, done, made) != step) {
          return false;
        }
        done |= 1L << step;
      }
      return true;
    }

    private boolean allowed(int[] steps) {
      if (!tables.anyHolds) {
        return true;
      }
      long done = state.done;
      BitSet made = (BitSet) state.made.clone();
      for (int step : steps) {
        if (step < 0) {
          made.set(~step);
        } else if (tables.towards(step, barred, done, made) != step) {
          return false;
        } else {
          done |= 1L << step;
        }
      }
      return true;
    }

    /** First step of the run that gains most per expected minute; none if none gains anything. */
    private int steepest() {
      int steepest = Tables.NONE;
      double most = 1e-12;
      for (int w : works) {
        if ((progress.done >> w & 1) != 0) {
          continue;
        }
        int first = tables.towards(w, barred, progress.done, progress.made);
        if (first == Tables.NONE) {
          continue;
        }
        double gain = first == w ? gainAlone(w) : gain(w);
        if (gain > most) {
          most = gain;
          steepest = first;
        }
      }
      for (int s : covered) {
        int[] cover = cover(state.masks[s]);
        double gain = cover.length < 2 ? 0 : gain(cover);
        if (gain > most) {
          most = gain;
          steepest = tables.towards(cover[0], barred, progress.done, progress.made);
        }
      }
      return steepest;
    }

    private double gainAlone(int work) {
      double price = tables.price(work, progress.paid);
      double stays = progress.unmissed * (1 - tables.misses) * progress.wrongAfter(work);
      return (progress.inShop - stays) / (progress.inShop * price + 1e-9);
    }

    /** Probability of leaving the shop that the works gain, with what they wait for, a minute. */
    private double gain(int... run) {
      trial.copy(progress);
      double missed = 0;
      for (int work : run) {
        int step = Tables.NONE;
        while (step != work && (trial.done >> work & 1) == 0) {
          step = tables.towards(work, barred, trial.done, trial.made);
          if (step == Tables.NONE) {
            return 0;
          }
          double unmissed = trial.unmissed;
          trial.take(step);
          missed += step < 0 ? 0 : tables.comeback * tables.misses * unmissed * trial.wrong;
        }
      }
      return (progress.inShop - trial.inShop) / (trial.cost - progress.cost - missed + 1e-9);
    }

    /** For each cause of the story that is left, the work that mends most of it per minute. */
    private int[] cover(long mask) {
      int[] cover = new int[Long.bitCount(mask)];
      int count = 0;
      long used = 0;
      for (long open = mask; open != 0; open &= open - 1) {
        int bit = Long.numberOfTrailingZeros(open);
        if (progress.left[bit] < 0.5) {
          continue;
        }
        int best = -1;
        for (int w : tables.menders[bit]) {
          if (best < 0 && ((progress.done | barred) >> w & 1) == 0) {
            best = w;
          }
        }
        if (best < 0) {
          return new int[0];
        }
        if ((used >> best & 1) == 0) {
          used |= 1L << best;
          cover[count++] = best;
        }
      }
      return Arrays.copyOf(cover, count);
    }
  }
}
