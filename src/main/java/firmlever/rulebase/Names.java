package firmlever.rulebase;

import static java.util.Objects.requireNonNull;

import firmlever.rulebase.Facts.KindOf;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import firmlever.vocabulary.Vocabulary.Symptom;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The vocabulary, looked up once for all cases: rules name things hundreds of times a case.
 *
 * @param symptoms position of each symptom in the vocabulary
 * @param actions the actions each name stands for, be it of an action or of a group
 * @param steps the steps each name stands for: actions as above, and symptoms by the set-up or the
 *     look one needs to find them out
 * @param cautions position of each caution in the vocabulary
 * @param coarse positions of the symptoms that have finer kinds, ascending
 * @param kinds per symptom, by position, the positions of its finer kinds, over any number of steps
 * @param kindFacts the same as facts
 */
record Names(
    Vocabulary vocabulary,
    Map<String, Integer> symptoms,
    Map<String, List<String>> actions,
    Map<String, List<String>> steps,
    Map<String, Integer> cautions,
    int[] coarse,
    int[][] kinds,
    List<KindOf> kindFacts) {

  static Names of(Vocabulary vocabulary) {
    Map<String, Integer> symptoms = new HashMap<>();
    vocabulary.symptoms().keySet().forEach(id -> symptoms.put(id, symptoms.size()));
    Map<String, List<String>> actions = new HashMap<>();
    for (Action action : vocabulary.actions().values()) {
      actions.put(action.id(), vocabulary.actionsOf(action.id()));
      actions.computeIfAbsent(action.group(), vocabulary::actionsOf);
    }
    Map<String, List<String>> steps = new HashMap<>();
    for (Symptom symptom : vocabulary.symptoms().values()) {
      Stream.concat(symptom.needs().stream(), Stream.of(symptom.look()))
          .distinct()
          .forEach(need -> steps.computeIfAbsent(need, n -> new ArrayList<>()).add(symptom.id()));
    }
    actions.forEach(
        (name, some) ->
            steps.merge(name, some, (a, b) -> Stream.concat(a.stream(), b.stream()).toList()));
    List<KindOf> kindFacts = kindFacts(vocabulary);
    int[][] kinds = new int[symptoms.size()][];
    for (Map.Entry<String, Integer> coarse : symptoms.entrySet()) {
      kinds[coarse.getValue()] =
          kindFacts.stream()
              .filter(kind -> kind.coarse().equals(coarse.getKey()))
              .mapToInt(kind -> symptoms.get(kind.fine()))
              .toArray();
    }
    Map<String, Integer> cautions = new HashMap<>();
    vocabulary.cautions().keySet().forEach(id -> cautions.put(id, cautions.size()));
    int[] coarse = IntStream.range(0, kinds.length).filter(j -> kinds[j].length > 0).toArray();
    return new Names(vocabulary, symptoms, actions, steps, cautions, coarse, kinds, kindFacts);
  }

  /** Which symptoms are kinds of which, as facts. */
  static List<KindOf> kindFacts(Vocabulary vocabulary) {
    List<KindOf> kinds = new ArrayList<>();
    Map<String, Set<String>> coarser = vocabulary.coarser();
    Set<String> split = new HashSet<>();
    coarser.values().forEach(split::addAll);
    coarser.forEach(
        (fine, above) ->
            above.forEach(
                coarse ->
                    kinds.add(kind(vocabulary.symptoms(), fine, coarse, !split.contains(fine)))));
    return List.copyOf(kinds);
  }

  private static KindOf kind(
      Map<String, Symptom> symptoms, String fine, String coarse, boolean finest) {
    return new KindOf(
        fine,
        coarse,
        finest,
        requireNonNull(symptoms.get(fine)).said(true),
        requireNonNull(symptoms.get(coarse)).said(false));
  }
}
