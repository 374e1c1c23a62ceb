package firmlever.rulebase;

import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.Vocabulary.Action;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The vocabulary, looked up once for all cases: rules name things hundreds of times a case.
 *
 * @param symptoms position of each symptom in the vocabulary
 * @param actions the actions each name stands for, be it of an action or of a group
 */
record Names(
    Vocabulary vocabulary, Map<String, Integer> symptoms, Map<String, List<String>> actions) {

  static Names of(Vocabulary vocabulary) {
    Map<String, Integer> symptoms = new HashMap<>();
    vocabulary.symptoms().keySet().forEach(id -> symptoms.put(id, symptoms.size()));
    Map<String, List<String>> actions = new HashMap<>();
    for (Action action : vocabulary.actions().values()) {
      actions.put(action.id(), vocabulary.actionsOf(action.id()));
      actions.computeIfAbsent(action.group(), vocabulary::actionsOf);
    }
    return new Names(vocabulary, symptoms, actions);
  }
}
