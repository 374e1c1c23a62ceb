package firmlever.comeback.statistics;

import static java.util.Objects.requireNonNull;

import firmlever.comeback.statistics.StratifiedTable.Contrast;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Predicate;

/**
 * One family of comparisons: every group is held against others in the same strata by the exact
 * stratified test, the chances of all are adjusted together, and a verdict must also hold when any
 * one other label, or any one part of the strata, is left out, so that one outlier makes no verdict
 * about the others. Shuffling the labels within the strata tells how many verdicts chance gives.
 *
 * @param <S> what a stratum is
 */
public final class FairComparison<S extends Comparable<S>> {
  /** Enough to see a rate of 5 in 100; the same for every run. */
  public static final int SHUFFLES = 200;

  private static final long SEED = 0x5eedL;

  private final double falseShare;
  private final List<Asked<S>> asked = new ArrayList<>();
  private final List<Contrast> contrasts = new ArrayList<>();

  /**
   * @param falseShare the share of the verdicts that may be false on average, between 0 and 1
   */
  public FairComparison(double falseShare) {
    this.falseShare = Interval.checkedLevel(falseShare);
  }

  /** What may be said of a group. */
  public enum Verdict {
    /** Its rate is above that of the others by more than chance allows. */
    ABOVE_THE_OTHERS,
    /** Its rate is below that of the others by more than chance allows. */
    BELOW_THE_OTHERS,
    /** Chance or one outlier explains it: nothing may be said. */
    NOT_SHOWN
  }

  private record Asked<S extends Comparable<S>>(
      StratifiedTable<S> table,
      String label,
      Predicate<S> where,
      List<Predicate<S>> parts,
      List<S> compared) {}

  /**
   * One comparison.
   *
   * @param adjusted the chance after Benjamini and Hochberg over the family
   */
  public record Result(Contrast contrast, double adjusted, Verdict verdict) {}

  /**
   * What shuffled labels give.
   *
   * @param tests in the family
   * @param verdicts those given
   * @param byChance verdicts that shuffled labels give on average, before outliers are looked at
   * @param anyByChance the share of the shuffles that give any
   */
  public record Check(int tests, long verdicts, double byChance, Proportion anyByChance) {}

  /**
   * Adds a group to the family.
   *
   * @param where the strata it is compared in
   * @param parts of the strata: the verdict must hold without each
   */
  public void add(
      StratifiedTable<S> table, String label, Predicate<S> where, List<Predicate<S>> parts) {
    asked.add(new Asked<>(table, label, where, parts, table.compared(label, where)));
    contrasts.add(table.contrast(label, where, other -> true));
  }

  /** The results, in the order in which the groups were added. */
  public List<Result> results() {
    List<Double> adjusted = adjusted(contrasts.stream().map(Contrast::chance).toList());
    List<Result> results = new ArrayList<>();
    for (int i = 0; i < asked.size(); i++) {
      Contrast contrast = contrasts.get(i);
      boolean shown = adjusted.get(i) <= falseShare && holds(asked.get(i), contrast.above());
      results.add(
          new Result(
              contrast,
              adjusted.get(i),
              !shown
                  ? Verdict.NOT_SHOWN
                  : contrast.above() ? Verdict.ABOVE_THE_OTHERS : Verdict.BELOW_THE_OTHERS));
    }
    return results;
  }

  /** A group that can be compared with nobody is no test. */
  private List<Double> adjusted(List<Double> chances) {
    List<Integer> tests = tests();
    List<Double> told = FalseDiscovery.adjusted(tests.stream().map(chances::get).toList());
    List<Double> adjusted = new ArrayList<>(java.util.Collections.nCopies(chances.size(), 1.0));
    for (int i = 0; i < tests.size(); i++) {
      adjusted.set(tests.get(i), told.get(i));
    }
    return adjusted;
  }

  private List<Integer> tests() {
    List<Integer> tests = new ArrayList<>();
    for (int i = 0; i < contrasts.size(); i++) {
      if (contrasts.get(i).test().tells()) {
        tests.add(i);
      }
    }
    return tests;
  }

  private boolean holds(Asked<S> group, boolean above) {
    for (String other : group.table.labels()) {
      if (!other.equals(group.label)
          && !holds(
              group.table.contrast(group.label, group.where, label -> !label.equals(other)),
              above)) {
        return false;
      }
    }
    for (Predicate<S> part : group.parts) {
      if (!holds(
          group.table.contrast(group.label, group.where.and(part.negate()), other -> true),
          above)) {
        return false;
      }
    }
    return true;
  }

  /** Where nothing is left to compare with, nothing speaks against it. */
  private boolean holds(Contrast contrast, boolean above) {
    return contrast.own().trials() == 0
        || (contrast.above() == above && contrast.chance() <= falseShare);
  }

  /** Shuffles the labels within the strata and counts the verdicts. */
  public Check check(List<Result> results) {
    SplittableRandom random = new SplittableRandom(SEED);
    long verdicts = 0;
    long any = 0;
    List<StratifiedTable<S>> tables = asked.stream().map(Asked::table).distinct().toList();
    for (int shuffle = 0; shuffle < SHUFFLES; shuffle++) {
      List<Map<S, Map<String, Long>>> dealt =
          tables.stream().map(table -> table.shuffled(random)).toList();
      List<Double> chances = new ArrayList<>();
      for (int i = 0; i < asked.size(); i++) {
        chances.add(
            contrasts
                .get(i)
                .test()
                .chance(events(asked.get(i), dealt.get(tables.indexOf(asked.get(i).table)))));
      }
      long found = adjusted(chances).stream().filter(chance -> chance <= falseShare).count();
      verdicts += found;
      any += found > 0 ? 1 : 0;
    }
    return new Check(
        tests().size(),
        results.stream().filter(r -> r.verdict != Verdict.NOT_SHOWN).count(),
        (double) verdicts / SHUFFLES,
        new Proportion(any, SHUFFLES));
  }

  private static <S extends Comparable<S>> long events(
      Asked<S> group, Map<S, Map<String, Long>> dealt) {
    return group.compared.stream()
        .mapToLong(s -> requireNonNull(dealt.get(s)).get(group.label))
        .sum();
  }
}
