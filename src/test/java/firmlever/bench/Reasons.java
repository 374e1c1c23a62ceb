package firmlever.bench;

import firmlever.diagnosis.Acceptor;
import firmlever.diagnosis.Bench;
import firmlever.diagnosis.JobCards;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.rulebase.JobCardRules;

/** The parts that think, put together once for the tests of the bench. */
final class Reasons {
  private Reasons() {}

  private static final JobCards CARDS =
      new JobCards(Bench.VOCABULARY, JobCardRules.builtIn(Bench.VOCABULARY));

  static final Reasoning ALL =
      new Reasoning(
          Bench.VOCABULARY,
          Bench.RULES,
          Bench.READER,
          new Heeding(Bench.VOCABULARY, new Hearing()),
          Bench.DIAGNOSTICIAN,
          CARDS,
          new Acceptor(Bench.VOCABULARY, Bench.RULES, Bench.DIAGNOSTICIAN, CARDS));
}
