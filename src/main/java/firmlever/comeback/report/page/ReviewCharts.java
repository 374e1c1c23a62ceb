package firmlever.comeback.report.page;

import firmlever.comeback.Findings;
import firmlever.comeback.Findings.MatrixCell;
import firmlever.comeback.Findings.Named;
import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.MeanCumulativeFunction.Step;
import firmlever.comeback.statistics.ProportionChart.Point;
import firmlever.comeback.statistics.SurvivalCurve.Scale;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Font;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGIDGenerator;
import org.knowm.xchart.CategoryChart;
import org.knowm.xchart.CategoryChartBuilder;
import org.knowm.xchart.CategorySeries.CategorySeriesRenderStyle;
import org.knowm.xchart.HeatMapChart;
import org.knowm.xchart.HeatMapChartBuilder;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.internal.chartpart.Chart;
import org.knowm.xchart.style.AxesChartStyler;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.markers.SeriesMarkers;
import org.w3c.dom.Document;

/** Charts of the review as SVG text: the same findings give the same text. */
final class ReviewCharts {
  private ReviewCharts() {}

  private static final int PARETO = 12;
  private static final int WIDTH = 760;
  private static final int HEIGHT = 360;

  /** So many names stand side by side; more are slanted. */
  private static final int UPRIGHT = 4;

  /** Room is left for the name of most letters; one of fewer may be wider by this, px. */
  private static final int WIDER = 26;

  private static final Color INK = new Color(0x1c2b33);
  private static final Color LINE = new Color(0x0b5563);
  private static final Color LIMIT = new Color(0x8a5a00);
  private static final Color FAINT = new Color(0xd9dedf);
  private static final float[] DASHES = {6, 4};

  /** Share of brakes that are back, with limits, over days. */
  static String timeToComeback(Findings found) {
    XYChart chart = xy("days since it went back", "back, of 100");
    List<Double> days = new ArrayList<>();
    List<Double> back = new ArrayList<>();
    List<Double> low = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    for (int day = 0; day <= ReviewAnswers.CURVE_DAYS; day++) {
      Interval limits = found.curve().interval(day, ReviewAnswers.LEVEL, Scale.LOG_LOG);
      days.add((double) day);
      back.add(100 * (1 - found.curve().survival(day)));
      low.add(100 * (1 - limits.high()));
      high.add(100 * (1 - limits.low()));
    }
    chart.getStyler().setXAxisMaxLabelCount(13);
    line(chart.addSeries("back again", days, back), LINE, false);
    line(chart.addSeries("95 % upper limit", days, high), LIMIT, true);
    line(chart.addSeries("95 % lower limit", days, low), LIMIT, true);
    return svg(chart, "time", WIDTH, HEIGHT);
  }

  /** Comebacks of each month with the limits of chance. */
  static String control(Findings found) {
    XYChart chart = xy("month of going back", "back within the short window, of 100");
    List<Double> at = new ArrayList<>();
    List<Double> rate = new ArrayList<>();
    List<Double> low = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    List<Double> centre = new ArrayList<>();
    var control = found.chart().orElseThrow();
    for (int i = 0; i < control.points().size(); i++) {
      Point point = control.points().get(i);
      at.add((double) i);
      rate.add(100 * point.sample().rate().orElse(0));
      low.add(100 * point.limits().low());
      high.add(100 * point.limits().high());
      centre.add(100 * control.centre());
    }
    // The wide limits of a month with few jobs must not flatten all the others.
    double top = 1;
    for (int i = 0; i < rate.size(); i++) {
      top = Math.max(top, rate.get(i));
      top = found.months().get(i).whole() ? Math.max(top, high.get(i)) : top;
    }
    chart.getStyler().setYAxisMax(1.15 * top);
    XYSeries rates = chart.addSeries("this month", at, rate);
    line(rates, LINE, false);
    rates.setMarker(SeriesMarkers.CIRCLE).setMarkerColor(LINE);
    line(chart.addSeries("all months", at, centre), INK, false);
    line(chart.addSeries("upper limit of chance", at, high), LIMIT, true);
    line(chart.addSeries("lower limit of chance", at, low), LIMIT, true);
    int every = Math.max(1, (found.months().size() + 11) / 12);
    chart
        .getStyler()
        .setXAxisTickMarkSpacingHint(WIDTH / 14)
        .setxAxisTickLabelsFormattingFunction(
            x -> {
              int i = (int) Math.round(x);
              return i >= 0 && i < found.months().size() && Math.abs(x - i) < 0.01
                  ? found.months().get(i).month() + (found.months().get(i).whole() ? "" : "*")
                  : "";
            });
    chart.getStyler().setXAxisMaxLabelCount(Math.max(2, found.months().size() / every));
    return svg(chart, "control", WIDTH, HEIGHT);
  }

