package firmlever.hydraulics;

import java.util.List;
import java.util.OptionalDouble;

/** Brakes that tests share. */
final class SoundBrakes {
  private SoundBrakes() {}

  /** A rear brake of two 21 mm pistons of which every size is on record. */
  static KnownBrake knownRear() {
    return new KnownBrake(
        KnownBrake.End.REAR,
        FluidGrade.MINERAL_OIL,
        OptionalDouble.of(10),
        OptionalDouble.of(5.6),
        2,
        List.of(21.0),
        OptionalDouble.of(1600),
        OptionalDouble.of(2.2));
  }

  /** A brake of which only the end and the fluid are known. */
  static KnownBrake unknown(KnownBrake.End end, FluidGrade fluid) {
    OptionalDouble none = OptionalDouble.empty();
    return new KnownBrake(end, fluid, none, none, 0, List.of(), none, none);
  }

  static Brake rear() {
    return BrakeDefaults.fill(knownRear()).middle();
  }
}
