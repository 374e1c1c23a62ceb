package firmlever.rulebase;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.Judge.Judged;
import firmlever.rulebase.Judge.Judgement;
import firmlever.rulebase.Judge.Verdict;
import firmlever.rulebase.text.RuleReader;
import firmlever.rulebase.text.RuleText;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("The judge of rule texts")
class JudgeTest {
  private static final List<RuleText> RULES = BuiltInRules.read();

  @Test
  @DisplayName("finds the conditions of just those rules met that the engine lets speak")
  void agreesWithTheEngine() {
    List<String> differences = new ArrayList<>();
    long fired = 0;
    for (CaseFile file : Cases.all()) {
      BrakeModel model = Cases.RULES.consult(file);
      Judge judge = new Judge(file, model, Cases.RULES.vocabulary());
      for (RuleText rule : RULES) {
        boolean spoke = model.fired().contains(rule.name());
        fired += spoke ? 1 : 0;
        Judgement judgement = judge.of(rule);
        if (!BuiltInRules.met(judgement).equals(Optional.of(spoke))) {
          differences.add(
              file.id()
                  + ": "
                  + rule.name()
                  + ": engine "
                  + spoke
                  + ", judge "
                  + BuiltInRules.met(judgement));
        }
      }
    }
    assertThat(RULES).hasSameSizeAs(Cases.RULES.rules());
    assertThat(differences).isEmpty();
    assertThat(fired).as("rules that spoke, over all cases").isGreaterThan(30_000);
  }

  private static Judgement judged(String condition, String caseMembers) {
    String text =
        "package firmlever.rules.causes\n\nrule \"a: b\"\n    @source(\"from memory\")\nwhen\n    "
            + condition
            + "\nthen\n    model.raise( \"worn-pads\", 2, \"so it is\" );\nend\n";
    CaseFile file = Cases.of(caseMembers);
    return new Judge(file, Cases.RULES.consult(file), Cases.RULES.vocabulary())
        .of(RuleReader.read("a.drl", text.replace('\'', '"')).get(0));
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '~',
      quoteCharacter = '`',
      value = {
        "Brake( ageYears > 4 )                                     ~ UNKNOWN",
        "Brake( glycol )                                           ~ FALSE",
        "Brake( reservoir == 'sealed' )                            ~ UNKNOWN",
        "Brake( reservoir == 'unknown' )                           ~ MET",
        "Brake( pistons == 4 )                                     ~ UNKNOWN",
        "Use( ambientC < 5 )                                       ~ UNKNOWN",
        "not Use( ambientC < 5 )                                   ~ MET",
        "Finding( symptom == 'drag', present )                     ~ NOT_CHECKED",
        "Finding( symptom == 'squeal', present )                   ~ FALSE",
        "exists Finding( symptom in ( 'squeal', 'drag' ), present ) ~ NOT_CHECKED",
        "not Finding( symptom == 'squeal' )                        ~ FALSE",
        "not Finding( symptom == 'drag' )                          ~ MET",
        "Reading( reading == 'creep', value > 1 )                  ~ FALSE",
        "Reading( reading == 'run-out' )                           ~ NOT_CHECKED",
        "MakerFigure( figure == 'throw', $limit : value )          ~ UNKNOWN",
        "Event( event == 'hung', daysAgo <= 14 )                   ~ FALSE",
        "Event( event == 'flown', daysAgo <= 14 )                  ~ UNKNOWN",
        "Event( event == 'crashed' )                               ~ FALSE",
        "$job : Job( bleed, inVain, daysAgo <= 60 )                ~ UNKNOWN",
        "$job : Job( bleed, daysAgo <= 60 )                        ~ MET",
        "$job : Job( ( work in ( 'top-up' ) || parts contains 'pads' ), !opening ) ~ FALSE",
        "$job : Job( circumstances not contains 'pads-in' )        ~ MET",
        "History( bleedsWithin( 60 ) >= 2 )                        ~ FALSE",
        "History( told, !doneWithin( 20, 'full-bleed', 'top-up' ) ) ~ FALSE",
        "History( !( fluidAgeYears > 0 ) )                         ~ FALSE",
        "Job( $job.daysAgo > 3 )                                   ~ RESTS_ON_ANOTHER",
        "Job( daysAgo > 3 + 4 )                                    ~ NOT_JUDGED",
        "Job( colour == 'red' )                                    ~ NOT_JUDGED",
        "not Job( work matches 'full.*' )                          ~ NOT_JUDGED",
      })
  void tellsFalseFromNotCheckedFromUnknown(String condition, Verdict verdict) {
    Judgement judgement =
        judged(
            condition,
            "'brake':{'id':'B-0417-rear','fluid':'mineral-oil'},'symptoms':{'squeal':'absent',"
                + "'drag':'not-checked'},'readings':{'creep':'0.4 mm'},'history':["
                + "{'days-ago':41,'event':'hung'},{'event':'flown'},"
                + "{'days-ago':12,'work':'full-bleed','parts':['pads']}]");
    assertThat(judgement.conditions()).extracting(Judged::verdict).containsExactly(verdict);
  }

  @Test
  @DisplayName("knows nothing of jobs where nothing at all is on record")
  void anEmptyRecordIsNoProof() {
    for (String condition :
        List.of("Job( bleed )", "Event( event == 'hung' )", "History( bleedsWithin( 9 ) >= 1 )")) {
      assertThat(judged(condition, "'complaint':'odd','brake':{'id':'B-0417-rear'}").conditions())
          .extracting(Judged::verdict)
          .containsExactly(Verdict.UNKNOWN);
    }
  }

  @Test
  @DisplayName("shows the fact that comes nearest")
  void showsTheNearestFact() {
    Judgement judgement =
        judged(
            "Event( event == 'hung', daysAgo <= 14 )",
            "'complaint':'odd','brake':{'id':'B-0417-rear'},'history':["
                + "{'days-ago':3,'event':'crashed'},{'days-ago':41,'event':'hung'}]");
    assertThat(judgement.conditions().get(0).seen())
        .singleElement()
        .isEqualTo(new Facts.Event("hung", 41, true, java.util.Set.of()));
  }

  @Test
  @DisplayName("takes conditions together: a later one speaks of the fact an earlier one found")
  void joinsConditions() {
    String conditions =
        "$first : Job( work == 'full-bleed' )\n    not Job( work == 'fit-brake', daysAgo <"
            + " $first.daysAgo )";
    String members =
        "'complaint':'odd','brake':{'id':'B-0417-rear'},'history':["
            + "{'days-ago':30,'work':'full-bleed'},{'days-ago':%d,'work':'fit-brake'}]";
    assertThat(BuiltInRules.met(judged(conditions, members.formatted(20)))).contains(false);
    assertThat(BuiltInRules.met(judged(conditions, members.formatted(40)))).contains(true);
  }
}
