package firmlever.hydraulics;

import static firmlever.hydraulics.Source.BICYCLE_LEVER_STRENGTH;
import static firmlever.hydraulics.Source.BICYCLE_STOPPING;
import static firmlever.hydraulics.Source.BULK_MODULUS_TABLE;
import static firmlever.hydraulics.Source.FILM_NOTES;
import static firmlever.hydraulics.Source.FLUID_BOILING;
import static firmlever.hydraulics.Source.FLUID_PRESSURE_TABLE;
import static firmlever.hydraulics.Source.FLUID_WET_POINT;
import static firmlever.hydraulics.Source.FORUM;
import static firmlever.hydraulics.Source.HYDRAULIC_DATA;
import static firmlever.hydraulics.Source.MEMORY;
import static firmlever.hydraulics.Source.NIST;
import static firmlever.hydraulics.Source.PRACTICE;
import static firmlever.hydraulics.Source.STEEL_TABLE;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * Every figure from outside that this package reckons with, written once.
 *
 * <p>Code takes the number from here and the sources page prints it from here, so that they cannot
 * differ.
 */
public enum Figures {
  // Fluids
  DOT_3_BOILING(
      FLUID_BOILING, "FluidGrade", "°C", "DOT 3 boiling point, dry and wet minimum", 205, 140),
  DOT_4_BOILING(
      FLUID_BOILING, "FluidGrade", "°C", "DOT 4 boiling point, dry and wet minimum", 230, 155),
  DOT_5_BOILING(
      FLUID_BOILING,
      "FluidGrade",
      "°C",
      "DOT 5 and 5.1 boiling point, dry and wet minimum",
      260,
      180),
  WET_WATER(
      FLUID_WET_POINT,
      "BoilingPoint",
      "%",
      "water in the referee fluid at the wet point, by weight",
      3.70),
  BOILING_PER_MMHG(
      FLUID_PRESSURE_TABLE,
      "BoilingPoint",
      "°C/mmHg",
      "fall of the boiling point below 760 mmHg, up to and above 190 °C",
      0.039,
      0.04),
  FIELD_WATER(
      FORUM,
      "BoilingPoint",
      "%",
      "water in DOT fluid after a year in use, and in old cars",
      2.0,
      2.6),
  FIELD_WATER_SPREAD(
      FORUM,
      "BoilingPoint",
      "1",
      "spread of water in use (of its logarithm): a quarter above 4 %",
      0.64),
  MINERAL_OIL_BOILING(
      MEMORY, "FluidGrade", "°C", "boiling point of a dry mineral brake oil, low end", 250),
  BOILING_TESTER_ERROR(
      MEMORY, "BoilingPoint", "°C", "error of a workshop boiling-point tester, either way", 8),
  MOISTURE_TESTER_ERROR(
      MEMORY, "BoilingPoint", "%", "error of a workshop moisture tester, either way", 0.5),
  WATER_ANTOINE(
      MEMORY,
      "BoilingPoint",
      "mmHg, °C",
      "water vapour pressure, Antoine: log10 p = A - B/(C + T)",
      8.07131,
      1730.63,
      233.426),
  OIL_BULK_MODULUS(BULK_MODULUS_TABLE, "FluidGrade", "GPa", "bulk modulus of paraffin oil", 1.66),
  SILICONE_BULK_MODULUS(
      HYDRAULIC_DATA, "FluidGrade", "psi", "bulk modulus of 100 cSt silicone fluid", 150_000),
  GLYCOL_BULK_MODULUS(
      MEMORY, "FluidGrade", "GPa", "bulk modulus of glycol-ether brake fluid, 1.6 to 2.0", 1.8),
  MODULUS_WARMTH(
      HYDRAULIC_DATA,
      "FluidGrade",
      "1",
      "factor on an oil's bulk modulus at 60 °F and at 160 °F",
      1.10,
      0.86),

  // Air
  STANDARD_AIR(NIST, "Air", "Pa", "pressure of the standard atmosphere at sea level", 101_325),
  STANDARD_LAPSE(
      MEMORY, "Air", "1/m, 1", "standard atmosphere, p = p0 (1 - a h)^b", 2.25577e-5, 5.25588),

