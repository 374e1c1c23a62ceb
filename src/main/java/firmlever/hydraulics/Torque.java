package firmlever.hydraulics;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A torque as it stands on a sheet.
 *
 * @param newtonMetres value, or middle of a range, N·m
 * @param toleranceNm either way, N·m; 0 when none is given
 * @param text as printed
 */
public record Torque(double newtonMetres, double toleranceNm, String text) {
  private static final String NUMBER = "(\\d+(?:\\.\\d+)?)";
  private static final String JOIN = "[\\s·.\\-]*";
  private static final Pattern PRINTED =
      Pattern.compile(
          "(?<![\\w.])"
              + NUMBER
              + "(?:\\s*(±|\\+/?-|to|-|–)\\s*"
              + NUMBER
              + ")?[\\s\\-]*("
              + ("n" + JOIN + "m|lbf?" + JOIN + "in|lbf?" + JOIN + "ft|in" + JOIN + "lbf?s?")
              + ("|ft" + JOIN + "lbf?s?|kgf?" + JOIN + "cm")
              + ")(?!\\w)",
          Pattern.CASE_INSENSITIVE);

  /**
   * All torques in a text, such as {@code "12 in·lb (1.5 N·m)"} or {@code "70 ± 5 lbf in"}, in
   * order.
   *
   * @return empty where no number with a torque unit stands
   */
  public static List<Torque> parse(String text) {
    List<Torque> found = new ArrayList<>();
    Matcher printed = PRINTED.matcher(text);
    while (printed.find()) {
      double unitNm = unitNm(printed.group(4).toLowerCase(Locale.ROOT));
      double first = Double.parseDouble(printed.group(1));
      double middle = first;
      double tolerance = 0;
      if (printed.group(3) != null) {
        double second = Double.parseDouble(printed.group(3));
        boolean eitherWay = printed.group(2).startsWith("±") || printed.group(2).startsWith("+");
        middle = eitherWay ? first : (first + second) / 2;
        tolerance = eitherWay ? second : Math.abs(second - first) / 2;
      }
      found.add(new Torque(middle * unitNm, tolerance * unitNm, printed.group()));
    }
    return found;
  }

  private static double unitNm(String unit) {
    if (unit.startsWith("n")) {
      return 1;
    }
    if (unit.startsWith("kg")) {
      return Figures.KILOGRAM_FORCE_CENTIMETRE.value();
    }
    boolean inch = unit.contains("in");
    return inch ? Figures.POUND_FORCE_INCH.value() : Figures.POUND_FORCE_FOOT.value();
  }

  /**
   * How far another torque lies from this one, as a share of this one; 0.106 for 1.5 against 1.356.
   */
  public double awayFrom(Torque other) {
    return Math.abs(other.newtonMetres - newtonMetres) / newtonMetres;
  }

  /**
   * Whether the units given for one torque contradict each other by more than rounding.
   *
   * @param given all that a sheet prints for one joint, the leading unit first
   */
  public static boolean disagree(List<Torque> given) {
    return given.stream()
        .anyMatch(other -> given.get(0).awayFrom(other) > Figures.TORQUE_DISAGREEMENT.value());
  }
}
