package firmlever.cli;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.document.BadInput;
import firmlever.hearing.Heeding;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;

/** The parts every command that reasons needs, put together. */
record Engine(
    Vocabulary vocabulary,
    RuleBase rules,
    CaseReader reader,
    Heeding heeding,
    Diagnostician diagnostician) {
  static Engine start() {
    return of(RuleBase.builtIn(VocabularyReader::builtIn));
  }

  /** With a shop's own rules laid over the built-in ones, where a folder of them is named. */
  static Engine start(ShopRules shop) throws BadInput {
    if (shop.folder() == null) {
      return start();
    }
    Vocabulary vocabulary = VocabularyReader.builtIn();
    return of(RuleBase.overlaid(vocabulary, shop.folder()));
  }

  private static Engine of(RuleBase rules) {
    Vocabulary vocabulary = rules.vocabulary();
    return new Engine(
        vocabulary,
        rules,
        new CaseReader(vocabulary),
        new Heeding(vocabulary),
        new Diagnostician(rules));
  }
}
