package firmlever.comeback;

import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RatePrior;
import firmlever.comeback.visits.Witness;
import firmlever.comeback.visits.Witness.Look;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * How much what is written down of a visit counts, from 0 to 1: as often as the recorder's word has
 * held (drawn towards the other recorders where it was seldom put to the test), and, where the
 * brake could be followed for the short window only, as often as what holds so long holds on.
 *
 * @param holds by recorder: the share of the causes written down that no second look overturned
 * @param holdsOn of what was not overturned within the short window, the share that is not later
 */
record Trust(Map<String, Double> holds, double holdsOn) {

  static Trust of(Tally tally) {
    Map<String, Double> holds = new TreeMap<>();
    if (!tally.overturned.isEmpty()) {
      RatePrior prior = RatePrior.of(List.copyOf(tally.overturned.values()));
      tally.overturned.forEach((by, count) -> holds.put(by, 1 - prior.after(count).mean()));
    }
    Proportion late = tally.overturnedLate;
    return new Trust(holds, 1 - late.rate().orElse(0));
  }

  /** What one visit counts. */
  double of(Witness witness) {
    return holds.getOrDefault(witness.by(), 1.0) * (witness.look() == Look.OPEN ? holdsOn : 1);
  }
}
