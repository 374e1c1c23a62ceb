package firmlever.comeback.statistics;

import static firmlever.comeback.statistics.Published.lives;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class LogRankTestTest {

  // Freireich 1963 by R's survdiff: O 9 and 21, E 19.3 and 10.7, chi-squared 16.8 on 1, p 4.17e-5;
  // more digits recomputed in references 7.11.
  @Test
  void remissionAsPublished() {
    var test = LogRankTest.of(List.of(Published.DRUG, Published.PLACEBO));
    var drug = test.groups().get(0);
    var placebo = test.groups().get(1);
    assertThat(drug.observed()).isEqualTo(9);
    assertThat(placebo.observed()).isEqualTo(21);
    assertThat(drug.expected()).isCloseTo(19.2505, within(5e-5));
    assertThat(placebo.expected()).isCloseTo(10.7495, within(5e-5));
    assertThat(drug.variance()).isCloseTo(6.2570, within(5e-5));
    assertThat(test.chiSquared()).isCloseTo(16.7929, within(5e-5));
    assertThat(test.degrees()).isEqualTo(1);
    assertThat(test.chance()).isCloseTo(4.1688e-5, within(5e-10));
  }

  // The sum of (O − E)² / E is 15.2 (R's output): it is not the log-rank statistic.
  @Test
  void isNotTheRoughSum() {
    var test = LogRankTest.of(List.of(Published.DRUG, Published.PLACEBO));
    double rough =
        test.groups().stream()
            .mapToDouble(g -> Math.pow(g.observed() - g.expected(), 2) / g.expected())
            .sum();
    assertThat(rough).isCloseTo(15.2, within(0.05));
    assertThat(test.chiSquared()).isGreaterThan(rough + 1);
  }

  @Test
  void orderOfGroupsDoesNotMatter() {
    var third = lives("2 9+ 14 21 40+");
    var one = LogRankTest.of(List.of(Published.DRUG, Published.PLACEBO, third));
    var two = LogRankTest.of(List.of(third, Published.DRUG, Published.PLACEBO));
    assertThat(one.degrees()).isEqualTo(2).isEqualTo(two.degrees());
    assertThat(one.chiSquared()).isCloseTo(two.chiSquared(), within(1e-10));
    assertThat(one.groups().get(0).expected()).isEqualTo(two.groups().get(1).expected());
  }

  @Test
  void groupsThatCannotBeToldApartTakeNoDegree() {
    // The third group is gone before the first failure, the fourth is empty.
    var gone = lives("0.5+ 0.5+");
    var test = LogRankTest.of(List.of(Published.DRUG, Published.PLACEBO, gone, LifeTable.EMPTY));
    assertThat(test.degrees()).isEqualTo(1);
    assertThat(test.chiSquared()).isCloseTo(16.7929, within(5e-5));
    var nothing = LogRankTest.of(List.of(gone, lives("3 4")));
    assertThat(nothing.degrees()).isZero();
    assertThat(nothing.chance()).isEqualTo(1);
  }

  @Test
  void needsTwoGroups() {
    assertThatThrownBy(() -> LogRankTest.of(List.of(Published.DRUG))).hasMessageContaining("not 1");
  }
}
