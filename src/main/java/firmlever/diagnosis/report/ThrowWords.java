package firmlever.diagnosis.report;

import firmlever.hydraulics.AssumedBrake.Assumption;
import firmlever.hydraulics.Interval;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.hydraulics.ThrowEstimate.NextReading;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** What the throws say, in sentences for a mechanic. */
public final class ThrowWords {
  private ThrowWords() {}

  private static final double ROUNDS_TO_NOTHING_ML = 0.005;

  private static final double WORTH_MEASURING = 0.1;

  /**
   * The whole finding: how much air, what it comes to, what would tell more, what was assumed. Air
   * stands for any gas, since nobody at a stand tells vapour from it.
   */
  public static List<String> sentences(ThrowEstimate estimate) {
    List<String> all = new ArrayList<>();
    all.add(range(estimate));
    if (estimate.fits()) {
      all.add(gas(estimate.gasMl()));
      all.add(meaning(estimate));
      estimate
          .wouldTell()
          .filter(next -> next.settles() >= WORTH_MEASURING)
          .ifPresent(next -> all.add(worthMeasuring(next)));
    } else {
      all.add(
          "No brake of this kind gives such throws together: measure again, from rest, at the lever"
              + " tip. They count for nothing below beyond what each shows by itself.");
    }
    all.addAll(assumed(estimate.assumptions()));
    return all;
  }

  private static String range(ThrowEstimate estimate) {
    Interval mm = estimate.sound().mm();
    String takes =
        String.format(
            Locale.ROOT,
            "A sound brake of this kind takes %s at %s",
            millimetresBetween(mm),
            newtons(estimate.sound().forceN()));
    String took =
        estimate.tookMm().isPresent()
            ? String.format(Locale.ROOT, "; this one took %.0f.", estimate.tookMm().getAsDouble())
            : ".";
    String makers =
        estimate.makersMm().isPresent()
            ? String.format(
                Locale.ROOT,
                " What counts is the maker's figure, %.0f mm.",
                estimate.makersMm().getAsDouble())
            : "";
    return takes + took + makers;
  }

  /** {@code 8 to 15 mm}. */
  static String millimetresBetween(Interval mm) {
    return String.format(Locale.ROOT, "%.0f to %.0f mm", mm.low(), mm.high());
  }

  private static String gas(Interval ml) {
    if (ml.low() < ROUNDS_TO_NOTHING_ML) {
      return "Air in the line at rest: anything from none to " + millilitres(ml.high()) + " fits.";
    }
    return "About "
        + millilitres(ml.best())
        + " of air in the line at rest, between "
        + millilitres(ml.low())
        + " and "
        + millilitres(ml.high())
        + ".";
  }

  private static String meaning(ThrowEstimate e) {
    return switch (e.meaning()) {
      case GAS ->
          "Squeezing it takes "
              + millimetres(e.gasTravelMm())
              + " of the travel to a firm pull, and flex little: a bleed can help, if it gets"
              + " the air out.";
      case GIVE ->
          "What makes it soft is flex, not air: "
              + millimetres(e.giveTravelMm())
              + " of the travel go into hose, pads or a caliper out of line. A bleed will not help.";
      case GAS_OR_GIVE ->
          String.format(
              Locale.ROOT,
              "The lever goes far, and these readings cannot tell whether air takes the travel or"
                  + " flex in hose and lever (air in %.0f of 100 brakes that fit): a bleed may help"
                  + " or not.",
              100 * e.gasRatherThanGive());
      case CLEARANCE ->
          "It is firm once the pads touch, but they touch late: about "
              + String.format(Locale.ROOT, "%.2f mm", e.clearanceMm().best())
              + " of gap at each piston. Look at pads, pistons and adjustment; a bleed will not"
              + " help.";
      case SOUND ->
          "Neither air nor flex nor gap is more than in a sound brake: a bleed would change"
              + " nothing.";
      case OPEN -> "The readings leave open whether air, flex or a wide gap takes the travel.";
    };
  }

  private static String worthMeasuring(NextReading next) {
    String what =
        switch (next.reading()) {
          case THROW_LIGHT -> "the throw when the pads just touch";
          case THROW_AT_FORCE -> "the throw at " + newtons(next.forceN());
          case THROW_AFTER_FIVE ->
              "the throw at " + newtons(next.forceN()) + " after five quick strokes";
        };
    return String.format(
        Locale.ROOT,
        "What would tell most: %s; it takes away about %.0f %% of the doubt.",
        what,
        100 * next.settles());
  }

  private static List<String> assumed(List<Assumption> assumptions) {
    List<String> sentences = new ArrayList<>();
    String taken = named(assumptions, false);
    String instead = named(assumptions, true);
    if (!taken.isEmpty()) {
      sentences.add("Not on record, so the usual is taken, and the range is wider: " + taken + ".");
    }
    if (!instead.isEmpty()) {
      sentences.add("On record, but not credible, so the usual is taken: " + instead + ".");
    }
    return sentences;
  }

  private static String named(List<Assumption> assumptions, boolean setAside) {
    return assumptions.stream()
        .filter(a -> a.setAside() == setAside)
        .map(a -> a.what() + " " + quantity(a))
        .collect(Collectors.joining(", "));
  }

  static String quantity(Assumption a) {
    String number = String.format(Locale.ROOT, "%.1f", a.value()).replaceFirst("\\.0$", "");
    return a.unit().equals("1") ? number : number + " " + a.unit();
  }

  /** A volume with two decimals under 1 mL, and one above. */
  static String millilitres(double ml) {
    return String.format(Locale.ROOT, ml < 0.995 ? "%.2f mL" : "%.1f mL", ml);
  }

  static String newtons(double forceN) {
    return String.format(Locale.ROOT, "%.0f N", forceN);
  }

  static String millimetres(double mm) {
    return String.format(Locale.ROOT, "%.1f mm", mm);
  }

  private static String millimetres(Interval mm) {
    return String.format(
        Locale.ROOT, "about %.0f mm (%.0f to %.0f)", mm.best(), mm.low(), mm.high());
  }
}
