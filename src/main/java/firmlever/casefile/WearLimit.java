package firmlever.casefile;

import firmlever.casefile.CaseFile.Brake;
import java.util.List;

/**
 * The least thickness at which a part that wears may stay in use.
 *
 * @param mm in mm
 * @param makers whether the maker gives it for this brake; otherwise it is common practice, from
 *     memory
 */
public record WearLimit(double mm, boolean makers) {
  private static final double COMMON_PADS_MM = 1;
  private static final double COMMON_ROTOR_MM = 1.5;

  /** Of the friction material of a pad. */
  public static WearLimit ofPads(Brake brake) {
    return of(brake, "pad-limit", COMMON_PADS_MM);
  }

  /** Of the thickness of the rotor. */
  public static WearLimit ofRotor(Brake brake) {
    return of(brake, "rotor-limit", COMMON_ROTOR_MM);
  }

  private static WearLimit of(Brake brake, String figure, double common) {
    Double makers = brake.makerFigures().get(figure);
    return makers == null ? new WearLimit(common, false) : new WearLimit(makers, true);
  }

  /** Which of these, in mm, have worn below it. */
  public List<Double> below(List<Double> thicknesses) {
    return thicknesses.stream().filter(each -> each < mm).toList();
  }
}
