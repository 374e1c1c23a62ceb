package firmlever.hydraulics;

import java.util.List;
import java.util.OptionalDouble;

/**
 * What a case file says of a brake; anything may be missing.
 *
 * @param pistons number of caliper pistons, 0 when not known
 * @param caliperBoresMm one bore for all, one for each piston, or one for each pair; empty when not
 *     known
 */
public record KnownBrake(
    End end,
    FluidGrade fluid,
    OptionalDouble leverBoreMm,
    OptionalDouble leverRatio,
    int pistons,
    List<Double> caliperBoresMm,
    OptionalDouble hoseLengthMm,
    OptionalDouble hoseBoreMm) {

  /** Which end of the bicycle. */
  public enum End {
    FRONT,
    REAR,
    UNKNOWN
  }

  /** Copies the list. */
  public KnownBrake {
    caliperBoresMm = List.copyOf(caliperBoresMm);
  }
}
