package firmlever.hydraulics;

import firmlever.hydraulics.AssumedBrake.Assumption;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** Fills what is not known of a brake with what is usual for its kind, and says so. */
public final class BrakeDefaults {
  private BrakeDefaults() {}

  /** Fills a brake. Values that no bicycle brake has are set aside and named. */
  public static AssumedBrake fill(KnownBrake known) {
    List<Assumption> made = new ArrayList<>();
    double spreadBore = Figures.SPREAD_OF_DEFAULTS.at(0);
    double spreadRatio = Figures.SPREAD_OF_DEFAULTS.at(1);
    double leverBoreMm =
        pick(
            "lever bore",
            "mm",
            known.leverBoreMm(),
            Figures.PLAUSIBLE_LEVER_BORE,
            Figures.DEFAULT_LEVER_BORE.value(),
            made);
    double leverVariance = square(made.isEmpty() ? 0 : 2 * spreadBore);
    int before = made.size();
    double ratio =
        pick(
            "lever ratio",
            "1",
            known.leverRatio(),
            Figures.PLAUSIBLE_LEVER_RATIO,
            Figures.DEFAULT_LEVER_RATIO.value(),
            made);
    leverVariance += square(made.size() > before ? spreadRatio : 0);
    leverVariance += square(Figures.SPREAD_OF_KNOWN.value());
    before = made.size();
    double areaMm2 = pistonAreaMm2(known, made);
    double areaSpread =
        made.size() > before ? Figures.SPREAD_OF_DEFAULTS.at(2) : Figures.SPREAD_OF_KNOWN.value();
    double hoseLengthMm =
        pick(
            "hose length",
            "mm",
            known.hoseLengthMm(),
            Figures.PLAUSIBLE_HOSE_LENGTH,
            Figures.DEFAULT_HOSE_LENGTH.at(known.end().ordinal()),
            made);
    double hoseBoreMm =
        pick(
            "hose bore",
            "mm",
            known.hoseBoreMm(),
            Figures.PLAUSIBLE_HOSE_BORE,
            Figures.DEFAULT_HOSE_BORE.value(),
            made);
    Brake brake =
        new Brake(
            leverBoreMm,
            ratio,
            areaMm2,
            hoseLengthMm,
            hoseBoreMm,
            Figures.BICYCLE_HOSE_SOFTNESS.value(),
            known.fluid(),
            Figures.DEFAULT_FIXED_VOLUME.value(),
            Figures.DEFAULT_PISTON_DEPTH.value(),
            Figures.DEFAULT_CALIPER_GIVE.value(),
            Figures.DEFAULT_BLADE_FLEX.value(),
            Figures.DEFAULT_DEAD_TRAVEL.value(),
            Figures.DEFAULT_CONTACT_PRESSURE.value());
    double giveSpread = Figures.SPREAD_OF_DEFAULTS.at(3);
    return new AssumedBrake(brake, Math.sqrt(leverVariance), areaSpread, giveSpread, made);
  }

  private static double pistonAreaMm2(KnownBrake known, List<Assumption> made) {
    int pistons = known.pistons();
    boolean credible = pistons == 1 || pistons == 2 || pistons == 4 || pistons == 6;
    if (!credible) {
      made.add(new Assumption("number of caliper pistons", 2, "1", pistons != 0));
      pistons = 2;
    }
    int count = Math.max(2, pistons); // a single sliding piston takes up both gaps
    List<Double> bores = known.caliperBoresMm();
    boolean believed =
        !bores.isEmpty()
            && count % bores.size() == 0
            && bores.stream().allMatch(bore -> within(Figures.PLAUSIBLE_CALIPER_BORE, bore));
    if (believed) {
      double once = bores.stream().mapToDouble(Brake::areaMm2).sum();
      return once * count / bores.size();
    }
    double boreMm = Figures.DEFAULT_CALIPER_BORE.at(count / 2 - 1);
    made.add(new Assumption("caliper bore", boreMm, "mm", !bores.isEmpty()));
    return count * Brake.areaMm2(boreMm);
  }

  private static double pick(
      String what,
      String unit,
      OptionalDouble known,
      Figures plausible,
      double usual,
      List<Assumption> made) {
    if (known.isPresent() && within(plausible, known.getAsDouble())) {
      return known.getAsDouble();
    }
    made.add(new Assumption(what, usual, unit, known.isPresent()));
    return usual;
  }

  private static boolean within(Figures range, double value) {
    return value >= range.at(0) && value <= range.at(1); // false for NaN
  }

  private static double square(double value) {
    return value * value;
  }
}
