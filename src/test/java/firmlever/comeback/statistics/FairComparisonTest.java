package firmlever.comeback.statistics;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.comeback.statistics.FairComparison.Result;
import firmlever.comeback.statistics.FairComparison.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.function.ToDoubleBiFunction;
import org.junit.jupiter.api.Test;

class FairComparisonTest {
  private static final String[] WORKS = {"bleed", "pads", "rotor"};

  /** Six people, who do not all do the same works; each visit returns at the rate given. */
  private static StratifiedTable<String> shop(
      long seed, ToDoubleBiFunction<String, String> rate, int visits) {
    var random = new SplittableRandom(seed);
    SortedMap<String, SortedMap<String, Proportion>> cells = new TreeMap<>();
    for (int i = 0; i < visits; i++) {
      int person = random.nextInt(6);
      String work = WORKS[random.nextInt(4) == 0 ? random.nextInt(3) : person % 3];
      boolean back = random.nextDouble() < rate.applyAsDouble("T" + person, work);
      cells
          .computeIfAbsent(work, w -> new TreeMap<>())
          .merge("T" + person, new Proportion(back ? 1 : 0, 1), Proportion::plus);
    }
    return new StratifiedTable<>(cells);
  }

  private static double byWork(String work) {
    return work.equals("bleed") ? 0.3 : work.equals("pads") ? 0.1 : 0.05;
  }

  private static FairComparison<String> family(StratifiedTable<String> table) {
    var family = new FairComparison<String>(0.05);
    table.labels().forEach(label -> family.add(table, label, work -> true, List.of()));
    return family;
  }

  private static List<Verdict> verdicts(StratifiedTable<String> table) {
    return family(table).results().stream().map(Result::verdict).toList();
  }

  @Test
  void whoDoesTheHardWorkIsNotAccused() {
    int accusing = 0;
    for (int seed = 0; seed < 400; seed++) {
      var table = shop(seed, (who, work) -> byWork(work), 1500);
      accusing += verdicts(table).stream().anyMatch(v -> v != Verdict.NOT_SHOWN) ? 1 : 0;
    }
    // Without the strata, the two who bleed would be accused in nearly all of these shops.
    assertThat(new Proportion(accusing, 400).exact(0.999).low()).isLessThan(0.05);
  }

  @Test
  void whoDoesTheSameWorkWorseIsFoundAndNobodyElse() {
    int found = 0;
    int others = 0;
    for (int seed = 0; seed < 100; seed++) {
      var table = shop(seed, (who, work) -> byWork(work) + (who.equals("T4") ? 0.25 : 0), 1500);
      List<Verdict> verdicts = verdicts(table);
      found += verdicts.get(4) == Verdict.ABOVE_THE_OTHERS ? 1 : 0;
      others += verdicts.stream().filter(v -> v != Verdict.NOT_SHOWN).count() > 1 ? 1 : 0;
    }
    assertThat(found).isGreaterThan(95);
    // Held against all others, the outlier among them, each of the others would look good.
    assertThat(others).isLessThan(12);
  }

  @Test
  void aWorkThatOnePersonSpoilsIsNotCalledBad() {
    SortedMap<String, SortedMap<String, Proportion>> cells = new TreeMap<>();
    for (int person = 0; person < 6; person++) {
      SortedMap<String, Proportion> row = new TreeMap<>();
      row.put("bleed", new Proportion(person == 3 ? 210 : 12, person == 3 ? 300 : 100));
      row.put("pads", new Proportion(12, 100));
      row.put("rotor", new Proportion(12, 100));
      row.put("hose", new Proportion(40, 100));
      cells.put("T" + person, row);
    }
    var table = new StratifiedTable<>(cells);
    var family = new FairComparison<String>(0.05);
    List<java.util.function.Predicate<String>> hands = new ArrayList<>();
    table.strata().forEach(who -> hands.add(who::equals));
    table.labels().forEach(work -> family.add(table, work, who -> true, hands));
    var results = family.results();
    assertThat(results.get(0).adjusted()).isLessThan(0.001);
    assertThat(results.get(0).contrast().above()).isTrue();
    assertThat(results.get(0).verdict()).isEqualTo(Verdict.NOT_SHOWN);
    // Labels in order: bleed, hose, pads, rotor. The pads look good beside the spoilt bleeds only.
    assertThat(results.get(1).verdict()).isEqualTo(Verdict.ABOVE_THE_OTHERS);
    assertThat(results.get(2).verdict()).isNotEqualTo(Verdict.ABOVE_THE_OTHERS);
  }

  @Test
  void shufflingGivesVerdictsAtThePromisedRate() {
    var table = shop(5, (who, work) -> byWork(work) + (who.equals("T1") ? 0.3 : 0), 1500);
    var family = family(table);
    var results = family.results();
    var check = family.check(results);
    assertThat(check.tests()).isEqualTo(6);
    assertThat(check.verdicts()).isEqualTo(1);
    assertThat(check.anyByChance().trials()).isEqualTo(FairComparison.SHUFFLES);
    // 5 of 100 shuffles may give a verdict; with 200 shuffles more than 20 would be no chance.
    assertThat(check.anyByChance().events()).isLessThanOrEqualTo(20);
    assertThat(family.check(results)).isEqualTo(check);
  }

  @Test
  void whatOthersWouldHaveHadByHand() {
    SortedMap<String, SortedMap<String, Proportion>> cells = new TreeMap<>();
    cells.put(
        "bleed",
        new TreeMap<>(java.util.Map.of("T1", new Proportion(3, 10), "T2", new Proportion(2, 20))));
    cells.put(
        "pads",
        new TreeMap<>(java.util.Map.of("T1", new Proportion(1, 5), "T3", new Proportion(3, 6))));
    cells.put("rotor", new TreeMap<>(java.util.Map.of("T1", new Proportion(7, 9))));
    var contrast = new StratifiedTable<>(cells).contrast("T1", work -> true, other -> true);
    // The rotors, which nobody else does, cannot be compared.
    assertThat(contrast.own()).isEqualTo(new Proportion(4, 15));
    assertThat(contrast.asOthers()).isEqualTo(10 * 0.1 + 5 * 0.5);
    assertThat(contrast.test().expected()).isEqualTo(10 * 5 / 30.0 + 5 * 4 / 11.0);
  }
}
