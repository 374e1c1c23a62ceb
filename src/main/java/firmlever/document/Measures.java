package firmlever.document;

import static java.util.Objects.requireNonNull;
import static javax.measure.MetricPrefix.CENTI;
import static javax.measure.MetricPrefix.KILO;
import static javax.measure.MetricPrefix.MEGA;
import static javax.measure.MetricPrefix.MILLI;
import static tech.units.indriya.unit.Units.CELSIUS;
import static tech.units.indriya.unit.Units.GRAM;
import static tech.units.indriya.unit.Units.KELVIN;
import static tech.units.indriya.unit.Units.KILOGRAM;
import static tech.units.indriya.unit.Units.LITRE;
import static tech.units.indriya.unit.Units.METRE;
import static tech.units.indriya.unit.Units.NEWTON;
import static tech.units.indriya.unit.Units.PASCAL;
import static tech.units.indriya.unit.Units.PERCENT;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.measure.IncommensurableException;
import javax.measure.Unit;

/**
 * Reads quantities written as a number and a unit, such as {@code "19 mm"}, through JSR 385 units.
 *
 * <p>Inch, pound and pound-force are defined exactly: 25.4 mm, 0.453 592 37 kg, 4.448 221 615 260 5
 * N; NIST SP 811, appendix B.8.
 */
public final class Measures {
  private Measures() {}

  private static final Unit<?> INCH = METRE.multiply(0.0254);
  private static final Unit<?> POUND = KILOGRAM.multiply(0.45359237);
  private static final Unit<?> POUND_FORCE = NEWTON.multiply(4.4482216152605);

  /** A kind of quantity, the unit our numbers of it are in, and the units it may be written in. */
  public enum Kind {
    LENGTH(
        "a length",
        "mm",
        units("mm", MILLI(METRE), "cm", CENTI(METRE), "m", METRE, "in", INCH, "km", KILO(METRE))),
    FORCE("a force", "N", units("N", NEWTON, "kN", KILO(NEWTON), "lbf", POUND_FORCE)),
    TORQUE(
        "a torque",
        "N·m",
        units(
            "N·m", NEWTON.multiply(METRE),
            "Nm", NEWTON.multiply(METRE),
            "N m", NEWTON.multiply(METRE),
            "in·lb", INCH.multiply(POUND_FORCE),
            "in-lb", INCH.multiply(POUND_FORCE),
            "lbf·in", INCH.multiply(POUND_FORCE),
            "ft·lb", INCH.multiply(POUND_FORCE).multiply(12),
            "lbf·ft", INCH.multiply(POUND_FORCE).multiply(12))),
    TEMPERATURE(
        "a temperature",
        "°C",
        units(
            "°C", CELSIUS,
            "C", CELSIUS,
            "K", KELVIN,
            "°F", KELVIN.multiply(5).divide(9).shift(459.67),
            "F", KELVIN.multiply(5).divide(9).shift(459.67))),
    MASS("a mass", "kg", units("kg", KILOGRAM, "g", GRAM, "lb", POUND)),
    VOLUME("a volume", "mL", units("mL", MILLI(LITRE), "ml", MILLI(LITRE), "L", LITRE, "l", LITRE)),
    PRESSURE(
        "a pressure",
        "MPa",
        units(
            "MPa", MEGA(PASCAL),
            "kPa", KILO(PASCAL),
            "bar", PASCAL.multiply(100000),
            "psi", PASCAL.multiply(6894.757293168))),
    SHARE("a share", "%", units("%", PERCENT));

    private final String spoken;
    private final String base;
    private final Map<String, Unit<?>> units;

    Kind(String spoken, String base, Map<String, Unit<?>> units) {
      this.spoken = spoken;
      this.base = base;
      this.units = units;
    }

    /** The unit in which {@link #read} answers. */
    public String base() {
      return base;
    }

    String spoken() {
      return spoken;
    }

    /** The unit symbols that may be written. */
    Collection<String> symbols() {
      return units.keySet();
    }
  }

  private static Map<String, Unit<?>> units(Object... symbolsAndUnits) {
    Map<String, Unit<?>> map = new LinkedHashMap<>();
    for (int i = 0; i < symbolsAndUnits.length; i += 2) {
      map.put((String) symbolsAndUnits[i], (Unit<?>) symbolsAndUnits[i + 1]);
    }
    return map;
  }