  // Hose
  BICYCLE_HOSE_SOFTNESS(
      MEMORY,
      "BrakeDefaults",
      "mL/(m·MPa)",
      "expansion of a sound bicycle hose (firm near 10 mm)",
      0.0012),

  // What a brake is when nobody measured it
  DEFAULT_LEVER_BORE(MEMORY, "BrakeDefaults", "mm", "bore of the lever piston", 10),
  DEFAULT_LEVER_RATIO(
      MEMORY, "BrakeDefaults", "1", "travel at the tip per travel of the lever piston", 5.6),
  DEFAULT_CALIPER_BORE(
      MEMORY,
      "BrakeDefaults",
      "mm",
      "bore of a caliper piston: up to two, four, six",
      21,
      16.5,
      14),
  DEFAULT_HOSE_LENGTH(
      MEMORY, "BrakeDefaults", "mm", "length of hose: front, rear, not known", 950, 1650, 1300),
  DEFAULT_HOSE_BORE(MEMORY, "BrakeDefaults", "mm", "bore of a bicycle brake hose", 2.2),
  DEFAULT_CLEARANCE(MEMORY, "Condition", "mm", "gap between pad and rotor, each piston", 0.09),
  DEFAULT_DEAD_TRAVEL(
      MEMORY, "BrakeDefaults", "mm", "travel at the lever tip before the return port shuts", 1.5),
  DEFAULT_CONTACT_PRESSURE(
      MEMORY, "BrakeDefaults", "MPa", "pressure that just brings the pads to the rotor", 0.06),
  DEFAULT_CALIPER_GIVE(
      MEMORY,
      "BrakeDefaults",
      "mm/MPa",
      "give of pads, rotor and caliper at a piston (firm near 10 mm)",
      0.002),
  DEFAULT_BLADE_FLEX(
      MEMORY,
      "BrakeDefaults",
      "mm/N",
      "flex of lever blade and clamp at the tip (firm near 10 mm)",
      0.006),
  DEFAULT_FIXED_VOLUME(
      MEMORY, "BrakeDefaults", "mL", "fluid in lever and caliper passages under pressure", 1.5),
  DEFAULT_RESERVOIR(MEMORY, "Brake", "mL", "fluid in the reservoir", 4),
  DEFAULT_PISTON_DEPTH(
      MEMORY,
      "BrakeDefaults",
      "mm",
      "depth of fluid behind each caliper piston, pads half worn",
      2),
  PLAUSIBLE_LEVER_BORE(MEMORY, "BrakeDefaults", "mm", "lever bore that is believed", 5, 20),
  PLAUSIBLE_LEVER_RATIO(MEMORY, "BrakeDefaults", "1", "lever ratio that is believed", 2, 12),
  PLAUSIBLE_CALIPER_BORE(MEMORY, "BrakeDefaults", "mm", "caliper bore that is believed", 8, 40),
  PLAUSIBLE_HOSE_LENGTH(MEMORY, "BrakeDefaults", "mm", "hose length that is believed", 200, 4000),
  PLAUSIBLE_HOSE_BORE(MEMORY, "BrakeDefaults", "mm", "hose bore that is believed", 1, 5),
  SPREAD_OF_DEFAULTS(
      MEMORY,
      "BrakeDefaults",
      "1",
      "spread (of the logarithm): lever bore, ratio, caliper area, stiffness",
      0.06,
      0.15,
      0.20,
      0.35),
  SPREAD_OF_KNOWN(
      MEMORY,
      "BrakeDefaults",
      "1",
      "spread left on a lever on record: the ratio changes along the stroke",
      0.05),
  SPREAD_OF_START(
      MEMORY,
      "ThrowDraws",
      "1; mm",
      "spread of contact pressure (of its logarithm) and dead travel",
      0.5,
      0.8),
  SPREAD_OF_CLEARANCE(
      MEMORY,
      "SoundThrow",
      "1",
      "spread of a sound brake's gap (of its logarithm): 0.05 to 0.16 mm in 95 of 100",
      0.30),
  PUMPING(
      MEMORY,
      "Pumping",
      "1",
      "shares that five strokes take up: of excess gap, of gas; low and high",
      0.2,
      1.0,
      0.0,
      0.8),
  ROTOR_SIDE_STIFFNESS(
      MEMORY, "LeverCurve", "N/mm", "sideways stiffness of a rotor at the pads", 150),

