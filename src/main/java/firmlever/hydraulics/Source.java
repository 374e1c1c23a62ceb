package firmlever.hydraulics;

/** Where figures come from. */
enum Source {
  FLUID_BOILING("49 CFR 571.116 S5.1.1, S5.1.2", Standing.PUBLISHED),
  FLUID_WET_POINT("49 CFR 571.116 S6.2.5", Standing.PUBLISHED),
  FLUID_PRESSURE_TABLE("49 CFR 571.116 Table III", Standing.PUBLISHED),
  FORUM("tests quoted in a forum, aussiefrogs.com 7868; low trust", Standing.COMMON_PRACTICE),
  MEMORY("from memory", Standing.FROM_MEMORY),
  BULK_MODULUS_TABLE("engineeringtoolbox.com, bulk modulus table", Standing.PUBLISHED),
  HYDRAULIC_DATA("hydraulic engineering data table, MIL-H fluids", Standing.PUBLISHED),
  NIST("NIST SP 811 B.8", Standing.PUBLISHED),
  PRACTICE("common practice", Standing.COMMON_PRACTICE),
  BICYCLE_LEVER_STRENGTH("16 CFR 1512.18(d)(2)(i)", Standing.PUBLISHED),
  BICYCLE_STOPPING("16 CFR 1512.18(d)(2)(vi)", Standing.PUBLISHED),
  STEEL_TABLE("heat-transfer text, Appendix A, AISI 316 at 300 and 400 K", Standing.PUBLISHED),
  FILM_NOTES("Cengel, heat-transfer notes on convection", Standing.PUBLISHED);

  private final String text;
  private final Standing standing;

  Source(String text, Standing standing) {
    this.text = text;
    this.standing = standing;
  }

  /** The citation, as printed. */
  String text() {
    return text;
  }

  /** How well figures from here are founded. */
  Standing standing() {
    return standing;
  }
}
