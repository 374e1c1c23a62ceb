package firmlever.vocabulary;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Cause;
import firmlever.vocabulary.Vocabulary.Symptom;
import firmlever.vocabulary.Vocabulary.Term;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

class VocabularyTest {
  private static final Vocabulary BUILT_IN = VocabularyReader.builtIn();

  private static <T> List<T> all(Map<String, T> map) {
    return List.copyOf(map.values());
  }

  private static List<Term> terms() {
    List<Term> terms = new ArrayList<>();
    for (var map :
        List.of(
            BUILT_IN.works(),
            BUILT_IN.events(),
            BUILT_IN.circumstances(),
            BUILT_IN.parts(),
            BUILT_IN.outcomes())) {
      terms.addAll(map.values());
    }
    return terms;
  }

  private static <T> void assertSpoken(Collection<T> entries, Function<T, List<String>> texts) {
    assertThat(entries)
        .isNotEmpty()
        .allSatisfy(
            entry ->
                assertThat(texts.apply(entry))
                    .allSatisfy(text -> assertThat(text).isNotBlank().isEqualTo(text.strip())));
  }

  /** Outputs speak of a step, a cause or a symptom by its id alone. */
  @Test
  void symptomsCausesAndActionsShareNoId() {
    List<String> ids = new ArrayList<>(BUILT_IN.symptoms().keySet());
    ids.addAll(BUILT_IN.causes().keySet());
    ids.addAll(BUILT_IN.actions().keySet());
    ids.add(Vocabulary.NO_FAULT_FOUND);
    assertThat(ids).doesNotHaveDuplicates().allMatch(id -> id.matches("[a-z0-9]+(-[a-z0-9]+)*"));
  }

  /** A record names an action and a work of records in the same field. */
  @Test
  void worksOfRecordsAreNoActions() {
    assertThat(BUILT_IN.works().keySet()).doesNotContainAnyElementsOf(BUILT_IN.actions().keySet());
    assertThat(BUILT_IN.recordedWorks())
        .hasSize(BUILT_IN.works().size() + BUILT_IN.actions().size());
  }

  /** Two things of one name could not be told apart in a report. */
  @Test
  void namesAreUniqueWithinTheirKind() {
    assertThat(all(BUILT_IN.symptoms())).extracting(Symptom::name).doesNotHaveDuplicates();
    assertThat(all(BUILT_IN.causes())).extracting(Cause::name).doesNotHaveDuplicates();
    assertThat(all(BUILT_IN.actions())).extracting(Action::name).doesNotHaveDuplicates();
  }

  @Test
  void everyEntryHasItsTexts() {
    assertSpoken(
        all(BUILT_IN.symptoms()),
        s -> List.of(s.id(), s.name(), s.group(), s.definition(), s.check()));
    assertSpoken(
        all(BUILT_IN.causes()),
        c -> List.of(c.id(), c.name(), c.group(), c.part(), c.definition()));
    assertSpoken(
        all(BUILT_IN.actions()), a -> List.of(a.id(), a.name(), a.group(), a.definition()));
    assertSpoken(terms(), t -> List.of(t.id(), t.name(), t.definition()));
    assertSpoken(all(BUILT_IN.cautions()), c -> List.of(c.id(), c.text()));
  }

  @Test
  void definitionsChecksAndCautionsAreWholeSentences() {
    List<String> sentences = new ArrayList<>();
    BUILT_IN.symptoms().values().forEach(s -> sentences.addAll(List.of(s.definition(), s.check())));
    BUILT_IN.looks().values().forEach(look -> sentences.add(look.check()));
    BUILT_IN.causes().values().forEach(c -> sentences.add(c.definition()));
    BUILT_IN.actions().values().forEach(a -> sentences.add(a.definition()));
    BUILT_IN.cautions().values().forEach(c -> sentences.add(c.text()));
    assertThat(sentences).allMatch(text -> text.matches("(?s)[A-Z].*[.!?]"));
  }

  @Test
  void whatCanBeCheckedTakesTimeAndSoDoesEveryAction() {
    assertThat(all(BUILT_IN.symptoms()))
        .filteredOn(Symptom::canBeChecked)
        .allMatch(symptom -> symptom.minutes() > 0);
    assertThat(all(BUILT_IN.actions())).allMatch(action -> action.minutes() > 0);
  }

