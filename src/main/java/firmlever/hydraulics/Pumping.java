package firmlever.hydraulics;

/**
 * What five quick strokes take up.
 *
 * @param gapShare share of the gap beyond a normal one, taken up because pistons follow worn pads,
 *     0 to 1
 * @param gasShare share of the gas kept squeezed as it was at contact, 0 to 1
 */
public record Pumping(double gapShare, double gasShare) {
  /** A pumping between the bounds of memory; both arguments from 0 to 1. */
  static Pumping between(double gapPart, double gasPart) {
    return new Pumping(
        part(Figures.PUMPING.at(0), Figures.PUMPING.at(1), gapPart),
        part(Figures.PUMPING.at(2), Figures.PUMPING.at(3), gasPart));
  }

  private static double part(double low, double high, double part) {
    return low + part * (high - low);
  }
}
