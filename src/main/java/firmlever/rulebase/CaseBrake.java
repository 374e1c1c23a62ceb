package firmlever.rulebase;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Pull;
import firmlever.hydraulics.Air;
import firmlever.hydraulics.AssumedBrake;
import firmlever.hydraulics.BrakeDefaults;
import firmlever.hydraulics.Condition;
import firmlever.hydraulics.FeelLimits;
import firmlever.hydraulics.FluidGrade;
import firmlever.hydraulics.KnownBrake;
import firmlever.hydraulics.Readings;
import firmlever.hydraulics.SoundThrow;
import firmlever.hydraulics.ThrowEstimate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Puts a case before the hydraulics: its brake, its throw readings, the air it stands in. */
public final class CaseBrake {
  private CaseBrake() {}

  /** Temperature of a brake that stands where nobody wrote it down, °C. */
  private static final double USUAL_C = 20;

  /** What the throw readings say; empty, and nothing worked out, where there are none. */
  public static Optional<ThrowEstimate> throwEstimate(CaseFile file) {
    return throwQuestion(file).map(ThrowQuestion::answer);
  }

  /** All that the throws are judged by: cases that agree in it get one answer. */
  record ThrowQuestion(
      AssumedBrake brake,
      Readings readings,
      double ambientMpa,
      double ambientC,
      FeelLimits limits) {
    ThrowEstimate answer() {
      return ThrowEstimate.of(brake, readings, ambientMpa, ambientC, limits).orElseThrow();
    }
  }

  /** What is asked of the throw readings; empty where there are none. */
  static Optional<ThrowQuestion> throwQuestion(CaseFile file) {
    CaseFile.Readings r = file.readings();
    if (Double.isNaN(r.throwLightMm())
        && r.throwFirm().isEmpty()
        && Double.isNaN(r.throwAfterFiveMm())) {
      return Optional.empty();
    }
    return Optional.of(
        new ThrowQuestion(
            assumed(file.brake()),
            readings(r),
            ambientMpa(file),
            ambientC(file),
            FeelLimits.common(
                known(file.brake().makerFigures().getOrDefault("throw", Double.NaN)))));
  }

  /** The brake, with what is usual where the case says nothing. */
  public static AssumedBrake assumed(CaseFile.Brake brake) {
    KnownBrake.End end =
        switch (brake.position()) {
          case "front" -> KnownBrake.End.FRONT;
          case "rear" -> KnownBrake.End.REAR;
          default -> KnownBrake.End.UNKNOWN;
        };
    return BrakeDefaults.fill(
        new KnownBrake(
            end,
            FluidGrade.valueOf(brake.fluid().name()),
            known(brake.leverBoreMm()),
            known(brake.leverRatio()),
            brake.caliperPistons(),
            brake.caliperBoresMm(),
            known(brake.hoseLengthMm()),
            known(brake.hoseBoreMm())));
  }

  /** How far sound brakes of this kind go at a usual firm pull, weighed by a scale. */
  public static SoundThrow soundThrow(CaseFile file) {
    return SoundThrow.of(
        assumed(file.brake()), Readings.USUAL_FIRM_N, Readings.USUAL_SCALE_ERROR, ambientC(file));
  }

  /** A sound brake where and as warm as this one. */
  public static Condition sound(CaseFile file) {
    return new Condition(
        0, Condition.sound().clearanceMm(), 0, 0, ambientC(file), ambientMpa(file));
  }

  private static Readings readings(CaseFile.Readings r) {
    List<Readings.Pull> firm = r.throwFirm().stream().map(CaseBrake::pull).toList();
    Readings readings =
        Readings.of(known(r.throwLightMm()), firm, known(r.throwAfterFiveMm()), known(r.creepMm()));
    boolean weighed = r.throwFirm().stream().noneMatch(pull -> Double.isNaN(pull.forceN()));
    return weighed ? readings : readings.byFeel();
  }

  private static Readings.Pull pull(Pull pull) {
    return new Readings.Pull(pull.throwMm(), forceN(pull));
  }

  /** Force of a pull, N; without a scale that of a usual firm pull. */
  public static double forceN(Pull pull) {
    return Double.isNaN(pull.forceN()) ? Readings.USUAL_FIRM_N : pull.forceN();
  }

  /** Absolute air pressure where it is ridden, MPa; at sea level where nobody wrote it down. */
  public static double ambientMpa(CaseFile file) {
    double altitudeM = file.use().altitudeM();
    return Air.pressureMpa(Double.isNaN(altitudeM) ? 0 : altitudeM);
  }

  /** Temperature around it, °C. */
  public static double ambientC(CaseFile file) {
    double ambientC = file.use().ambientC();
    return Double.isNaN(ambientC) ? USUAL_C : ambientC;
  }

  private static OptionalDouble known(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