  @Test
  void everyLookShowsSeveralSymptomsAndEveryPlaceToTraceHasItsHeight() {
    assertThat(BUILT_IN.looks().keySet())
        .containsExactlyInAnyOrderElementsOf(
            all(BUILT_IN.symptoms()).stream()
                .map(Symptom::look)
                .filter(look -> !look.isEmpty())
                .collect(java.util.stream.Collectors.toSet()));
    assertThat(all(BUILT_IN.symptoms()))
        .filteredOn(s -> s.look().equals(Vocabulary.LEAK_TRACING) && !s.id().equals("leak-found"))
        .hasSize(9)
        .allMatch(place -> place.height() > 0);
  }

  /** Otherwise a check could wait for something that is never looked for. */
  @Test
  void whatACheckPresupposesCanBeCheckedByItself() {
    List<String> presupposed =
        all(BUILT_IN.symptoms()).stream().flatMap(s -> s.presupposes().stream()).toList();
    assertThat(presupposed).isNotEmpty();
    assertThat(presupposed)
        .allSatisfy(
            id -> {
              Symptom symptom = BUILT_IN.symptoms().get(id);
              assertThat(symptom).as(id).isNotNull();
              assertThat(symptom.canBeChecked()).as(id).isTrue();
              assertThat(symptom.presupposes()).as(id).isEmpty();
            });
  }

  @Test
  void partsOfCausesAndActionsAreParts() {
    assertThat(BUILT_IN.parts().keySet())
        .containsAll(all(BUILT_IN.causes()).stream().map(Cause::part).toList())
        .containsAll(all(BUILT_IN.actions()).stream().flatMap(a -> a.parts().stream()).toList());
  }

  @Test
  void anActionOrItsGroupNamesActions() {
    Action action = BUILT_IN.actions().get("lever-end-bleed");
    assertThat(BUILT_IN.actionsOf("lever-end-bleed")).containsExactly("lever-end-bleed");
    assertThat(BUILT_IN.actionsOf(action.group()))
        .contains("lever-end-bleed")
        .isEqualTo(
            all(BUILT_IN.actions()).stream()
                .filter(other -> other.group().equals(action.group()))
                .map(Action::id)
                .toList());
    assertThat(BUILT_IN.actionsOf("no-such-action")).isEmpty();
  }

  @Test
  void orderIsThatOfTheFilesEveryTime() {
    Vocabulary again = VocabularyReader.builtIn();
    assertThat(again).isEqualTo(BUILT_IN);
    assertThat(List.copyOf(again.symptoms().keySet()))
        .isEqualTo(List.copyOf(BUILT_IN.symptoms().keySet()));
    assertThat(List.copyOf(again.causes().keySet()))
        .isEqualTo(List.copyOf(BUILT_IN.causes().keySet()));
  }

  /** "No no hard stop" and "pistons do not roll back absent" are no English. */
  @Test
  void theAbsenceOfASymptomIsSaidPlainly() {
    assertThat(all(BUILT_IN.symptoms()))
        .allSatisfy(
            symptom -> {
              String denied = symptom.said(false);
              assertThat(denied)
                  .isNotEqualTo(symptom.name())
                  .doesNotContain("absent", "no no ", "no a ", "not not ");
              if (symptom.namesAnAbsence()) {
                assertThat(denied).doesNotContain(symptom.name());
              }
            });
    assertThat(BUILT_IN.symptom("no-hard-stop").said(false))
        .isEqualTo("firm at the end of the stroke");
    assertThat(BUILT_IN.symptom("no-resistance").said(false)).isEqualTo("some resistance");
    assertThat(BUILT_IN.symptom("squeal").said(false)).isEqualTo("no squeal");
  }

  /** A claim is told of works and events that nobody wrote down. */
  @Test
  void whatWasDoneIsSaidInThePast() {
    assertThat(BUILT_IN.recordedWorks())
        .allSatisfy(
            work ->
                assertThat(BUILT_IN.done(work).orElse(""))
                    .matches("([a-z]+ed|bled|made|remade|set|split|gave|did) .*"));
    assertThat(BUILT_IN.events().keySet())
        .allSatisfy(event -> assertThat(BUILT_IN.done(event).orElse("")).contains(" "));
    assertThat(BUILT_IN.done("pads")).isEmpty();
  }
}
