package firmlever.comeback.visits;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which visit each return of a brake is laid to. A return is laid to one visit only, the last
 * related one after which the brake had gone back, and named beside every other that might have
 * caused it; one that is related to none is laid to the last. A visit that was opened while the
 * brake was still in the shop is no return.
 */
public final class Returns {
  private final List<Visit> visits;
  private final List<List<Return>> after = new ArrayList<>();
  private final LocalDate[] lost;

  /**
   * A return, laid to the visit it is listed under.
   *
   * @param alsoAfter earlier related visits within the long window, the latest first
   * @param relation to the visit it is laid to
   */
  public record Return(Visit second, List<Visit> alsoAfter, Relation relation) {}

  /** How two visits are related, by their positions. */
  public interface Judge {
    /** How the later visit is related to the earlier one. */
    Relation of(int earlier, int later);
  }

  /**
   * @param visits of one brake, in order of time
   */
  public Returns(List<Visit> visits, int longDays, Judge judge) {
    this.visits = visits;
    this.lost = new LocalDate[visits.size()];
    visits.forEach(visit -> after.add(new ArrayList<>()));
    for (int j = 1; j < visits.size(); j++) {
      Visit second = visits.get(j);
      Map<Integer, Relation> relations = new HashMap<>();
      List<Integer> before = new ArrayList<>();
      for (int i = 0; i < j; i++) {
        if (!visits.get(i).closed().isAfter(second.file().opened())) {
          before.add(i);
          relations.put(i, judge.of(i, j));
        }
      }
      if (before.isEmpty()) {
        continue;
      }
      before.sort(
          Comparator.comparing((Integer i) -> visits.get(i).closed())
              .thenComparing(i -> i)
              .reversed());
      List<Integer> related =
          before.stream().filter(i -> requireNonNull(relations.get(i)).related()).toList();
      int to = related.isEmpty() ? before.get(0) : related.get(0);
      List<Integer> others = related.subList(Math.min(1, related.size()), related.size());
      for (int i : others) {
        lost[i] = lost[i] == null ? second.file().opened() : lost[i];
      }
      after
          .get(to)
          .add(
              new Return(
                  second,
                  others.stream()
                      .map(visits::get)
                      .filter(first -> first.daysUntil(second) <= longDays)
                      .toList(),
                  requireNonNull(relations.get(to))));
    }
  }

  /** All returns laid to the visit at that position, in order of time. */
  public List<Return> after(int position) {
    return after.get(position);
  }

  /** Those of them that are related to it. */
  public List<Return> relatedAfter(int position) {
    return after.get(position).stream().filter(again -> again.relation.related()).toList();
  }

  /**
   * Until when the visit at that position can be watched for a return of its own: the end of the
   * data, or the day of a return that a later visit answers for.
   */
  public LocalDate watchedUntil(int position, LocalDate end) {
    return Optional.ofNullable(lost[position])
        .filter(day -> day.isBefore(end))
        .filter(day -> !day.isBefore(visits.get(position).closed()))
        .orElse(end);
  }
}
