package firmlever.diagnosis;

import firmlever.casefile.CaseFile;
import firmlever.hydraulics.Brake;
import firmlever.hydraulics.Condition;
import firmlever.hydraulics.Fitted;
import firmlever.hydraulics.LeverCurve;
import firmlever.hydraulics.Readings;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.rulebase.CaseBrake;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Throw against force of one brake: as measured, as modelled, and as it would be with one thing
 * different.
 *
 * @param caseId code of the case
 * @param brakeId code of the brake
 * @param measured the readings
 * @param lines the modelled line first, then what if
 * @param mostN force up to which it is to be drawn, N
 * @param estimate what the throws say; without throw readings, or where no brake gives them, the
 *     modelled line is that of a sound brake of this kind
 */
public record ThrowCurve(
    String caseId,
    String brakeId,
    List<Measured> measured,
    List<Line> lines,
    double mostN,
    Optional<ThrowEstimate> estimate) {

  private static final double LEAST_MOST_N = 150;

  /** So much more gas shows what air does, and still leaves a lever to pull, mL. */
  private static final double SOME_AIR_ML = 0.2;

  private static final int POINTS = 80;

  /** Copies the lists. */
  public ThrowCurve {
    measured = List.copyOf(measured);
    lines = List.copyOf(lines);
  }

  /**
   * A reading.
   *
   * @param forceN force at the lever tip, N; for light contact the force at which the modelled pads
   *     touch
   * @param throwMm throw, mm
   */
  public record Measured(What what, double forceN, double throwMm) {}

  /** Kinds of reading on the curve. */
  public enum What {
    LIGHT_CONTACT,
    FIRM_PULL,
    AFTER_FIVE_STROKES
  }

  /** What a line stands for. */
  public enum If {
    /** As the readings have it; without them, a sound brake of this kind. */
    MODELLED,
    /** The same with 0.2 mL more gas at rest. */
    SOME_AIR,
    /** The same with the gap of new pads. */
    NEW_PADS,
    /** The same with a hose so soft that all flex is doubled. */
    SOFT_HOSE
  }

  /** One line. */
  public record Line(If of, Brake brake, Condition condition) {
    /** Throw at a force, mm. */
    public double throwMm(double forceN) {
      return LeverCurve.throwMm(brake, condition, forceN);
    }
  }

  /** Works out the curves of a case. */
  public static ThrowCurve of(CaseFile file) {
    Optional<ThrowEstimate> estimate = CaseBrake.throwEstimate(file);
    Optional<Fitted> fitted = estimate.filter(ThrowEstimate::fits).map(ThrowEstimate::fitted);
    Brake brake =
        fitted.map(Fitted::brake).orElseGet(() -> CaseBrake.assumed(file.brake()).middle());
    Condition sound = CaseBrake.sound(file);
    Condition now = fitted.map(Fitted::condition).orElse(sound);
    List<Measured> measured = measured(file.readings(), brake);
    double give = brake.giveMlPerMpa(now.temperatureC()) + now.addedGiveMlPerMpa();
    return new ThrowCurve(
        file.id(),
        file.brake().id(),
        measured,
        List.of(
            new Line(If.MODELLED, brake, now),
            new Line(If.SOME_AIR, brake, now.withGasMl(now.gasMl() + SOME_AIR_ML)),
            new Line(
                If.NEW_PADS,
                brake,
                now.withClearanceMm(Math.min(now.clearanceMm(), sound.clearanceMm()))),
            new Line(If.SOFT_HOSE, brake, now.withAddedGive(now.addedGiveMlPerMpa() + give))),
        measured.stream().mapToDouble(m -> 1.2 * m.forceN()).reduce(LEAST_MOST_N, Math::max),
        estimate);
  }

  /** Forces to draw a line by, N, from 0; closest where the throw changes most. */
  public List<Double> forcesN() {
    return IntStream.rangeClosed(0, POINTS)
        .mapToObj(i -> mostN * i * i / (POINTS * POINTS))
        .toList();
  }

  private static List<Measured> measured(CaseFile.Readings r, Brake brake) {
    List<Measured> measured = new ArrayList<>();
    if (!Double.isNaN(r.throwLightMm())) {
      double contactN = brake.contactPressureMpa() / brake.pressureMpa(1);
      measured.add(new Measured(What.LIGHT_CONTACT, contactN, r.throwLightMm()));
    }
    for (CaseFile.Pull pull : r.throwFirm()) {
      measured.add(new Measured(What.FIRM_PULL, CaseBrake.forceN(pull), pull.throwMm()));
    }
    if (!Double.isNaN(r.throwAfterFiveMm())) {
      double forceN =
          r.throwFirm().isEmpty() ? Readings.USUAL_FIRM_N : CaseBrake.forceN(r.throwFirm().get(0));
      measured.add(new Measured(What.AFTER_FIVE_STROKES, forceN, r.throwAfterFiveMm()));
    }
    return measured;
  }
}
