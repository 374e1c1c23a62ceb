package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;

/** The parts every command that reasons needs, put together. */
record Engine(
    Vocabulary vocabulary, RuleBase rules, CaseReader reader, Diagnostician diagnostician) {
  static Engine start() {
    Vocabulary vocabulary = VocabularyReader.builtIn();
    RuleBase rules = RuleBase.builtIn(vocabulary);
    return new Engine(vocabulary, rules, new CaseReader(vocabulary), new Diagnostician(rules));
  }
}