  /** Mean returns of one brake over weeks. */
  static String meanReturns(Findings found) {
    XYChart chart = xy("weeks since the first visit", "returns of one brake");
    List<Double> weeks = new ArrayList<>();
    List<Double> mean = new ArrayList<>();
    List<Double> low = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    for (Step step : found.meanReturns().steps()) {
      Interval limits = step.interval(ReviewAnswers.LEVEL);
      weeks.add(step.time());
      mean.add(step.mean());
      low.add(limits.low());
      high.add(limits.high());
    }
    line(chart.addSeries("mean", weeks, mean), LINE, false);
    line(chart.addSeries("95 % upper limit", weeks, high), LIMIT, true);
    line(chart.addSeries("95 % lower limit", weeks, low), LIMIT, true);
    return svg(chart, "mean", WIDTH, HEIGHT);
  }

  /** True causes, commonest first, with their running share. */
  static String pareto(Findings found, ReviewAnswers words) {
    List<Named> causes = found.causes().stream().limit(PARETO).toList();
    CategoryChart chart =
        new CategoryChartBuilder().width(WIDTH).height(HEIGHT + 90).yAxisTitle("comebacks").build();
    style(chart.getStyler());
    chart.getStyler().setLegendVisible(false);
    chart.getStyler().setAvailableSpaceFill(0.7);
    chart.getStyler().setXAxisLabelRotation(60);
    chart.getStyler().setAxisTickPadding(WIDER);
    chart
        .addSeries(
            "comebacks",
            causes.stream().map(c -> words.cause(c.id())).toList(),
            causes.stream().map(c -> c.cases().count()).toList())
        .setFillColor(LINE);
    return svg(chart, "pareto", WIDTH, HEIGHT + 90);
  }

  /** Treated against true causes: the darker, the more. */
  static String matrix(
      List<String> treated, List<String> truth, List<MatrixCell> cells, ReviewAnswers words) {
    HeatMapChart chart =
        new HeatMapChartBuilder()
            .width(WIDTH)
            .height(HEIGHT + 140)
            .xAxisTitle("found at the second visit")
            .yAxisTitle("treated at the first")
            .build();
    style(chart.getStyler());
    chart.getStyler().setXAxisLabelRotation(60);
    chart.getStyler().setRangeColors(new Color[] {Color.WHITE, LINE});
    chart.getStyler().setLegendVisible(false);
    chart.getStyler().setPlotContentSize(1);
    List<Number[]> data = new ArrayList<>();
    for (int x = 0; x < truth.size(); x++) {
      for (int y = 0; y < treated.size(); y++) {
        String t = treated.get(treated.size() - 1 - y);
        String f = truth.get(x);
        long count =
            cells.stream()
                .filter(c -> c.treated().equals(t) && c.found().equals(f))
                .mapToLong(c -> c.cases().count())
                .sum();
        data.add(new Number[] {x, y, count});
      }
    }
    List<String> rows = new ArrayList<>(treated.stream().map(words::cause).toList());
    java.util.Collections.reverse(rows);
    chart.addSeries("comebacks", truth.stream().map(words::cause).toList(), rows, data);
    return svg(chart, "matrix", WIDTH, HEIGHT + 140);
  }

  /** The likely rate of each group with its interval. */
  static String groups(Comparison comparison, List<Integer> shown, ReviewAnswers words, int at) {
    // Slanted names take room from below.
    int height = shown.size() > UPRIGHT ? HEIGHT + 90 : HEIGHT;
    return svg(groupChart(comparison, shown, words), "groups" + at, WIDTH, height);
  }

