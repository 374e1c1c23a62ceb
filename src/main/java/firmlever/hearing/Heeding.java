package firmlever.hearing;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseFile.Entry;
import firmlever.casefile.CaseFile.Presence;
import firmlever.casefile.Fluid;
import firmlever.hearing.Heard.Finding;
import firmlever.hearing.Heard.Kind;
import firmlever.hearing.Heard.Person;
import firmlever.hearing.Heard.Told;
import firmlever.hearing.language.Certainty;
import firmlever.vocabulary.Vocabulary;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Adds to a case what its complaint says. What the case file itself says stands above it; a clash
 * is named. What was only told is marked so, and weighs as a rider's word; what the words leave
 * open is a hint, which weighs little and is no finding.
 */
public final class Heeding {
  private static final String UNKNOWN_WORK = "unknown-work";

  private final Vocabulary vocabulary;
  private final Map<String, String> opposites;
  private final Hearing hearing;

  public Heeding(Vocabulary vocabulary, Hearing hearing) {
    this.vocabulary = vocabulary;
    this.opposites = vocabulary.opposites();
    this.hearing = hearing;
  }

  /**
   * A case with what its complaint adds.
   *
   * @param heard what was heard; empty where there is no complaint
   * @param clashes where words and findings say the opposite, in sentences
   */
  public record Heeded(CaseFile file, Optional<Heard> heard, List<String> clashes) {}

  /** Listens to the complaint of a case. */
  public Heeded heed(CaseFile file) {
    if (file.complaint().isBlank()) {
      return new Heeded(file, Optional.empty(), List.of());
    }
    Heard heard =
        hearing
            .hear(file.complaint(), file.brake().position(), file.opened())
            .without(file.misheard());
    Map<String, Presence> findings = new LinkedHashMap<>(file.symptoms());
    Set<String> onlyTold = new LinkedHashSet<>(file.onlyTold());
    Set<String> hinted = new LinkedHashSet<>();
    List<String> clashes = new ArrayList<>();
    for (Finding each : heard.findings()) {
      String opposite = opposites.get(each.symptom());
      if (each.certainty() == Certainty.UNSURE) {
        if (opposite == null) {
          hinted.add(each.symptom());
        }
        continue;
      }
      String symptom = opposite == null ? each.symptom() : opposite;
      boolean there = (each.certainty() == Certainty.PRESENT) == (opposite == null);
      Presence coded = findings.getOrDefault(symptom, Presence.NOT_CHECKED);
      if (coded == Presence.NOT_CHECKED) {
        findings.put(symptom, there ? Presence.PRESENT : Presence.ABSENT);
        onlyTold.add(symptom);
      } else if ((coded == Presence.PRESENT) != there) {
        clashes.add(
            "the complaint says \""
                + each.words()
                + "\", and the finding is: "
                + vocabulary.symptom(symptom).said(coded == Presence.PRESENT)
                + "; the finding counts");
      }
    }
    return new Heeded(
        file.with(findings, onlyTold, hinted, history(file, heard)), Optional.of(heard), clashes);
  }

  /** The record, and what was told of works and events that it does not name. */
  private static List<Entry> history(CaseFile file, Heard heard) {
    Set<String> recorded = new HashSet<>(file.misheard());
    file.history().forEach(entry -> recorded.add(entry.work() + entry.event()));
    if (file.history().stream().anyMatch(entry -> !entry.work().isEmpty())) {
      recorded.add(UNKNOWN_WORK); // The record says better what it was.
    }
    List<Entry> all = new ArrayList<>(file.history());
    for (Told told : heard.history()) {
      if (recorded.add(told.id())) {
        all.add(
            new Entry(
                told.daysAgo(),
                told.kind() == Kind.WORK ? told.id() : "",
                told.kind() == Kind.EVENT ? told.id() : "",
                told.fluid().orElse(Fluid.UNKNOWN),
                by(told.by()),
                Double.NaN,
                List.of(),
                "",
                told.outcome().orElse("unknown"),
                Set.of(),
                "heard: " + told.words()));
      }
    }
    return all;
  }

  private static String by(Person person) {
    return switch (person) {
      case OWNER -> "owner";
      case SHOP -> "shop";
      case UNKNOWN -> "";
    };
  }
}
