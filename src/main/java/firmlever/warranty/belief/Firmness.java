package firmlever.warranty.belief;

import firmlever.belief.Elimination;
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
 * solved once, however much is asked of it, and none that can change nothing.
 */
public final class Firmness {
  private static final long SEED = 1;
  private static final double LIKELIER_THAN_NOT = 0.5;

  private final Network network;
  private final List<Observation> seen;
  private final List<Integer> symptoms;
  private final Elimination shape;
  private final Posterior[] posteriors;
  private final int draws;
  private final List<Double> limits;
  private final Map<Set<Integer>, Double> shares = new HashMap<>();

  /** The shares themselves, of so many models. */
  public Firmness(Network network, List<Observation> seen, Elimination shape, int draws) {
    this(network, seen, shape, new Posterior[draws], draws, List.of());
  }

  private Firmness(
      Network network,
      List<Observation> seen,
      Elimination shape,
      Posterior[] posteriors,
      int draws,
      List<Double> limits) {
    this.network = network;
    this.seen = seen;
    this.symptoms = seen.stream().map(Observation::symptom).toList();
    this.shape = shape;
    this.posteriors = posteriors;
    this.draws = draws;
    this.limits = limits;
  }

  /**
   * The same models, or the first of them, where it only counts on which side of these limits a
   * share lies: what is told may then be less than the share, but not beyond a limit.
   */
  public Firmness against(Set<Double> sides, int fewer) {
    return new Firmness(
        network, seen, shape, posteriors, Math.min(fewer, draws), List.copyOf(sides));
  }

  /** How many models are redrawn. */
  public int draws() {
    return draws;
  }

  /** The share of the models in which that holds of these causes, 0 to 1. */
  public double of(Set<Integer> causes) {
    return shares.computeIfAbsent(new TreeSet<>(causes), this::share);
  }

  private double share(Set<Integer> causes) {
    int held = 0;
    for (int draw = 0; draw < draws; draw++) {
      held += likelierThanNot(draw, causes) ? 1 : 0;
      if (settled(held, draws - draw - 1)) {
        break;
      }
    }
    return held / (double) Math.max(1, draws);
  }

  /** Whether the models that are left can carry the share over none of the limits. */
  private boolean settled(int held, int left) {
    return !limits.isEmpty()
        && limits.stream()
            .allMatch(
                limit -> held / (double) draws >= limit || (held + left) / (double) draws < limit);
  }

  /** Solved in full only where neither the likeliest alone nor all together tell. */
  private boolean likelierThanNot(int draw, Set<Integer> causes) {
    if (posteriors[draw] == null) {
      posteriors[draw] = Inference.solve(drawn(draw), seen, shape);
    }
    double most = 0;
    double sum = 0;
    for (int i : causes) {
      most = Math.max(most, posteriors[draw].posterior()[i]);
      sum += posteriors[draw].posterior()[i];
    }
    return most >= LIKELIER_THAN_NOT
        || sum >= LIKELIER_THAN_NOT
            && new Chances(drawn(draw), seen, shape, posteriors[draw]).anyOf(causes)
                >= LIKELIER_THAN_NOT;
  }

  private Network drawn(int draw) {
    return Redraw.draw(network, symptoms, SEED, draw);
  }
}