  static CategoryChart groupChart(Comparison comparison, List<Integer> shown, ReviewAnswers words) {
    CategoryChart chart =
        new CategoryChartBuilder()
            .width(WIDTH)
            .height(HEIGHT)
            .yAxisTitle("back within the short window, of 100")
            .build();
    style(chart.getStyler());
    chart.getStyler().setDefaultSeriesRenderStyle(CategorySeriesRenderStyle.Scatter);
    // The mark stands on its interval, not beside it.
    chart.getStyler().setOverlapped(true);
    chart.getStyler().setYAxisMin(0.0);
    chart.getStyler().setErrorBarsColor(INK);
    chart.getStyler().setLegendVisible(false);
    if (shown.size() > UPRIGHT) {
      chart.getStyler().setXAxisLabelRotation(60);
    }
    List<String> names = new ArrayList<>();
    List<Double> rates = new ArrayList<>();
    List<Double> middles = new ArrayList<>();
    List<Double> reaches = new ArrayList<>();
    for (int i : shown) {
      Standing standing = comparison.standings().get(i);
      Interval limits = standing.shrunk().interval(ReviewAnswers.LEVEL);
      names.add(words.group(comparison.trait(), standing.name()));
      rates.add(100 * standing.shrunk().mean());
      middles.add(50 * (limits.low() + limits.high()));
      reaches.add(50 * (limits.high() - limits.low()));
    }
    // A bar reaches as far up as down; the likely rate need not stand in its middle.
    chart.addSeries("95 % interval", names, middles, reaches).setMarker(SeriesMarkers.NONE);
    chart
        .addSeries("likely rate", names, rates)
        .setMarker(SeriesMarkers.DIAMOND)
        .setMarkerColor(LINE);
    return chart;
  }

  private static XYChart xy(String across, String up) {
    XYChart chart =
        new XYChartBuilder().width(WIDTH).height(HEIGHT).xAxisTitle(across).yAxisTitle(up).build();
    style(chart.getStyler());
    chart.getStyler().setLegendPosition(Styler.LegendPosition.OutsideS);
    chart.getStyler().setLegendLayout(Styler.LegendLayout.Horizontal);
    chart.getStyler().setYAxisMin(0.0);
    return chart;
  }

  private static void style(AxesChartStyler styler) {
    Font plain = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
    styler.setLocale(java.util.Locale.ROOT);
    styler.setBaseFont(plain);
    styler.setAxisTickLabelsFont(plain);
    styler.setAxisTitleFont(plain);
    styler.setLegendFont(plain);
    styler.setChartTitleVisible(false);
    styler.setChartBackgroundColor(Color.WHITE);
    styler.setPlotBackgroundColor(Color.WHITE);
    styler.setPlotBorderVisible(false);
    styler.setPlotGridLinesColor(FAINT);
    styler.setChartFontColor(INK);
    styler.setAxisTickLabelsColor(INK);
    styler.setLegendBorderColor(Color.WHITE);
    styler.setAntiAlias(true);
  }

  private static void line(XYSeries series, Color color, boolean dashed) {
    series.setMarker(SeriesMarkers.NONE);
    series.setLineColor(color);
    series.setLineStyle(
        dashed
            ? new BasicStroke(1.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, DASHES, 0)
            : new BasicStroke(2.2f));
  }

  private static String svg(Chart<?, ?> chart, String name, int width, int height) {
    Document document = document();
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
    context.setComment(null);
    context.setPrecision(2);
    // Several drawings share one page, so their ids must differ.
    context.setIDGenerator(
        new SVGIDGenerator() {
          @Override
          public String generateID(String prefix) {
            return name + "-" + super.generateID(prefix);
          }
        });
    SVGGraphics2D graphics = new SVGGraphics2D(context, false);
    graphics.setSVGCanvasSize(new Dimension(width, height));
    chart.paint(graphics, width, height);
    StringWriter text = new StringWriter();
    try {
      graphics.stream(text, false);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    String whole = text.toString();
    int at = whole.indexOf("<svg");
    return whole
        .substring(at)
        .replace("id=\"genericDefs\"", "id=\"" + name + "-defs\"")
        .replaceFirst(
            "<svg", "<svg viewBox=\"0 0 " + width + " " + height + "\" role=\"presentation\"");
  }

  private static Document document() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument("http://www.w3.org/2000/svg", "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException(e);
    }
  }
}
