package firmlever.hydraulics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Room before the fluid boils on a descent, and what would widen it.
 *
 * @param rotorC temperature of the rotor, °C
 * @param fluidC temperature of the fluid at the caliper, °C
 * @param marginC boiling point less fluid temperature, °C; below 0 the fluid may boil
 * @param help what would help, most first
 */
public record BoilingMargin(Interval rotorC, Interval fluidC, Interval marginC, List<Help> help) {

  /** Copies the list. */
  public BoilingMargin {
    help = List.copyOf(help);
  }

  /** A way to widen the margin. */
  public enum Means {
    /** New fluid of the grade the maker names. */
    FRESH_FLUID,
    /** A larger rotor, where frame, fork and maker allow it. */
    LARGER_ROTOR,
    /** The other brake takes its half. */
    SHARE_THE_BRAKING,
    /** A stop half way until the rotor is cool. */
    STOP_HALF_WAY
  }

  /**
   * One way.
   *
   * @param gainC how much the middle of the margin grows, °C
   */
  public record Help(Means means, double gainC) {}

  /** Works the margin of one descent. */
  public static BoilingMargin of(
      DescentHeat descent,
      Rotor rotor,
      double ambientC,
      FluidGrade grade,
      BoilingPoint boiling,
      double ambientMpa) {
    Interval fluidC = descent.fluidC(rotor, ambientC);
    double warmC = fluidC.best();
    List<Help> help = new ArrayList<>();
    double freshC = BoilingPoint.atPressureC(grade.dryBoilingC(), ambientMpa);
    add(help, Means.FRESH_FLUID, freshC - boiling.boilingC().best());
    Rotor larger = scaled(rotor, rotor.diameterMm() + 20);
    add(help, Means.LARGER_ROTOR, warmC - descent.fluidC(larger, ambientC).best());
    DescentHeat shared = with(descent, descent.dropM(), Math.min(0.5, descent.wheelShare()));
    add(help, Means.SHARE_THE_BRAKING, warmC - shared.fluidC(rotor, ambientC).best());
    DescentHeat half = with(descent, descent.dropM() / 2, descent.wheelShare());
    add(help, Means.STOP_HALF_WAY, warmC - half.fluidC(rotor, ambientC).best());
    help.sort(Comparator.comparingDouble(Help::gainC).reversed());
    return new BoilingMargin(
        descent.rotorC(rotor, ambientC), fluidC, boiling.marginC(fluidC), help);
  }

  private static void add(List<Help> help, Means means, double gainC) {
    if (gainC >= 1) {
      help.add(new Help(means, gainC));
    }
  }

  private static Rotor scaled(Rotor rotor, double diameterMm) {
    double part = diameterMm / rotor.diameterMm();
    return new Rotor(rotor.massKg() * part * part, diameterMm);
  }

  private static DescentHeat with(DescentHeat descent, double dropM, double wheelShare) {
    return new DescentHeat(
        descent.massKg(), dropM, descent.gradient(), descent.speedMPerS(), wheelShare);
  }
}
