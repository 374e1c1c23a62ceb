package firmlever.diagnosis.report;

import firmlever.diagnosis.Difference.Known;
import firmlever.diagnosis.Gist.Next;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Caution;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The names of what two diagnoses differ in. What an older rule base knew and this one does not is
 * called by its id.
 */
public final class DifferenceNames {
  private final Vocabulary vocabulary;
  private final Map<String, Set<String>> coarser;

  public DifferenceNames(Vocabulary vocabulary) {
    this.vocabulary = vocabulary;
    this.coarser = vocabulary.coarser();
  }

  /** A symptom, a cause or a work. */
  public String of(String id) {
    boolean known =
        vocabulary.symptoms().containsKey(id)
            || vocabulary.causes().containsKey(id)
            || vocabulary.actions().containsKey(id);
    return known ? vocabulary.name(id) : id;
  }

  /** A finding. */
  public String finding(String symptom, boolean there) {
    Symptom known = vocabulary.symptoms().get(symptom);
    return known == null ? (there ? "" : "no ") + symptom : known.said(there);
  }

  /**
   * The findings that differ without those that only follow from others: a wet lever from a weep at
   * it, a dry one from no leak anywhere.
   */
  public List<Known> telling(List<Known> findings) {
    return findings.stream().filter(each -> !follows(each, findings)).toList();
  }

  private boolean follows(Known known, List<Known> findings) {
    boolean there = known.now().orElse(false);
    return findings.stream()
        .filter(other -> other.before().equals(known.before()) && other.now().equals(known.now()))
        .anyMatch(
            other ->
                there
                    ? coarser(other.symptom()).contains(known.symptom())
                    : coarser(known.symptom()).contains(other.symptom()));
  }

  private Set<String> coarser(String symptom) {
    return coarser.getOrDefault(symptom, Set.of());
  }

  public String caution(String id) {
    Caution known = vocabulary.cautions().get(id);
    return known == null ? id : known.inShort();
  }

  /**
   * A step as one tells somebody to do it; handing back is told otherwise. Where another look goes
   * by the same name, it is told by what is looked for.
   */
  public String step(Next step, Optional<Next> other) {
    String name = named(step);
    return other.map(this::named).filter(name::equals).isEmpty()
        ? name
        : step.looks().stream().map(this::of).collect(Collectors.joining(", ", "look for ", ""));
  }

  private String named(Next step) {
    return vocabulary.symptoms().containsKey(step.id())
        ? vocabulary.lookFor(step.id(), step.looks().size() > 1)
        : of(step.id());
  }
}
