package firmlever.comeback.trial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.trial.ChangeSeries.Change;
import firmlever.comeback.trial.ChangeSeries.Effect;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Relation;
import firmlever.comeback.visits.Relation.Ground;
import firmlever.comeback.visits.Stay;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("A change in the shop")
class ChangeSeriesTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);
  private static final LocalDate FROM = LocalDate.of(2025, 1, 1);
  private static final LocalDate DAY = LocalDate.of(2025, 7, 1);
  private static final Definition DEFINITION = new Definition(30, 90, LocalDate.of(2026, 1, 31));

  /** A visit of a brake of its own, back after ten days or not. */
  private static void add(
      ChangeSeries series, int number, LocalDate day, String work, boolean back) {
    try {
      CaseFile file =
          READER.read(
              DocumentReader.readText(
                  "{\"format\":\"firmlever-case/1\",\"id\":\"V-%d\",\"opened\":\"%s\",\"brake\":{\"id\":\"B-%d\",\"fluid\":\"mineral-oil\"},\"complaint\":\"soft\",\"outcome\":{\"works\":[\"%s\"],\"closed\":\"%s\"}}"
                      .formatted(number, day, number, work, day),
                  "v"),
              "v");
      series.add(List.of(file), back ? List.of(comeback(file)) : List.of());
    } catch (BadInput e) {
      throw new AssertionError(e);
    }
  }

  private static Comeback comeback(CaseFile file) {
    Stay none = new Stay("", List.of(), List.of());
    return new Comeback(
        file.brake().id(),
        file.id(),
        "again",
        List.of(),
        new Relation(Ground.SAME_COMPLAINT, Double.NaN),
        file.opened(),
        file.opened().plusDays(10),
        10,
        "",
        none,
        none,
        List.of(),
        List.of(),
        List.of(),
        Reason.NOT_RECORDED,
        0,
        0,
        false,
        "",
        0,
        false,
        0,
        "");
  }

  private static ChangeSeries series() {
    return new ChangeSeries(new Change(DAY, "new kit"), DEFINITION, FROM, VOCABULARY);
  }

  /**
   * Two visits a day: a bleed comes back in 3 of 10, new pads in 1 of 10; from the day on most are
   * bleeds, and the rate of all changes by so much.
   */
  private static Effect simulated(Random random, double change) {
    ChangeSeries series = series();
    int number = 0;
    for (LocalDate day = FROM; day.isBefore(LocalDate.of(2026, 1, 1)); day = day.plusDays(1)) {
      for (int i = 0; i < 2; i++) {
        boolean after = !day.isBefore(DAY);
        boolean bleed = random.nextDouble() < (after ? 0.8 : 0.2);
        double rate = (bleed ? 0.3 : 0.1) + (after ? change : 0);
        add(
            series,
            number++,
            day,
            bleed ? "full-bleed" : "replace-pads",
            random.nextDouble() < rate);
      }
    }
    return series.effect();
  }

  @Test
  @DisplayName("that did nothing looks like nothing, though other works were done since")
  void isNotFooledByOtherWorks() {
    Random random = new Random(3);
    int covered = 0;
    int claimed = 0;
    double plain = 0;
    int runs = 60;
    for (int run = 0; run < runs; run++) {
      Effect effect = simulated(random, 0);
      covered += effect.after().interval(0.95).contains(0) ? 1 : 0;
      claimed += effect.chance() <= 0.05 ? 1 : 0;
      plain +=
          effect.after().own().rate().orElseThrow() - effect.after().others().rate().orElseThrow();
    }
    // Without the strata it would be 12 of 100 worse.
    assertThat(plain / runs).isCloseTo(0.12, within(0.02));
    assertThat(covered).isGreaterThanOrEqualTo(52);
    assertThat(claimed).isLessThanOrEqualTo(8);
  }

  @Test
  @DisplayName("that helped is seen, with its size")
  void seesWhatHelped() {
    Random random = new Random(9);
    double sum = 0;
    int claimed = 0;
    for (int run = 0; run < 20; run++) {
      Effect effect = simulated(random, -0.09);
      sum += effect.after().difference();
      claimed += effect.chance() <= 0.05 ? 1 : 0;
    }
    assertThat(sum / 20).isCloseTo(-0.09, within(0.02));
    assertThat(claimed).isGreaterThan(10);
  }

  @Test
  @DisplayName("is told as on the move already where it was")
  void seesWhatMovedBefore() {
    ChangeSeries series = series();
    int number = 0;
    for (int day = -180; day < 180; day++) {
      // Half come back in the first ninety days, a tenth later on.
      boolean back = number % (day < -90 ? 2 : 10) == 0;
      add(series, number++, DAY.plusDays(day), "full-bleed", back);
    }
    Effect effect = series.effect();
    assertThat(effect.days()).isEqualTo(180);
    assertThat(effect.earlier().difference()).isCloseTo(0.1 - 0.5, within(0.01));
    assertThat(effect.earlierChance()).isLessThan(0.001);
    // By hand: 18 of 180 after; 45 + 9 of 180 before.
    assertThat(effect.after().own().events()).isEqualTo(18);
    assertThat(effect.after().others().events()).isEqualTo(54);
    assertThat(effect.steps()).hasSize(12);
    assertThat(effect.steps().get(6).from()).isEqualTo(DAY);
  }

  @Test
  @DisplayName("at the edge of the data is not judged")
  void keepsOffTheEdge() {
    ChangeSeries series =
        new ChangeSeries(
            new Change(LocalDate.of(2026, 1, 10), "late"), DEFINITION, FROM, VOCABULARY);
    add(series, 1, LocalDate.of(2025, 12, 1), "full-bleed", true);
    assertThat(series.effect().days()).isZero();
  }
}
