package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import firmlever.comeback.statistics.GroupComparison.Group;
import firmlever.comeback.statistics.GroupComparison.Verdict;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.univariate.BrentOptimizer;
import org.hipparchus.optim.univariate.SearchInterval;
import org.hipparchus.optim.univariate.UnivariateObjectiveFunction;
import org.hipparchus.special.Beta;
import org.junit.jupiter.api.Test;

class GroupComparisonTest {
  private static final int[] SIZES = {2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 377};

  /** An invented shop: groups of very different size, each with its own true rate. */
  private static List<Proportion> shop(Random random, double[] rates) {
    var counts = new ArrayList<Proportion>();
    for (int g = 0; g < SIZES.length; g++) {
      double rate = rates[g];
      long events = random.doubles(SIZES[g]).filter(u -> u < rate).count();
      counts.add(new Proportion(events, SIZES[g]));
    }
    return counts;
  }

  private static GroupComparison compare(List<Proportion> counts) {
    var groups = new ArrayList<Group>();
    for (int i = 0; i < counts.size(); i++) {
      groups.add(new Group("T" + (i + 1), counts.get(i)));
    }
    return GroupComparison.of(groups, 0.05);
  }

  @Test
  void noiseAccusesNobody() {
    var random = new Random(40);
    double[] rates = new double[SIZES.length];
    Arrays.fill(rates, 0.12);
    int shops = 1000;
    long accusing = 0;
    for (int i = 0; i < shops; i++) {
      accusing +=
          compare(shop(random, rates)).standings().stream()
                  .anyMatch(s -> s.verdict() != Verdict.NOT_SHOWN)
              ? 1
              : 0;
    }
    // Where no group differs, the false share is the share of shops with any accusation.
    assertThat(new Proportion(accusing, shops).exact(0.999).low()).isLessThan(0.05);
    // And the test is not asleep.
    assertThat(accusing).isPositive();
  }

  @Test
  void aBadGroupIsFound() {
    var random = new Random(41);
    double[] rates = new double[SIZES.length];
    Arrays.fill(rates, 0.1);
    rates[8] = 0.35;
    int found = 0;
    for (int i = 0; i < 200; i++) {
      var standing = compare(shop(random, rates)).standings().get(8);
      found += standing.verdict() == Verdict.ABOVE_THE_REST ? 1 : 0;
      assertThat(standing.group().name()).isEqualTo("T9");
    }
    assertThat(found).isGreaterThan(190);
  }

  @Test
  void aLargeBadGroupDoesNotMakeTheOthersLookGood() {
    var random = new Random(43);
    int shops = 300;
    int found = 0;
    int othersNamed = 0;
    for (int i = 0; i < shops; i++) {
      var counts = new ArrayList<Proportion>();
      for (int g = 0; g < 12; g++) {
        double rate = g == 5 ? 0.3 : 0.04;
        counts.add(new Proportion(random.doubles(400).filter(u -> u < rate).count(), 400));
      }
      var standings = compare(counts).standings();
      found += standings.get(5).verdict() == Verdict.ABOVE_THE_REST ? 1 : 0;
      othersNamed +=
          standings.stream().filter(s -> s.verdict() != Verdict.NOT_SHOWN).count() > 1 ? 1 : 0;
      assertThat(standings.get(5).rest().trials()).isGreaterThanOrEqualTo(9 * 400);
      assertThat(standings.get(0).rest().trials()).isLessThanOrEqualTo(10 * 400);
    }
    assertThat(found).isEqualTo(shops);
    // Held against all others, every second shop would have praised somebody for nothing.
    assertThat(new Proportion(othersNamed, shops).exact(0.999).low()).isLessThan(0.1);
    assertThat(new Proportion(othersNamed, shops).rate().orElseThrow()).isLessThan(0.15);
  }

  @Test
  void twoGroupsAreEachOthersRest() {
    var standings = compare(List.of(new Proportion(60, 200), new Proportion(9, 300))).standings();
    assertThat(standings.get(0).rest()).isEqualTo(new Proportion(9, 300));
    assertThat(standings)
        .extracting(GroupComparison.Standing::verdict)
        .containsExactly(Verdict.ABOVE_THE_REST, Verdict.BELOW_THE_REST);
  }

  @Test
  void groupsWithoutTrialsChangeNothing() {
    var two = List.of(new Proportion(60, 200), new Proportion(9, 300));
    var padded = List.of(two.get(0), Proportion.NONE, two.get(1));
    assertThat(RatePrior.of(padded)).isEqualTo(RatePrior.of(two));
    var standings = compare(padded).standings();
    assertThat(standings.get(0).rest()).isEqualTo(new Proportion(9, 300));
    assertThat(standings.get(2).rest()).isEqualTo(new Proportion(60, 200));
  }

  @Test
  void whoDoesMostOfTheWorkStaysPartOfTheRest() {
    var most = new Proportion(200, 600);
    var others = List.of(new Proportion(5, 110), new Proportion(6, 120), new Proportion(7, 130));
    var counts = new ArrayList<>(others);
    counts.add(most);
    var standings = compare(counts).standings();
    assertThat(standings.get(0).rest().trials()).isGreaterThanOrEqualTo(600);
    assertThat(standings.get(3).verdict()).isEqualTo(Verdict.ABOVE_THE_REST);
    // With half of the work or less, it is left out.
    counts.set(3, new Proportion(120, 360));
    assertThat(compare(counts).standings().get(0).rest()).isEqualTo(new Proportion(13, 250));
  }

