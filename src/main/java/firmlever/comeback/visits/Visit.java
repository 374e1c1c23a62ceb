package firmlever.comeback.visits;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Outcome;
import firmlever.casefile.CaseFile.Presence;
import firmlever.comeback.visits.Relation.Ground;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.CheckKind;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/**
 * One visit of a brake.
 *
 * @param closed the day it went back; the day it came where nobody wrote that down
 * @param groups the symptom groups of what was present
 */
public record Visit(CaseFile file, LocalDate closed, Set<String> groups) {
  /**
   * Earlier works of this shop older than this are left out of the history, in days (from memory).
   */
  private static final int REMEMBERED = 730;

  public static final Comparator<Visit> BY_TIME =
      Comparator.comparing((Visit v) -> v.file.opened())
          .thenComparing(Visit::closed)
          .thenComparing(v -> v.file.id());

  public static Visit of(CaseFile file, Vocabulary vocabulary) {
    Set<String> groups = new TreeSet<>();
    file.symptoms()
        .forEach(
            (symptom, presence) -> {
              if (presence == Presence.PRESENT) {
                groups.add(vocabulary.symptom(symptom).group());
              }
            });
    return new Visit(file, file.outcome().flatMap(Outcome::closed).orElse(file.opened()), groups);
  }

  /** The first of the groups; empty where nothing was present. */
  public String firstGroup() {
    return groups.isEmpty() ? "" : groups.iterator().next();
  }

  /** The same visit, as if it had ended so. */
  public Visit ending(Optional<Outcome> outcome) {
    return new Visit(
        new CaseFile(
            file.id(),
            file.opened(),
            file.brake(),
            file.use(),
            file.complaint(),
            file.misheard(),
            file.symptoms(),
            file.onlyTold(),
            file.hinted(),
            file.readings(),
            file.history(),
            outcome,
            file.source(),
            file.why(),
            file.knownMiss(),
            file.expectation(),
            file.claim()),
        closed,
        groups);
  }

  /** Whether the complaints share a group of symptoms, or one of them recorded none. */
  boolean alikeIn(Visit other) {
    return groups.isEmpty()
        || other.groups.isEmpty()
        || groups.stream().anyMatch(other.groups::contains);
  }

  public boolean recorded() {
    return file.outcome().isPresent();
  }

  public List<String> causes() {
    return file.outcome().map(Outcome::causes).orElse(List.of());
  }

  public List<String> works() {
    return file.outcome().map(Outcome::works).orElse(List.of());
  }

  /** By the complaints alone: those of one kind are related, and any to one nobody recorded. */
  public Relation relatedByComplaint(Visit again) {
    return new Relation(
        alikeIn(again) ? Ground.SAME_COMPLAINT : Ground.OTHER_COMPLAINT, Double.NaN);
  }

  public Stay stay() {
    return new Stay(
        file.complaint(),
        file.symptoms().entrySet().stream()
            .filter(e -> e.getValue() == Presence.PRESENT)
            .map(Map.Entry::getKey)
            .toList(),
        works());
  }

  public String by() {
    return file.outcome().map(Outcome::by).orElse("");
  }

  /** Days from going back to the other visit; half a day where it came again the same day. */
  public double daysUntil(Visit later) {
    return Math.max(0.5, ChronoUnit.DAYS.between(closed, later.file.opened()));
  }

  /**
   * The case as it stood before any work was done: what only the work brought to light is left out,
   * and what this shop did to the brake at earlier visits is added where the record lacks it.
   */
  public CaseFile knownThen(List<Visit> earlier, Vocabulary vocabulary) {
    Map<String, Presence> known = new LinkedHashMap<>(file.symptoms());
    known.keySet().removeIf(s -> vocabulary.symptom(s).kind() == CheckKind.WORK);
    List<Entry> history = new ArrayList<>(file.history());
    for (Visit visit : earlier) {
      int daysAgo = (int) ChronoUnit.DAYS.between(visit.closed, file.opened());
      if (daysAgo < 0 || daysAgo > REMEMBERED) {
        continue;
      }
      for (String work : visit.works()) {
        boolean told =
            file.history().stream()
                .anyMatch(e -> e.work().equals(work) && e.daysAgo().orElse(-1) == daysAgo);
        if (!told) {
          history.add(visit.entry(work, daysAgo));
        }
      }
    }
    return with(known, history);
  }

  /** The case with these findings and history, and without how it ended. */
  public CaseFile with(Map<String, Presence> symptoms, List<Entry> history) {
    return with(file, symptoms, history);
  }

  public static CaseFile with(CaseFile file, Map<String, Presence> symptoms, List<Entry> history) {
    return new CaseFile(
        file.id(),
        file.opened(),
        file.brake(),
        file.use(),
        file.complaint(),
        file.misheard(),
        symptoms,
        file.onlyTold(),
        file.hinted(),
        file.readings(),
        history,
        Optional.empty(),
        file.source(),
        "",
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  private Entry entry(String work, int daysAgo) {
    return new Entry(
        OptionalInt.of(daysAgo),
        work,
        "",
        file.brake().fluid(),
        by(),
        Double.NaN,
        List.of(),
        "",
        "unknown",
        Set.of(),
        "");
  }
}
