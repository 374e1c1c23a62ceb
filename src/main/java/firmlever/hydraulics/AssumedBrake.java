package firmlever.hydraulics;

import java.util.List;

/**
 * A brake with every gap in its data filled, and how far the filling may be off.
 *
 * @param middle the likeliest brake
 * @param leverSpread spread of travel per volume at the lever (standard deviation of its logarithm)
 * @param areaSpread spread of the caliper's piston area, likewise
 * @param giveSpread spread of the brake's own give, as a share of it
 * @param assumptions what was filled in, or set aside as not credible
 */
public record AssumedBrake(
    Brake middle,
    double leverSpread,
    double areaSpread,
    double giveSpread,
    List<Assumption> assumptions) {

  /** Copies the list. */
  public AssumedBrake {
    assumptions = List.copyOf(assumptions);
  }

  /**
   * One figure that was filled in.
   *
   * @param what the missing figure, in trade words
   * @param value the value taken
   * @param unit its unit
   * @param setAside whether the case gave a value that cannot be right
   */
  public record Assumption(String what, double value, String unit, boolean setAside) {}
}
