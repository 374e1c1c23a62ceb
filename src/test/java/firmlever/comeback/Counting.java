package firmlever.comeback;

import firmlever.casefile.CaseFile;
import firmlever.comeback.visits.Comeback;
import firmlever.comeback.visits.Definition;
import firmlever.comeback.visits.Reason;
import firmlever.comeback.visits.Returns;
import firmlever.comeback.visits.Visit;
import firmlever.vocabulary.Vocabulary;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;

/**
 * The counts of a review without any diagnosis, for measuring what is said of groups on many
 * batches in little time. Why a brake came back is not looked at.
 */
public final class Counting {
  private Counting() {}

  /** All that is counted over these brakes, each with its visits. */
  public static Findings of(
      Collection<List<CaseFile>> brakes, Definition definition, Vocabulary vocabulary) {
    Tally tally = new Tally();
    for (List<CaseFile> files : brakes) {
      List<Visit> visits =
          files.stream().map(f -> Visit.of(f, vocabulary)).sorted(Visit.BY_TIME).toList();
      Returns laid = laid(visits, definition.longDays());
      for (int i = 0; i < visits.size(); i++) {
        Visit first = visits.get(i);
        List<Comeback> comebacks = new ArrayList<>();
        List<Comeback> unrelated = new ArrayList<>();
        for (Returns.Return again : laid.after(i)) {
          if (first.daysUntil(again.second()) <= definition.longDays()) {
            (again.relation().related() ? comebacks : unrelated).add(comeback(first, again));
          }
        }
        tally.addVisit(
            first,
            laid.relatedAfter(i).stream().findFirst().map(again -> first.daysUntil(again.second())),
            ChronoUnit.DAYS.between(first.closed(), laid.watchedUntil(i, definition.end())),
            comebacks,
            unrelated,
            definition);
      }
      tally.addBrake(1, new double[0]);
    }
    return Findings.of(
        tally,
        definition,
        vocabulary,
        new Costs(120, Double.NaN, 0),
        ChanceLevel.NONE,
        Findings.Asked.NOTHING);
  }

  /**
   * The same brakes, with what second visits found dealt out anew among those whose first visit had
   * the same kind of complaint: then nothing at a first visit can foretell it.
   */
  public static List<List<CaseFile>> shuffledSecondVisits(
      Collection<List<CaseFile>> brakes, int longDays, Vocabulary vocabulary, long seed) {
    Map<String, List<String>> keys = new TreeMap<>();
    Map<String, CaseFile.Outcome> outcomes = new TreeMap<>();
    for (List<CaseFile> files : brakes) {
      List<Visit> visits =
          files.stream().map(f -> Visit.of(f, vocabulary)).sorted(Visit.BY_TIME).toList();
      Returns laid = laid(visits, longDays);
      for (int i = 0; i < visits.size(); i++) {
        for (Returns.Return again : laid.after(i)) {
          CaseFile second = again.second().file();
          if (second.outcome().isPresent()) {
            String key = second.brake().id() + "/" + second.id();
            keys.computeIfAbsent(visits.get(i).firstGroup(), g -> new ArrayList<>()).add(key);
            outcomes.put(key, second.outcome().get());
          }
        }
      }
    }
    Random random = new Random(seed);
    Map<String, CaseFile.Outcome> dealt = new TreeMap<>();
    for (List<String> group : keys.values()) {
      List<String> others = new ArrayList<>(group);
      Collections.shuffle(others, random);
      for (int i = 0; i < group.size(); i++) {
        CaseFile.Outcome own = outcomes.get(group.get(i));
        CaseFile.Outcome other = outcomes.get(others.get(i));
        dealt.put(
            group.get(i),
            new CaseFile.Outcome(
                other.causes(), other.works(), own.by(), own.site(), "", own.closed()));
      }
    }
    return brakes.stream()
        .map(
            files ->
                files.stream()
                    .map(
                        file ->
                            Optional.ofNullable(dealt.get(file.brake().id() + "/" + file.id()))
                                .map(o -> Visit.of(file, vocabulary).ending(Optional.of(o)).file())
                                .orElse(file))
                    .toList())
        .toList();
  }

  private static Returns laid(List<Visit> visits, int longDays) {
    return new Returns(visits, longDays, (i, j) -> visits.get(i).relatedByComplaint(visits.get(j)));
  }

  private static Comeback comeback(Visit first, Returns.Return again) {
    Visit second = again.second();
    return new Comeback(
        first.file().brake().id(),
        first.file().id(),
        second.file().id(),
        List.of(),
        again.relation(),
        first.closed(),
        second.file().opened(),
        first.daysUntil(second),
        first.by(),
        first.stay(),
        second.stay(),
        first.works(),
        first.causes(),
        second.causes(),
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
}