  // Readings and limits
  RULER_ERROR(PRACTICE, "Readings", "mm", "error of a ruler at the lever tip, either way", 1),
  SCALE_ERROR(PRACTICE, "Readings", "1", "error of a spring scale, either way, as a share", 0.10),
  FIRM_PULL(PRACTICE, "Readings", "N", "force of a firm pull when no scale was used", 100),
  UNWEIGHED_ERROR(MEMORY, "Readings", "1", "error of a pull by feel, either way, as a share", 0.4),
  HARDEST_STOP(
      BICYCLE_STOPPING, "ThrowEstimate", "N", "highest lever force of the stopping test", 178),
  STRONGEST_PULL(BICYCLE_LEVER_STRENGTH, "Readings", "N", "force of the lever strength test", 445),
  CREEP_LIMIT(PRACTICE, "FeelLimits", "mm", "longest creep over a 60 s hold", 2),
  PUMP_LIMIT(PRACTICE, "FeelLimits", "mm", "shortening of the throw that counts as pumping up", 3),
  SOFT_LIMIT(
      MEMORY, "FeelLimits", "mm", "travel from gas or added give that a hand calls spongy", 4),
  MOST_GAS(
      MEMORY, "ThrowDraws", "mL", "spread of trapped gas before any reading (half-normal)", 0.4),
  MOST_CLEARANCE(
      MEMORY, "ThrowDraws", "mm", "middle and spread of the gap before any reading", 0.15, 0.20),
  MOST_GIVE(
      MEMORY, "ThrowDraws", "1", "spread of added give before any reading, per own give", 1.0),

  // Exchange of fluid
  PASS_DRAWN(PRACTICE, "FluidExchange", "mL", "fluid drawn in one pass of a syringe", 10),

  // Heat
  GRAVITY(NIST, "DescentHeat", "m/s²", "standard acceleration of fall", 9.80665),
  BRAKING_SHARE(
      PRACTICE, "DescentHeat", "1", "part of the braking one brake takes where both are used", 0.6),
  ROTOR_HEAT(
      STEEL_TABLE,
      "DescentHeat",
      "J/(kg·K)",
      "specific heat of a stainless rotor: low and high",
      468,
      504),
  FILM(
      FILM_NOTES,
      "DescentHeat",
      "W/(m²·K)",
      "film coefficient of forced gas: low and high",
      25,
      250),
  FLUID_SHARE(
      MEMORY,
      "DescentHeat",
      "1",
      "part of the rotor's rise that reaches the fluid: low and high",
      0.10,
      0.50),
  ROTOR_FILLED(MEMORY, "Rotor", "1", "part of a rotor's full disc that is metal", 0.5),
  ROTOR_MASS(MEMORY, "Rotor", "kg", "mass of a 160 mm rotor; others by diameter squared", 0.11),
  RIDING_DRAG(
      MEMORY,
      "DescentHeat",
      "kg/m",
      "air drag per speed squared: least, usual, most",
      0.15,
      0.25,
      0.40),

  // Units
  PSI(NIST, "Units", "Pa", "one pound-force per square inch", 6894.757293168),
  MMHG(NIST, "Units", "Pa", "one conventional millimetre of mercury", 133.322387415);

  private final Source source;

  /** Name of the class that reckons with it: as text, so that this list leans on none of them. */
  private final String usedIn;

  private final String unit;
  private final String what;
  private final double[] values;

  Figures(Source source, String usedIn, String unit, String what, double... values) {
    this.source = source;
    this.usedIn = usedIn;
    this.unit = unit;
    this.what = what;
    this.values = values;
  }

  /** The value, or the first of several. */
  double value() {
    return values[0];
  }

  /** The value at a place, from 0. */
  double at(int place) {
    return values[place];
  }

  /** The printable figure. */
  Figure figure() {
    String text = Arrays.stream(values).mapToObj(Figures::plain).collect(Collectors.joining("; "));
    String id = name().toLowerCase(Locale.ROOT).replace('_', '-');
    return new Figure(id, what, text, unit, source.text(), source.standing(), usedIn);
  }

  /** All figures in use, in the order of this file. */
  public static List<Figure> all() {
    return Arrays.stream(values()).map(Figures::figure).toList();
  }

  private static String plain(double value) {
    String text = Double.toString(value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
