package firmlever.comeback.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.comeback.Groups.Comparison;
import firmlever.comeback.Groups.Standing;
import firmlever.comeback.Shelf.Cases;
import firmlever.comeback.report.ReviewAnswers;
import firmlever.comeback.statistics.FairComparison.Result;
import firmlever.comeback.statistics.FairComparison.Verdict;
import firmlever.comeback.statistics.Interval;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.statistics.RatePrior;
import firmlever.comeback.statistics.StratifiedTable;
import firmlever.comeback.visits.Trait;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.knowm.xchart.CategoryChart;
import org.knowm.xchart.CategorySeries;
import org.knowm.xchart.style.markers.SeriesMarkers;

@DisplayName("A picture of groups")
class ReviewChartsTest {
  private static Standing standing(String name, RatePrior rate) {
    var nobody = new StratifiedTable<String>(new TreeMap<>()).contrast(name, s -> true, s -> true);
    return new Standing(
        name,
        Proportion.NONE,
        Proportion.NONE,
        1,
        new Result(nobody, 1, Verdict.NOT_SHOWN),
        rate,
        Cases.NONE);
  }

  @Test
  @DisplayName("marks the rate of the table, and its bar reaches from limit to limit")
  void marksTheRate() {
    // Few events: the limits lie far from even about the rate, which is 0.5 of 6.
    RatePrior skewed = new RatePrior(0.5, 5.5);
    Comparison comparison =
        new Comparison(
            Trait.LOT,
            List.of(standing("H1", skewed), standing("H2", new RatePrior(3, 9))),
            Optional.empty());
    CategoryChart chart =
        ReviewCharts.groupChart(
            comparison, List.of(0, 1), new ReviewAnswers(null, VocabularyReader.builtIn()));
    CategorySeries mark = chart.getSeriesMap().get("likely rate");
    CategorySeries bar = chart.getSeriesMap().get("95 % interval");
    assertThat(mark.getMarker()).isEqualTo(SeriesMarkers.DIAMOND);
    assertThat(bar.getMarker()).isEqualTo(SeriesMarkers.NONE);
    assertThat(values(mark).get(0)).isEqualTo(100 * 0.5 / 6, Offset.offset(1e-9));
    assertThat(values(mark).get(1)).isEqualTo(25, Offset.offset(1e-9));
    Interval limits = skewed.interval(0.95);
    double middle = values(bar).get(0);
    double reach = bar.getExtraValues().iterator().next().doubleValue();
    assertThat(middle - reach).isEqualTo(100 * limits.low(), Offset.offset(1e-9));
    assertThat(middle + reach).isEqualTo(100 * limits.high(), Offset.offset(1e-9));
    assertThat(middle).isGreaterThan(values(mark).get(0) + 3);
  }

  private static List<Double> values(CategorySeries series) {
    return series.getYData().stream().map(Number::doubleValue).toList();
  }
}
