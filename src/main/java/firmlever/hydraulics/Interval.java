package firmlever.hydraulics;

/**
 * An estimate with its range. That of a lever throw holds the truth in at least 95 of 100 brakes;
 * the ranges of heat and boiling point are bounds set by the figures named for them.
 *
 * @param low lower end
 * @param best middle of what fits
 * @param high upper end
 */
public record Interval(double low, double best, double high) {
  /** Upper less lower end. */
  public double width() {
    return high - low;
  }
}