  /** A number; after it come optional blanks and the unit, which begins with none of its signs. */
  static final String NUMBER = "[+-]?[0-9]{1,15}(?:\\.[0-9]{1,15})?";

  private static final Pattern FORM = Pattern.compile("(" + NUMBER + ")\\s*([^\\s0-9.,].*)");

  /**
   * Thrown where a text is not a quantity of the kind asked for; the message says what must hold.
   */
  public static final class NotAMeasure extends Exception {
    private static final long serialVersionUID = 1L;
    private final String maybe;

    NotAMeasure(String message, String maybe) {
      super(message);
      this.maybe = maybe;
    }

    public String maybe() {
      return maybe;
    }
  }

  /** As printed on sheets, with the same quantity in another unit in brackets behind it. */
  private static final Pattern PAIR = Pattern.compile("([^()]+)\\(([^()]+)\\)");

  /** Two units of one quantity may differ by this share; more is no rounding. Common practice. */
  private static final double ROUNDING = 0.05;

  /**
   * The value of {@code text} in the kind's base unit. In brackets the same may stand in another
   * unit, as in {@code "35 in·lb (4 N·m)"}; the first counts, if both agree.
   */
  public static double read(String text, Kind kind) throws NotAMeasure {
    Matcher pair = PAIR.matcher(text.strip());
    if (!pair.matches()) {
      return single(text, kind);
    }
    double first = single(pair.group(1), kind);
    double second = single(pair.group(2), kind);
    if (Math.abs(second - first) > ROUNDING * Math.abs(first)) {
      throw new NotAMeasure(
          String.format(
              Locale.ROOT,
              "says two different things: %s is %.3g %s, and %s is %.3g %s",
              pair.group(1).strip(),
              first,
              kind.base,
              pair.group(2).strip(),
              second,
              kind.base),
          "Ask the maker which one holds, and write that one.");
    }
    return first;
  }

  private static double single(String text, Kind kind) throws NotAMeasure {
    Matcher form = FORM.matcher(text.strip());
    if (!form.matches()) {
      String repaired = text.strip().replaceFirst("^([+-]?[0-9]+),([0-9]+)", "$1.$2");
      boolean comma = !repaired.equals(text.strip());
      boolean bare = text.strip().matches(NUMBER);
      throw new NotAMeasure(
          "must be " + kind.spoken + ": a number and a unit, such as \"12 " + kind.base + "\"",
          comma
              ? "Maybe \"" + repaired + "\" was meant: decimals take a point."
              : bare ? "Maybe \"" + text.strip() + " " + kind.base + "\" was meant." : "");
    }
    String symbol = form.group(2).strip();
    Unit<?> unit = kind.units.get(symbol);
    if (unit == null) {
      Optional<String> other = otherKind(symbol);
      throw new NotAMeasure(
          "must be "
              + kind.spoken
              + " in "
              + String.join(", ", kind.units.keySet())
              + "; \""
              + symbol
              + "\" is "
              + other.orElse("no unit known here"),
          Optional.of(symbol)
              .filter(misspelt -> other.isEmpty())
              .flatMap(misspelt -> Nearest.to(misspelt, kind.units.keySet()))
              .map(near -> "Maybe \"" + form.group(1) + " " + near + "\" was meant.")
              .orElse(""));
    }
    return converted(
        new BigDecimal(form.group(1)), unit, requireNonNull(kind.units.get(kind.base)));
  }

  private static double converted(BigDecimal number, Unit<?> unit, Unit<?> base) {
    if (unit == base) {
      return number.doubleValue();
    }
    try {
      double value = unit.getConverterToAny(base).convert(number).doubleValue();
      // Twelve digits are more than any workshop measures, and drop the last bits of conversion.
      return new BigDecimal(value).round(new MathContext(12)).doubleValue();
    } catch (IncommensurableException e) {
      throw new IllegalStateException("units of one kind must convert into each other", e);
    }
  }

  /** The kind a unit belongs to, in words. */
  private static Optional<String> otherKind(String symbol) {
    for (Kind kind : Kind.values()) {
      if (kind.units.containsKey(symbol)) {
        return Optional.of(kind.spoken.replaceFirst("^an? ", "a unit of "));
      }
    }
    return Optional.empty();
  }
}
