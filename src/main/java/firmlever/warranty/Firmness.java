package firmlever.warranty;

import firmlever.belief.Inference;
import firmlever.belief.Inference.Posterior;
import firmlever.belief.Network;
import firmlever.belief.Observation;
import firmlever.belief.Redraw;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * In what share of redrawn models one of some causes is likelier than not. Each model is drawn and
 * solved once, however much is asked of it.
 */
final class Firmness {
  private static final long SEED = 1;
  private static final double LIKELIER_THAN_NOT = 0.5;

  private final Network network;
  private final List<Observation> seen;
  private final List<Integer> symptoms;
  private final Posterior[] posteriors;
  private final Map<Set<Integer>, Double> shares = new HashMap<>();

  Firmness(Network network, List<Observation> seen, int draws) {
    this.network = network;
    this.seen = seen;
    this.symptoms = seen.stream().map(Observation::symptom).toList();
    this.posteriors = new Posterior[draws];
  }

  /** How many models are redrawn. */
  int draws() {
    return posteriors.length;
  }

  /** The share of the models in which that holds of these causes, 0 to 1. */
  double of(Set<Integer> causes) {
    return shares.computeIfAbsent(new TreeSet<>(causes), this::share);
  }

  private double share(Set<Integer> causes) {
    int held = 0;
    for (int draw = 0; draw < posteriors.length; draw++) {
      held += likelierThanNot(draw, causes) ? 1 : 0;
    }
    return held / (double) Math.max(1, posteriors.length);
  }

  /** Solved in full only where neither the likeliest alone nor all together tell. */
  private boolean likelierThanNot(int draw, Set<Integer> causes) {
    if (posteriors[draw] == null) {
      posteriors[draw] = Inference.solve(drawn(draw), seen);
    }
    double most = 0;
    double sum = 0;
    for (int i : causes) {
      most = Math.max(most, posteriors[draw].posterior()[i]);
      sum += posteriors[draw].posterior()[i];
    }
    return most >= LIKELIER_THAN_NOT
        || sum >= LIKELIER_THAN_NOT
            && new Chances(drawn(draw), seen, posteriors[draw]).anyOf(causes) >= LIKELIER_THAN_NOT;
  }

  private Network drawn(int draw) {
    return Redraw.draw(network, symptoms, SEED, draw);
  }
}
