package firmlever.comeback.visits;

import firmlever.belief.Network;
import firmlever.comeback.visits.Relation.Ground;
import firmlever.diagnosis.Diagnostician.Belief;
import firmlever.vocabulary.Brings;
import java.util.Optional;

/**
 * Judges by the cause model whether a return has to do with an earlier visit.
 *
 * <p>A cause found at the return was there at the earlier visit (with the probability p it has from
 * what was known then; 1 where it was found then), or the visit brought it in (a: by its work, as
 * far as the rules raise it for that, or by a fault found or likely then that brings it), or it
 * came anew. Anew it comes at any day alike: in {@link Relation#ANEW_IN_DAYS} days as often as
 * brakes have it that are brought (its share before anything is looked at), in d days d times the
 * day's share (n). Given that it is there now, Bayes' rule gives the chance that it did not come
 * anew:
 *
 * <pre>1 − (1 − p)(1 − a)n / (p + (1 − p)(a + (1 − a)n))</pre>
 *
 * <p>A high chance alone makes no relation, as it is high soon after any visit: something must lead
 * back to the visit. What was known then raised the cause, or the visit brought it in, or the
 * complaint is of the same kind.
 */
public final class Relatedness {
  /** Where the chance meets the limit but for rounding. */
  private static final double ROUNDING = 1e-9;

  private final BroughtIn broughtIn;
  private final int longDays;
  private final Brings brings = Brings.builtIn();

  public Relatedness(BroughtIn broughtIn, int longDays) {
    this.broughtIn = broughtIn;
    this.longDays = longDays;
  }

  /**
   * How the second visit is related to the first.
   *
   * @param belief what was known at the first; empty where it cannot be worked out
   */
  public Relation of(Visit first, Optional<Belief> belief, Visit second) {
    if (first.causes().stream().anyMatch(second.causes()::contains)) {
      return new Relation(Ground.SAME_CAUSE, 1);
    }
    boolean tells = belief.isPresent() && !first.groups().isEmpty();
    Relation best =
        tells && !second.causes().isEmpty()
            ? new Relation(Ground.NEW_FAULT, 0)
            : first.relatedByComplaint(second);
    if (belief.isPresent() && (tells || !best.related())) {
      for (String cause : second.causes()) {
        Relation each = of(first, belief.get(), second, cause);
        boolean better =
            each.related() == best.related()
                ? Double.isNaN(best.chance()) || each.chance() > best.chance()
                : each.related();
        best = better ? each : best;
      }
    }
    return best;
  }

  private Relation of(Visit first, Belief belief, Visit second, String cause) {
    double was = excessOrAll(belief, cause, false);
    double prior = prior(belief, cause);
    double anew = Math.min(1, prior * first.daysUntil(second) / Relation.ANEW_IN_DAYS);
    double there = chance(was, 0, anew);
    if (reaches(there) && was > prior * (1 + ROUNDING)) {
      return new Relation(Ground.THERE_BEFORE, there);
    }
    // Asked only where it can matter: asking the rules is expensive.
    double notBrought = 1 - byWork(first, second, cause, prior);
    for (String by : brings.bringersOf(cause)) {
      double known = first.causes().contains(by) ? 1 : excessOrAll(belief, by, true);
      notBrought *= 1 - Relation.BRINGS * known;
    }
    double together = chance(was, 1 - notBrought, anew);
    Ground ground =
        !reaches(together)
            ? Ground.NEW_FAULT
            : 1 - notBrought >= byTimes(BroughtIn.CLEARLY, prior) - ROUNDING && notBrought < 1
                ? Ground.BROUGHT_IN
                : first.alikeIn(second) ? Ground.COMPLAINT_STAYED : Ground.NEW_FAULT;
    return new Relation(ground, together);
  }

  private double byWork(Visit first, Visit second, String cause, double prior) {
    if (first.daysUntil(second) > longDays) {
      return 0;
    }
    return byTimes(broughtIn.times(first, second, cause), prior);
  }

  /** By how much a probability rises where its odds are made so many times as high. */
  private static double byTimes(double times, double prior) {
    return times * prior / (1 + (times - 1) * prior) - prior;
  }

  /** The chance that the cause did not come anew, given that it is there now. */
  static double chance(double was, double brought, double anew) {
    double carried = was + (1 - was) * brought;
    double all = carried + (1 - was) * (1 - brought) * anew;
    return all > 0 ? carried / all : 0;
  }

  private static boolean reaches(double chance) {
    return chance >= Relation.RELATED_FROM - ROUNDING;
  }

  /** The probability of a cause from what was known; or only by how much it was raised. */
  private static double excessOrAll(Belief belief, String cause, boolean excess) {
    Network network = belief.model().network();
    int i = network.causes().indexOf(cause);
    if (i < 0) {
      return 0;
    }
    double all = Math.max(0, Math.min(1, belief.posterior().posterior()[i]));
    return excess ? Math.max(0, all - network.prior(i)) : all;
  }

  private static double prior(Belief belief, String cause) {
    int i = belief.model().network().causes().indexOf(cause);
    return i < 0 ? 0 : belief.model().network().prior(i);
  }
}
