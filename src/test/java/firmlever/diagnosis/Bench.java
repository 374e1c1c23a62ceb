package firmlever.diagnosis;

import firmlever.casefile.CaseFile;
import firmlever.casefile.CaseReader;
import firmlever.document.BadInput;
import firmlever.document.DocumentReader;
import firmlever.hearing.Hearing;
import firmlever.hearing.Heeding;
import firmlever.hearing.Heeding.Heeded;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCard;
import firmlever.jobcard.JobCards;
import firmlever.jobcard.Verdict;
import firmlever.rulebase.RuleBase;
import firmlever.rulebase.jobcard.JobCardRules;
import firmlever.vocabulary.Vocabulary;
import firmlever.vocabulary.VocabularyReader;
import java.util.List;

/** The parts put together once for the tests of job cards, acceptance and interview. */
public final class Bench {
  private Bench() {}

  public static final Vocabulary VOCABULARY = VocabularyReader.builtIn();
  public static final RuleBase RULES = RuleBase.builtIn(VOCABULARY);
  public static final CaseReader READER = new CaseReader(VOCABULARY);
  public static final Diagnostician DIAGNOSTICIAN = new Diagnostician(RULES);
  static final JobCards CARDS = new JobCards(VOCABULARY, JobCardRules.builtIn(VOCABULARY));
  public static final Heeding HEEDING = new Heeding(VOCABULARY, new Hearing());
  private static final Acceptor ACCEPTOR = new Acceptor(VOCABULARY, RULES, DIAGNOSTICIAN, CARDS);

  /** A case with these members besides format, code and day; single quotes for double ones. */
  public static String text(String members) {
    return ("{'format':'firmlever-case/1','id':'B-0417-rear-3','opened':'2026-05-12',"
            + members
            + "}")
        .replace('\'', '"');
  }

  /** The same, read. */
  public static CaseFile of(String members) {
    try {
      return READER.read(DocumentReader.readText(text(members), "a test"), "a test");
    } catch (BadInput e) {
      throw new IllegalArgumentException(e);
    }
  }

  /** The verdict of the acceptance, with the complaint heard as the command hears it. */
  public static Verdict accept(CaseFile file) {
    return ACCEPTOR.judge(file, HEEDING.heed(file));
  }

  /** The card of a case whose complaint is heard. */
  public static JobCard heardCard(CaseFile file, String... actions) throws JobCards.NotNow {
    Heeded heeded = HEEDING.heed(file);
    return CARDS.write(
        heeded.file(),
        RULES.consult(heeded.file()),
        DIAGNOSTICIAN.diagnose(heeded, Diagnostician.Options.BARE),
        List.of(actions));
  }

  public static JobCard card(CaseFile file, String... actions) throws JobCards.NotNow {
    return CARDS.write(
        file,
        RULES.consult(file),
        DIAGNOSTICIAN.diagnose(file, Diagnostician.Options.WITHOUT_DRAWS),
        List.of(actions));
  }
}
