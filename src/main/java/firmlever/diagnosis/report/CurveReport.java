package firmlever.diagnosis.report;

import firmlever.diagnosis.ThrowCurve;
import firmlever.diagnosis.ThrowCurve.If;
import firmlever.diagnosis.ThrowCurve.Line;
import firmlever.diagnosis.ThrowCurve.Measured;
import firmlever.diagnosis.ThrowCurve.What;
import firmlever.document.JsonText;
import firmlever.hydraulics.ThrowEstimate;
import firmlever.sheet.JsonForm;
import firmlever.sheet.Page;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;

/** A throw curve as a table for people, and for programs. */
public final class CurveReport {
  private CurveReport() {}

  public static final String FORMAT = "firmlever-curve/2";

  /** No lever tip has more way than this to the bar, mm (from memory). */
  static final double BAR_MM = 50;

  private static final int COLUMN = 10;
  private static final double[] USUAL_FORCES_N = {10, 25, 50, 75, 100, 150};

  /** The curve as a table with what it says. */
  public static String text(ThrowCurve curve, int width, boolean bold) {
    Page page = new Page(width, bold);
    page.heading(curve.caseId() + ": lever throw of " + curve.brakeId());
    page.heading("Throw at the lever tip, in mm");
    int column = Math.min(COLUMN, (page.width() - 2) / (curve.lines().size() + 2));
    page.row("  " + cells(column, "force", "measured", "model", "air", "pads", "hose"));
    TreeSet<Double> forces = new TreeSet<>();
    DoubleStream.of(USUAL_FORCES_N).forEach(forces::add);
    curve.measured().forEach(m -> forces.add(m.forceN()));
    for (double forceN : forces) {
      page.row("  " + cells(column, row(curve, forceN)));
    }
    page.heading("What the columns are");
    for (Measured m : curve.measured()) {
      page.hanging(
          "  ",
          "measured "
              + number(m.throwMm())
              + " mm: "
              + named(m.what())
              + (m.what() == What.LIGHT_CONTACT ? ", which the model puts at " : ", ")
              + force(m.forceN())
              + ".");
    }
    curve.lines().forEach(line -> page.hanging("  ", meaning(curve, line.of()) + "."));
    curve
        .estimate()
        .ifPresent(
            estimate -> {
              page.heading("What the lever throw says");
              ThrowWords.sentences(estimate).forEach(sentence -> page.hanging("  ", sentence));
            });
    page.heading("Mind");
    page.hanging(
        "  ",
        "A model, not a measurement: friction, return spring and the lag of the hose are left out."
            + " The maker's instructions come first.");
    return page.toString();
  }

  private static String[] row(ThrowCurve curve, double forceN) {
    String measured =
        curve.measured().stream()
            .filter(m -> m.forceN() == forceN)
            .map(m -> number(m.throwMm()) + (m.what() == What.AFTER_FIVE_STROKES ? "*" : ""))
            .collect(Collectors.joining(" "));
    List<String> cells = new ArrayList<>(List.of(force(forceN), measured));
    curve.lines().forEach(line -> cells.add(throwMm(line.throwMm(forceN))));
    return cells.toArray(String[]::new);
  }

  private static String cells(int column, String... texts) {
    StringBuilder line = new StringBuilder();
    for (String text : texts) {
      String cut = text.length() < column ? text : text.substring(0, column - 1);
      line.append(" ".repeat(column - cut.length())).append(cut);
    }
    return line.toString();
  }

  private static String throwMm(double mm) {
    return mm > BAR_MM ? "bar" : number(mm);
  }

  private static String number(double mm) {
    return String.format(Locale.ROOT, "%.1f", mm);
  }

  private static String force(double forceN) {
    return String.format(Locale.ROOT, forceN < 9.95 ? "%.1f N" : "%.0f N", forceN);
  }

  /** A kind of reading, spoken. */
  static String named(What what) {
    return switch (what) {
      case LIGHT_CONTACT -> "light contact";
      case FIRM_PULL -> "a slow pull";
      case AFTER_FIVE_STROKES -> "a pull after five quick strokes";
    };
  }

  /** Short name of a line, for the legend of a drawing. */
  static String name(ThrowCurve curve, If of) {
    return switch (of) {
      case MODELLED -> fitted(curve) ? "modelled from the readings" : "modelled, a sound brake";
      case SOME_AIR -> "with 0.2 mL more air in it";
      case NEW_PADS -> "if the pads were new";
      case SOFT_HOSE -> "if the hose were soft";
    };
  }

  private static String meaning(ThrowCurve curve, If of) {
    return switch (of) {
      case MODELLED ->
          fitted(curve)
              ? "model: a brake in the middle of all that fit the readings"
              : "model: a sound brake of this kind, since no reading of throw is fit for more";
      case SOME_AIR ->
          String.format(
              Locale.ROOT,
              "air: the same brake with 0.2 mL more air in it at rest; \"bar\" is more than %.0f"
                  + " mm, where any lever meets the bar",
              BAR_MM);
      case NEW_PADS -> "pads: the same brake with the gap of new pads at each piston";
      case SOFT_HOSE -> "hose: the same brake with a hose so soft that all flex is doubled";
    };
  }

  private static boolean fitted(ThrowCurve curve) {
    return curve.estimate().filter(ThrowEstimate::fits).isPresent();
  }

  /** The curve for programs, format {@value #FORMAT}: forces in N, throws in mm. */
  public static String json(ThrowCurve curve) {
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("case", curve.caseId());
    json.put("format", FORMAT);
    json.put("brake", curve.brakeId());
    json.put("units", JsonForm.map("force", "N", "throw", "mm"));
    json.put(
        "measured",
        JsonForm.each(
            curve.measured(),
            m ->
                JsonForm.map(
                    "what", JsonForm.id(m.what()),
                    "force", JsonForm.rounded(m.forceN()),
                    "throw", JsonForm.rounded(m.throwMm()))));
    json.put("lines", JsonForm.each(curve.lines(), line -> line(curve, line)));
    curve
        .estimate()
        .ifPresent(
            estimate -> {
              json.put("throw", JsonReport.lengthOfThrow(estimate));
              json.put("gas", JsonReport.gas(estimate));
            });
    return JsonText.of(json);
  }

  private static Map<String, Object> line(ThrowCurve curve, Line line) {
    List<Double> forces = curve.forcesN();
    return JsonForm.map(
        "id",
        JsonForm.id(line.of()),
        "name",
        name(curve, line.of()),
        "force",
        forces.stream().map(JsonForm::rounded).toList(),
        "throw",
        forces.stream().map(line::throwMm).map(JsonForm::rounded).toList());
  }
}
