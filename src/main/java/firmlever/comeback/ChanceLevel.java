package firmlever.comeback;

import firmlever.comeback.statistics.PairedShare;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Reason;

/**
 * What would look avoidable by chance. Of a sample of the comebacks each is judged twice: with what
 * its second visit found, and with what the second visit of another comeback found that began with
 * the same kind of complaint. What the second judgement calls avoidable is chance: nobody at the
 * first visit could know what another brake would show.
 *
 * @param avoidable judged avoidable
 * @param wrongCause judged a wrong cause treated
 * @param stoodFirst judged a wrong cause treated where the later one stood first
 */
public record ChanceLevel(PairedShare avoidable, PairedShare wrongCause, PairedShare stoodFirst) {
  public static final ChanceLevel NONE =
      new ChanceLevel(PairedShare.NONE, PairedShare.NONE, PairedShare.NONE);

  /** One comeback, with its own second visit and with another's. */
  ChanceLevel plus(Comeback own, Comeback other) {
    return new ChanceLevel(
        avoidable.plus(own.avoidable(), other.avoidable()),
        wrongCause.plus(wrong(own), wrong(other)),
        stoodFirst.plus(wrong(own) && own.place() == 1, wrong(other) && other.place() == 1));
  }

  private static boolean wrong(Comeback comeback) {
    return comeback.reason() == Reason.WRONG_CAUSE;
  }

  /**
   * Of what looks avoidable, the share that chance does not explain, from 0 to 1; 1 where nothing
   * was judged twice.
   */
  public double beyondChance() {
    return avoidable.first().events() == 0
        ? 1
        : Math.max(0, avoidable.difference() / avoidable.first().rate().orElse(1));
  }
}
