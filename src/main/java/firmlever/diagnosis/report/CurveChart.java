package firmlever.diagnosis.report;

import firmlever.diagnosis.ThrowCurve;
import firmlever.diagnosis.ThrowCurve.If;
import firmlever.diagnosis.ThrowCurve.Line;
import firmlever.diagnosis.ThrowCurve.Measured;
import firmlever.diagnosis.ThrowCurve.What;
import firmlever.sheet.SvgPicture;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.Styler.LegendPosition;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.lines.SeriesLines;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * A throw curve as a drawing: travel to the right, force upwards, as the hand feels it. Lines
 * differ by dash and name; the colours are only a help.
 */
public final class CurveChart {
  private CurveChart() {}

  private static final int WIDTH = 1060;
  private static final int HEIGHT = 620;
  private static final double LEAST_MOST_MM = 30;

  /** The drawing as SVG; the same curve gives the same bytes on one machine. */
  public static String svg(ThrowCurve curve) {
    XYChart chart =
        new XYChartBuilder()
            .width(WIDTH)
            .height(HEIGHT)
            .title("How the lever of " + curve.brakeId() + " takes up force")
            .xAxisTitle("travel at the lever tip, mm")
            .yAxisTitle("force at the lever tip, N")
            .build();
    style(chart.getStyler(), curve);
    for (Line line : curve.lines()) {
      List<Double> throwsMm = new ArrayList<>();
      List<Double> forcesN = new ArrayList<>();
      for (double forceN : curve.forcesN()) {
        double mm = line.throwMm(forceN);
        if (mm <= CurveReport.BAR_MM) {
          throwsMm.add(mm);
          forcesN.add(forceN);
        }
      }
      String where = line.throwMm(curve.mostN()) > CurveReport.BAR_MM ? " (to the bar)" : "";
      String name = CurveReport.name(curve, line.of()) + where;
      XYSeries series = chart.addSeries(name, throwsMm, forcesN);
      series.setMarker(SeriesMarkers.NONE);
      series.setLineColor(color(line.of()));
      series.setLineStyle(stroke(line.of()));
    }
    for (What what : What.values()) {
      List<Measured> read = curve.measured().stream().filter(m -> m.what() == what).toList();
      if (!read.isEmpty()) {
        XYSeries points =
            chart.addSeries(
                "measured: " + CurveReport.named(what),
                read.stream().map(Measured::throwMm).toList(),
                read.stream().map(Measured::forceN).toList());
        points.setLineStyle(SeriesLines.NONE);
        points.setMarker(marker(what));
        points.setMarkerColor(Color.BLACK);
      }
    }
    return SvgPicture.of(
        chart,
        "Lever throw of " + curve.brakeId(),
        "Force against travel at the lever tip, as measured, as modelled, and with 0.2 mL more air, new"
            + " pads or a soft hose.");
  }

  private static void style(XYStyler styler, ThrowCurve curve) {
    Font plain = new Font(Font.SANS_SERIF, Font.PLAIN, 14);
    styler.setChartBackgroundColor(Color.WHITE);
    styler.setPlotBackgroundColor(Color.WHITE);
    styler.setPlotBorderVisible(false);
    styler.setPlotGridLinesColor(new Color(0xDD, 0xDD, 0xDD));
    styler.setChartTitleFont(plain.deriveFont(Font.BOLD, 18f));
    styler.setChartTitleBoxVisible(false);
    styler.setAxisTitleFont(plain);
    styler.setAxisTickLabelsFont(plain);
    styler.setLegendFont(plain);
    styler.setLegendPosition(LegendPosition.OutsideE);
    styler.setLegendBorderColor(Color.WHITE);
    styler.setLegendSeriesLineLength(48);
    styler.setMarkerSize(12);
    styler.setXAxisMin(0.0);
    styler.setXAxisMax(mostMm(curve));
    styler.setYAxisMin(0.0);
    styler.setYAxisMax(curve.mostN());
    styler.setXAxisDecimalPattern("0");
    styler.setYAxisDecimalPattern("0");
    styler.setLocale(Locale.ROOT);
  }

  /** Room for all readings and lines but those that go to the bar. */
  private static double mostMm(ThrowCurve curve) {
    double most = LEAST_MOST_MM;
    for (Measured m : curve.measured()) {
      most = Math.max(most, m.throwMm() + 3);
    }
    for (Line line : curve.lines()) {
      double mm = line.throwMm(curve.mostN());
      most = mm > CurveReport.BAR_MM ? most : Math.max(most, mm + 2);
    }
    return most;
  }

  private static BasicStroke stroke(If of) {
    float[] dash =
        switch (of) {
          case MODELLED -> new float[] {1, 0};
          case SOME_AIR -> new float[] {2, 5};
          case NEW_PADS -> new float[] {12, 6};
          case SOFT_HOSE -> new float[] {12, 5, 2, 5};
        };
    float width = of == If.MODELLED ? 3.5f : 2.5f;
    return of == If.MODELLED
        ? new BasicStroke(width)
        : new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dash, 0);
  }

  private static Color color(If of) {
    return switch (of) {
      case MODELLED -> new Color(0x1F, 0x3A, 0x5F);
      case SOME_AIR -> new Color(0xB0, 0x3A, 0x2E);
      case NEW_PADS -> new Color(0x2E, 0x7D, 0x4F);
      case SOFT_HOSE -> new Color(0x8A, 0x5A, 0x00);
    };
  }

  private static Marker marker(What what) {
    return switch (what) {
      case LIGHT_CONTACT -> SeriesMarkers.TRIANGLE_UP;
      case FIRM_PULL -> SeriesMarkers.CIRCLE;
      case AFTER_FIVE_STROKES -> SeriesMarkers.DIAMOND;
    };
  }
}
