package firmlever.hearing;

import firmlever.casefile.Fluid;
import firmlever.document.Limit;
import firmlever.hearing.language.Certainty;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * All that was heard in a text. Offsets count characters of the text as it was given.
 *
 * @param findings what is said of the brake in question, in the order of the text; each symptom
 *     once
 * @param elsewhere what is said of the other wheel's brake
 * @param history works and events told as done
 * @param wheel the wheel the text speaks of
 * @param unheard clauses in which nothing was heard, word for word
 * @param language {@code en}, {@code de} or {@code fr}; empty where the language is not known, and
 *     then nothing is heard
 * @param cut whether the text was longer than {@link Limit#HEARD_LETTERS} and only its beginning
 *     was listened to
 */
public record Heard(
    List<Finding> findings,
    List<Finding> elsewhere,
    List<Told> history,
    Wheel wheel,
    List<String> unheard,
    Optional<String> language,
    boolean cut) {

  public Heard {
    findings = List.copyOf(findings);
    elsewhere = List.copyOf(elsewhere);
    history = List.copyOf(history);
    unheard = List.copyOf(unheard);
  }

  /** The same without what somebody said was misheard. */
  Heard without(Set<String> misheard) {
    return new Heard(
        findings.stream().filter(each -> !misheard.contains(each.symptom())).toList(),
        elsewhere,
        history.stream().filter(told -> !misheard.contains(told.id())).toList(),
        wheel,
        unheard,
        language,
        cut);
  }

  /** The wheel a text speaks of. */
  public enum Wheel {
    FRONT,
    REAR,
    BOTH,
    UNKNOWN
  }

  /** Who did a work, or brought an event about. */
  public enum Person {
    /** The customer, or somebody near him outside a workshop. */
    OWNER,
    /** A workshop, or somebody in it. */
    SHOP,
    UNKNOWN
  }

  /** Whether something done is a work or an event of the vocabulary. */
  public enum Kind {
    WORK,
    EVENT
  }

  /**
   * A symptom spoken of.
   *
   * @param symptom its id in the vocabulary
   * @param words the words it was heard in, from {@code start} up to and without {@code end}
   */
  public record Finding(String symptom, Certainty certainty, String words, int start, int end) {}

  /**
   * A work or an event told as done.
   *
   * @param id its id in the vocabulary
   * @param daysAgo days before the day given, 0 or more; empty where no time was told
   * @param outcome id of the outcome told of it
   * @param fluid what was filled in, where it was told
   * @param words the words it was heard in, from {@code start} up to and without {@code end}
   */
  public record Told(
      Kind kind,
      String id,
      OptionalInt daysAgo,
      Person by,
      Optional<String> outcome,
      Optional<Fluid> fluid,
      String words,
      int start,
      int end) {}
}
