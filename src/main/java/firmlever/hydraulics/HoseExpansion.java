package firmlever.hydraulics;

import java.util.OptionalDouble;

/**
 * The most a brake hose may swell under 49 CFR 571.106, Table I.
 *
 * <p>A motor-vehicle limit: a sound bicycle hose is some tens of times stiffer, so this bounds, it
 * does not describe. The printed heads over the 1500 psi column are swapped in the regulation; the
 * larger figure is the regular hose, as in the other columns.
 */
public final class HoseExpansion {
  /** Class of hose in the table. */
  public enum HoseClass {
    REGULAR,
    LOW_EXPANSION
  }

  private HoseExpansion() {}

  /**
   * Limit of expansion.
   *
   * @param boreMm inner diameter, mm, above 0
   * @param pressureMpa gauge pressure, MPa; straight lines between the table's pressures and from
   *     zero
   * @return mL per metre; empty beyond the table's last pressure for that bore
   */
  public static OptionalDouble limitMlPerM(double boreMm, HoseClass hose, double pressureMpa) {
    Figures row = row(boreMm, hose);
    double lowerMpa = 0;
    double lowerMl = 0;
    for (int i = 0; i < row.size(); i++) {
      double upperMpa = Units.mpaFromPsi(Figures.HOSE_PRESSURES.at(i));
      double upperMl = Units.perMetreFromPerFoot(row.at(i));
      if (pressureMpa <= upperMpa) {
        double part = (pressureMpa - lowerMpa) / (upperMpa - lowerMpa);
        return OptionalDouble.of(lowerMl + part * (upperMl - lowerMl));
      }
      lowerMpa = upperMpa;
      lowerMl = upperMl;
    }
    return OptionalDouble.empty();
  }

  private static Figures row(double boreMm, HoseClass hose) {
    boolean regular = hose == HoseClass.REGULAR;
    if (boreMm <= Figures.HOSE_BORE_STEPS.at(0)) {
      return regular ? Figures.HOSE_THIN_REGULAR : Figures.HOSE_THIN_LOW;
    }
    if (boreMm <= Figures.HOSE_BORE_STEPS.at(1)) {
      return regular ? Figures.HOSE_MIDDLE_REGULAR : Figures.HOSE_MIDDLE_LOW;
    }
    return regular ? Figures.HOSE_WIDE_REGULAR : Figures.HOSE_WIDE_LOW;
  }
}