  @Test
  void aSmallGroupIsDrawnToTheRest() {
    var comparison =
        compare(
            List.of(
                new Proportion(2, 2),
                new Proportion(70, 700),
                new Proportion(30, 410),
                new Proportion(44, 330)));
    var small = comparison.standings().get(0);
    var large = comparison.standings().get(1);
    double common = comparison.prior().mean();
    assertThat(comparison.all()).isEqualTo(new Proportion(146, 1442));
    assertThat(small.shrunk().mean()).isBetween(common, 0.3);
    assertThat(large.shrunk().mean()).isBetween(0.09999, common);
    assertThat(small.verdict()).isEqualTo(Verdict.NOT_SHOWN);
    assertThat(small.shrunk().chanceAbove(common)).isBetween(0.5, 0.95);
    assertThat(small.shrunk().interval(0.95).contains(common)).isTrue();
  }

  @Test
  void verdictsNameTheSide() {
    var comparison =
        compare(
            List.of(
                new Proportion(9, 300),
                new Proportion(60, 200),
                new Proportion(52, 400),
                new Proportion(50, 410),
                new Proportion(49, 390)));
    assertThat(comparison.standings())
        .extracting(GroupComparison.Standing::verdict)
        .containsExactly(
            Verdict.BELOW_THE_REST,
            Verdict.ABOVE_THE_REST,
            Verdict.NOT_SHOWN,
            Verdict.NOT_SHOWN,
            Verdict.NOT_SHOWN);
    assertThat(comparison.standings()).allMatch(s -> s.adjusted() >= s.chance());
    // Both that stand out are held against the other three, and those against one another.
    assertThat(comparison.standings().get(0).rest()).isEqualTo(new Proportion(151, 1200));
    assertThat(comparison.standings().get(1).rest()).isEqualTo(new Proportion(151, 1200));
    assertThat(comparison.standings().get(3).rest()).isEqualTo(new Proportion(101, 790));
  }

  @Test
  void priorLimitsByHand() {
    // Beta(1, 1) is uniform; Beta(2, 1) has the distribution function x².
    assertThat(new RatePrior(1, 1).interval(0.9).low()).isCloseTo(0.05, within(1e-9));
    assertThat(new RatePrior(1, 1).interval(0.9).high()).isCloseTo(0.95, within(1e-9));
    assertThat(new RatePrior(2, 1).interval(0.9).low()).isCloseTo(Math.sqrt(0.05), within(1e-9));
    assertThat(new RatePrior(2, 1).chanceAbove(0.3)).isCloseTo(0.91, within(1e-12));
    assertThat(new RatePrior(2, 1).mean()).isCloseTo(2.0 / 3, within(1e-15));
  }

  @Test
  void edges() {
    // A group alone has no rest, a group without trials no rate.
    assertThat(compare(List.of(new Proportion(3, 9))).standings().get(0).chance()).isEqualTo(1);
    var lazy = compare(List.of(new Proportion(3, 9), Proportion.NONE)).standings().get(1);
    assertThat(lazy.verdict()).isEqualTo(Verdict.NOT_SHOWN);
    assertThatThrownBy(() -> compare(List.of(Proportion.NONE))).hasMessageContaining("one trial");
    assertThatThrownBy(() -> GroupComparison.of(List.of(), 5)).hasMessageContaining("5.0");
    assertThatThrownBy(() -> new RatePrior(0, 3)).hasMessageContaining("0.0 and 3.0");
  }

  @Test
  void priorHasTheLikeliestWeight() {
    var random = new Random(6);
    for (int round = 0; round < 10; round++) {
      double[] rates = random.doubles(SIZES.length, 0.02, 0.5).toArray();
      var counts = shop(random, rates);
      var prior = RatePrior.of(counts);
      double mean = prior.mean();
      // Second opinion: another library's optimiser and beta function.
      var best =
          new BrentOptimizer(1e-12, 1e-14)
              .optimize(
                  new MaxEval(1000),
                  new UnivariateObjectiveFunction(w -> likelihood(counts, mean, Math.exp(w))),
                  GoalType.MAXIMIZE,
                  new SearchInterval(Math.log(0.5), Math.log(82), 2));
      assertThat(Math.log(prior.weight())).isCloseTo(best.getPoint(), within(1e-4));
    }
  }

  private static double likelihood(List<Proportion> counts, double mean, double weight) {
    double a = mean * weight;
    double b = weight - a;
    return counts.stream()
        .mapToDouble(
            c -> Beta.logBeta(a + c.events(), b + c.trials() - c.events()) - Beta.logBeta(a, b))
        .sum();
  }

  @Test
  void priorKnowsNoOrderAndItsLimits() {
    var counts = new ArrayList<>(shop(new Random(9), new Random(9).doubles(12, 0, 0.4).toArray()));
    var prior = RatePrior.of(counts);
    Collections.reverse(counts);
    assertThat(RatePrior.of(counts)).isEqualTo(prior);
    // Groups more alike than chance would make them: the largest weight, that of a usual group.
    var alike = RatePrior.of(List.of(new Proportion(10, 100), new Proportion(20, 200)));
    assertThat(alike.weight()).isCloseTo(150, within(1e-9));
    assertThat(alike.mean()).isCloseTo(30.5 / 301, within(1e-15));
    // Groups of nothing or all: hardly any weight.
    var torn = RatePrior.of(List.of(new Proportion(0, 80), new Proportion(90, 90)));
    assertThat(torn.weight()).isLessThan(2);
    assertThat(torn.after(new Proportion(3, 10)).events())
        .isCloseTo(torn.events() + 3, within(1e-12));
  }
}
