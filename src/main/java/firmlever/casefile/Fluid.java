package firmlever.casefile;

import java.util.Locale;

/** The fluid a brake is built for, or the fluid that was put in. */
public enum Fluid {
  MINERAL_OIL(Family.MINERAL),
  DOT(Family.GLYCOL),
  DOT_3(Family.GLYCOL),
  DOT_4(Family.GLYCOL),
  DOT_5_1(Family.GLYCOL),
  DOT_5(Family.SILICONE),
  OTHER_OIL(Family.OTHER),
  UNKNOWN(Family.UNKNOWN);

  /** Fluids of one family mix and suit the same seals. */
  public enum Family {
    MINERAL,
    GLYCOL,
    SILICONE,
    OTHER,
    UNKNOWN
  }

  private final Family family;

  Fluid(Family family) {
    this.family = family;
  }

  public Family family() {
    return family;
  }

  /** The spelling used in files: {@code mineral-oil}, {@code dot-5.1}. */
  public String id() {
    return this == DOT_5_1 ? "dot-5.1" : name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** As what a brake is built for, spoken. */
  public String spoken() {
    return switch (this) {
      case UNKNOWN -> "a fluid nobody has told";
      case MINERAL_OIL -> "mineral oil";
      case OTHER_OIL -> "another oil";
      default -> id().replace("dot", "DOT").replace('-', ' ') + " fluid";
    };
  }

  /** Whether both are known and of different families. */
  public boolean clashesWith(Fluid other) {
    return family != Family.UNKNOWN && other.family != Family.UNKNOWN && family != other.family;
  }
}
