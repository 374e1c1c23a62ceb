package firmlever.diagnosis;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.CaseFile.Readings;
import firmlever.casefile.CaseFile.Use;
import firmlever.casefile.Fluid;
import firmlever.hydraulics.BoilingMargin;
import firmlever.hydraulics.BoilingMargin.Help;
import firmlever.hydraulics.BoilingPoint;
import firmlever.hydraulics.BoilingPoint.Basis;
import firmlever.hydraulics.BoilingPoint.Known;
import firmlever.hydraulics.DescentHeat;
import firmlever.hydraulics.FluidGrade;
import firmlever.hydraulics.HeadRoom;
import firmlever.hydraulics.Interval;
import firmlever.hydraulics.Rotor;
import firmlever.rulebase.CaseBrake;
import firmlever.rulebase.CaseFacts;
import firmlever.vocabulary.Vocabulary;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/** What physics says of heat and room in this brake, where the case holds what it takes. */
public final class HeatAndRoom {
  private HeatAndRoom() {}

  /** Sentences, for people; none where nothing can be worked out. */
  public static List<String> of(CaseFile file, Vocabulary vocabulary) {
    return Stream.of(descent(file, vocabulary), newPads(file)).flatMap(Optional::stream).toList();
  }

  /** How near the fluid comes to boiling on the descent, and what would widen the margin. */
  private static Optional<String> descent(CaseFile file, Vocabulary vocabulary) {
    Use use = file.use();
    double diameterMm = file.brake().rotorDiameterMm();
    boolean told = use.riderAndLoadKg() > 0 && use.dropM() > 0 && use.slopePercent() > 0;
    if (!told || Double.isNaN(diameterMm)) {
      return Optional.empty();
    }
    DescentHeat heat =
        DescentHeat.atWorstSpeed(
            use.riderAndLoadKg(), use.dropM(), use.slopePercent() / 100, DescentHeat.USUAL_SHARE);
    FluidGrade grade = FluidGrade.valueOf(fluid(file).name());
    BoilingPoint boiling =
        BoilingPoint.of(grade, known(file, vocabulary), CaseBrake.ambientMpa(file));
    BoilingMargin margin =
        BoilingMargin.of(
            heat,
            Rotor.ofDiameterMm(diameterMm),
            CaseBrake.ambientC(file),
            grade,
            boiling,
            CaseBrake.ambientMpa(file));
    String said =
        String.format(
            Locale.ROOT,
            "Down %.0f m at %.0f %% with %.0f kg, held at %.0f km/h, this brake taking %.1f of it:"
                + " fluid at the caliper near %.0f °C (rough: the rise may be half or twice that); here it"
                + " boils at %s (%s): %s.",
            use.dropM(),
            use.slopePercent(),
            use.riderAndLoadKg(),
            heat.speedMPerS() * 3.6,
            DescentHeat.USUAL_SHARE,
            margin.fluidC().best(),
            range(boiling.boilingC()),
            spoken(boiling.basis()),
            verdict(margin.marginC()));
    String help =
        margin.marginC().low() > 0 || margin.help().isEmpty() ? "" : helps(margin.help().get(0));
    return Optional.of(said + help + " An estimate: the maker's limits stand above it.");
  }

  private static String helps(Help help) {
    String what =
        switch (help.means()) {
          case FRESH_FLUID -> "fresh fluid of the maker's grade";
          case LARGER_ROTOR -> "a rotor 20 mm larger, if maker, frame and fork allow it";
          case SHARE_THE_BRAKING -> "braking with both brakes alike";
          case STOP_HALF_WAY -> "a stop half way until the rotor is cool";
        };
    return String.format(Locale.ROOT, " What helps most: %s (%.0f °C).", what, help.gainC());
  }

  private static String verdict(Interval marginC) {
    return marginC.low() > 0
        ? String.format(Locale.ROOT, "at least %.0f °C of room", marginC.low())
        : marginC.best() < 0 ? "it is likely to boil" : "it may boil";
  }

  private static String range(Interval celsius) {
    return celsius.width() < 1
        ? String.format(Locale.ROOT, "%.0f °C", celsius.best())
        : String.format(Locale.ROOT, "%.0f to %.0f °C", celsius.low(), celsius.high());
  }

  private static String spoken(Basis basis) {
    return switch (basis) {
      case BOILING_READING -> "measured";
      case MOISTURE_READING -> "by the water measured in it";
      case FREE_WATER -> "water lies free in it";
      case AGE -> "by its age";
      case DRY_OIL -> "oil without free water";
      case GRADE_ONLY -> "by its grade only, anything from fresh to very wet";
    };
  }

  /** The fluid last put in, as far as the record tells; otherwise what the brake is built for. */
  private static Fluid fluid(CaseFile file) {
    return file.history().stream()
        .filter(entry -> entry.fluid() != Fluid.UNKNOWN && entry.daysAgo().isPresent())
        .min(Comparator.comparingInt((Entry entry) -> entry.daysAgo().getAsInt()))
        .map(Entry::fluid)
        .orElse(file.brake().fluid());
  }

  private static Known known(CaseFile file, Vocabulary vocabulary) {
    Readings readings = file.readings();
    return new Known(
        told(readings.boilingPointC()),
        told(readings.moisturePercent()),
        file.symptoms().get("milky-fluid") == Presence.PRESENT,
        told(CaseFacts.fluidAgeYears(file, vocabulary)));
  }

  /** Whether the reservoir takes the fluid that the pistons push back when new pads go in. */
  private static Optional<String> newPads(CaseFile file) {
    double newMm = file.brake().makerFigures().getOrDefault("pad-new", Double.NaN);
    double freeMl = file.brake().reservoirFreeMl();
    OptionalDouble nowMm =
        file.readings().padThicknessesMm().stream().mapToDouble(Double::doubleValue).average();
    if (Double.isNaN(newMm) || Double.isNaN(freeMl) || nowMm.isEmpty()) {
      return Optional.empty();
    }
    double areaMm2 = CaseBrake.assumed(file.brake()).middle().pistonAreaMm2();
    double backMl = HeadRoom.padWearMl(areaMm2, Math.max(0, newMm - nowMm.getAsDouble()));
    return Optional.of(
        String.format(
            Locale.ROOT,
            "New pads push %.1f mL back into the reservoir, which has room for %.1f mL: %s.",
            backMl,
            freeMl,
            backMl > freeMl
                ? "draw some off first, or it wells up or drags"
                : "it takes them as it is"));
  }

  private static OptionalDouble told(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
