package firmlever.comeback.trial;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.comeback.statistics.Proportion;
import firmlever.comeback.visits.Definition;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.invent.Depot;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The forecast tried on the past")
class BacktestTest {
  private static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  private static final CaseReader READER = new CaseReader(VOCABULARY);

  private static CaseFile read(String line) {
    try {
      return READER.read(DocumentReader.readText(line, "v"), "v");
    } catch (BadInput e) {
      throw new AssertionError(e);
    }
  }

  private static Backtest backtest(LocalDate from, LocalDate end) {
    return new Backtest(
        new Definition(30, 90, end),
        from,
        VOCABULARY,
        visits -> (i, j) -> visits.get(i).relatedByComplaint(visits.get(j)));
  }

  private static Backtest.Result depot(long seed, int jobs) {
    Map<String, List<CaseFile>> brakes = new TreeMap<>();
    new Depot(seed)
        .write(
            jobs,
            line -> {
              CaseFile file = read(line);
              brakes.computeIfAbsent(file.brake().id(), b -> new ArrayList<>()).add(file);
            });
    Backtest backtest = backtest(LocalDate.of(2023, 1, 1), LocalDate.of(2025, 12, 31));
    brakes.values().forEach(backtest::add);
    return backtest.result();
  }

  @Test
  @DisplayName("holds in about 95 of 100 of its intervals what came, over batches of the depot")
  void holdsItsRate() {
    Proportion held = Proportion.NONE;
    for (int seed = 1; seed <= 12; seed++) {
      Backtest.Result result = depot(seed, 3000);
      assertThat(result.trials()).hasSize(12);
      held = held.plus(result.held());
    }
    // Of 144 intervals at 95 %, fewer than 127 hold in 1 of 1 000 runs (binomial).
    assertThat(held.events()).isBetween(127L, 144L);
  }

  @Test
  @DisplayName("knows at each cut what a hand-cut batch knows, and counts what came by hand")
  void cutsTruly() {
    List<List<CaseFile>> brakes = new ArrayList<>();
    LocalDate start = LocalDate.of(2025, 1, 1);
    // Forty brakes, one a week; every second comes back after ten days, written up as not mended.
    for (int i = 0; i < 40; i++) {
      LocalDate day = start.plusDays(7L * i);
      CaseFile first = visit("B-" + i, 1, day);
      brakes.add(
          i % 2 == 0 ? List.of(first, visit("B-" + i, 2, day.plusDays(10))) : List.of(first));
    }
    LocalDate end = LocalDate.of(2025, 10, 31);
    Backtest backtest = backtest(start, end);
    brakes.forEach(backtest::add);
    for (Backtest.Trial trial : backtest.result().trials()) {
      long byHand = 0;
      for (int i = 0; i < 40; i += 2) {
        LocalDate mended = start.plusDays(7L * i);
        LocalDate back = mended.plusDays(10);
        byHand +=
            !mended.isAfter(trial.day())
                    && back.isAfter(trial.day())
                    && !back.isAfter(trial.day().plusDays(30))
                ? 1
                : 0;
      }
      assertThat(trial.came()).as(trial.day().toString()).isEqualTo(byHand);
      // The same, from a batch that ends there: nothing later may have been used.
      Backtest cut = backtest(start, trial.day().plusDays(30));
      for (List<CaseFile> visits : brakes) {
        List<CaseFile> before =
            visits.stream().filter(v -> !v.opened().isAfter(trial.day().plusDays(30))).toList();
        if (!before.isEmpty()) {
          cut.add(before);
        }
      }
      List<Backtest.Trial> again = cut.result().trials();
      assertThat(again.get(again.size() - 1)).isEqualTo(trial);
    }
    assertThat(backtest.result().trials()).hasSizeGreaterThan(3);
  }

  private static CaseFile visit(String brake, int number, LocalDate day) {
    return read(
        "{\"format\":\"firmlever-case/1\",\"id\":\"V-%d\",\"opened\":\"%s\",\"brake\":{\"id\":\"%s\",\"fluid\":\"mineral-oil\"},\"complaint\":\"soft\",\"symptoms\":{\"spongy-lever\":\"present\"},\"outcome\":{\"causes\":[\"air-at-lever\"],\"closed\":\"%s\"}}"
            .formatted(number, day, brake, day));
  }
}
