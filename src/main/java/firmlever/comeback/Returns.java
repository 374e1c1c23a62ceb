package firmlever.comeback;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Which visit each return of a brake is laid to. A return is laid to one visit only, the last
 * related one after which the brake had gone back, and named beside every other that might have
 * caused it. A visit that was opened while the brake was still in the shop is no return.
 */
final class Returns {
  private final List<Visit> visits;
  private final List<List<Return>> after = new ArrayList<>();
  private final LocalDate[] lost;

  /**
   * A return, laid to the visit it is listed under.
   *
   * @param alsoAfter earlier related visits within the long window, the latest first
   */
  record Return(Visit second, List<Visit> alsoAfter) {}

  /**
   * @param visits of one brake, in order of time
   */
  Returns(List<Visit> visits, int longDays) {
    this.visits = visits;
    this.lost = new LocalDate[visits.size()];
    visits.forEach(visit -> after.add(new ArrayList<>()));
    for (int j = 0; j < visits.size(); j++) {
      Visit second = visits.get(j);
      List<Integer> related = new ArrayList<>();
      for (int i = 0; i < j; i++) {
        Visit first = visits.get(i);
        if (!first.closed().isAfter(second.file().opened()) && first.relatedTo(second)) {
          related.add(i);
        }
      }
      if (related.isEmpty()) {
        continue;
      }
      related.sort(
          Comparator.comparing((Integer i) -> visits.get(i).closed())
              .thenComparing(i -> i)
              .reversed());
      List<Integer> others = related.subList(1, related.size());
      for (int i : others) {
        lost[i] = lost[i] == null ? second.file().opened() : lost[i];
      }
      after
          .get(related.get(0))
          .add(
              new Return(
                  second,
                  others.stream()
                      .map(visits::get)
                      .filter(first -> first.daysUntil(second) <= longDays)
                      .toList()));
    }
  }

  /** The returns laid to the visit at that position, in order of time. */
  List<Return> after(int position) {
    return after.get(position);
  }

  /**
   * Until when the visit at that position can be watched for a return of its own: the end of the
   * data, or the day of a return that a later visit answers for.
   */
  LocalDate watchedUntil(int position, LocalDate end) {
    return Optional.ofNullable(lost[position])
        .filter(day -> day.isBefore(end))
        .filter(day -> !day.isBefore(visits.get(position).closed()))
        .orElse(end);
  }
}
