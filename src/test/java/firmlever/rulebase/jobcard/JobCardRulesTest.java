package firmlever.rulebase.jobcard;

import static org.assertj.core.api.Assertions.assertThat;

import firmlever.casefile.CaseFile;
import firmlever.rulebase.Cases;
import firmlever.rulebase.RuleInfo;
import firmlever.rulebase.RuleTexts;
import firmlever.rulebase.RuleTexts.RuleText;
import firmlever.rulebase.jobcard.Card.Stage;
import firmlever.rulebase.jobcard.CardFacts.Filling;
import firmlever.rulebase.jobcard.CardFacts.Limits;
import firmlever.rulebase.jobcard.CardFacts.Torques;
import firmlever.rulebase.jobcard.JobCardRules.Kind;
import firmlever.rulebase.jobcard.JobCardRules.Line;
import firmlever.rulebase.jobcard.JobCardRules.Said;
import firmlever.vocabulary.Vocabulary.Action;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("The job card rules")
class JobCardRulesTest {
  private static final JobCardRules RULES = JobCardRules.builtIn(Cases.VOCABULARY);
  private static final List<RuleText> TEXTS = RuleTexts.rules(RuleTexts.files(RuleTexts.JOB_CARDS));
  private static final Filling FILLING =
      new Filling("mineral oil", 13, 14, 12, 38, 5, 39, 35, 45, "reckoned");
  private static final Torques TORQUES = new Torques("4 N·m", "5 N·m", "3 N·m", "6 N·m");
  private static final Limits LIMITS = new Limits("1 mm", "1.5 mm", "0.3 mm", "10 mm");

  /** Brakes that differ in all that the rules look at. */
  private static final List<CaseFile> BRAKES =
      List.of(
          brake("'position':'rear','fluid':'mineral-oil','reservoir':'diaphragm'", 2, "external"),
          brake("'position':'front','fluid':'dot-4','reservoir':'sealed'", 4, "unknown"),
          brake("'position':'rear','fluid':'unknown','reservoir':'unknown'", 2, "internal"));

  private static CaseFile brake(String members, int pistons, String routing) {
    return Cases.of(
        "'complaint':'soft','brake':{'id':'B-0417-rear',%s,'caliper':{'pistons':%d},'hose':{'routing':'%s'}}"
            .formatted(members, pistons, routing));
  }

  private static Said write(CaseFile file, Action action) {
    return RULES.write(file, Cases.RULES.consult(file), action, FILLING, TORQUES, LIMITS);
  }

  @Test
  @DisplayName("got into the build, all of them, and into no diagnosis")
  void areBuilt() {
    assertThat(RULES.names())
        .hasSizeGreaterThan(60)
        .containsExactlyInAnyOrderElementsOf(TEXTS.stream().map(RuleText::name).toList());
    assertThat(Cases.RULES.rules())
        .extracting(RuleInfo::packageName)
        .doesNotContain("firmlever.rules.jobcard");
  }

  @Test
  @DisplayName("say for every action of the vocabulary how it is done, in three steps or more")
  void coverEveryAction() {
    for (CaseFile brake : BRAKES) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        List<Line> lines = write(brake, action).lines();
        assertThat(lines.stream().filter(l -> l.stage() == Stage.DO && l.kind() == Kind.STEP))
            .as(action.id())
            .hasSizeGreaterThanOrEqualTo(3);
        assertThat(lines).allSatisfy(line -> assertThat(line.source()).isNotEmpty());
        if (action.needs().contains("pads-out")) {
          assertThat(lines).extracting(Line::want).contains("no-lever-without-block");
        }
        if (action.group().equals("bleed")) {
          assertThat(lines)
              .extracting(Line::want)
              .contains("finish-on-push", "fluids-never-meet", "waste-fluid", "eyes-and-hands");
        }
      }
    }
  }

  /** Works share a card, and the last of them closes up: none puts back what the next takes out. */
  @Test
  @DisplayName("fit pads and wheel when all works are done, and nowhere else")
  void fitOnce() {
    for (Action action : Cases.VOCABULARY.actions().values()) {
      List<Line> lines = write(BRAKES.get(0), action).lines();
      assertThat(lines.stream().filter(l -> l.stage() == Stage.DO).map(Line::text))
          .as(action.id())
          .noneMatch(
              text ->
                  text.matches(
                      "(?i).*(wheel in\\b|pads in\\b|pin in\\b|pin through|wheel to its stop).*"));
      assertThat(lines.stream().filter(l -> l.text().startsWith("Wheel in,")))
          .as(action.id())
          .hasSize(action.needs().contains("wheel-out") ? 1 : 0);
      assertThat(lines.stream().filter(l -> l.text().startsWith("Pads, spring and pin in,")))
          .as(action.id())
          .hasSize(action.needs().contains("pads-out") ? 1 : 0);
    }
  }

  @Test
  @DisplayName("have a line for the torque of the rotor bolts wherever the rotor is worked on")
  void askForTheTorqueOfTheRotor() {
    for (String work : List.of("true-rotor", "replace-rotor", "mend-wheel-play")) {
      assertThat(write(BRAKES.get(0), Cases.VOCABULARY.actions().get(work)).lines())
          .as(work)
          .anyMatch(l -> l.kind() == Kind.TORQUE && l.text().contains("Rotor bolts"));
    }
  }

  @Test
  @DisplayName("all fire for some brake and work")
  void allFire() {
    Set<String> silent = new TreeSet<>(RULES.names());
    for (CaseFile brake : BRAKES) {
      for (Action action : Cases.VOCABULARY.actions().values()) {
        Said said = write(brake, action);
        said.lines().forEach(line -> silent.remove(line.rule()));
        said.then().keySet().forEach(then -> assertThat(then).isNotEqualTo(action.id()));
      }
    }
    assertThat(silent).isEmpty();
  }

  @Test
  @DisplayName("name only actions, groups, set-ups and symptoms that there are")
  void nameWhatThereIs() {
    Set<String> known = new TreeSet<>(Cases.VOCABULARY.actions().keySet());
    Cases.VOCABULARY
        .actions()
        .values()
        .forEach(
            action -> {
              known.add(action.group());
              known.addAll(action.needs());
            });
    known.addAll(Cases.VOCABULARY.symptoms().keySet());
    known.addAll(Cases.VOCABULARY.cautions().keySet());
    List<String> unknown = new ArrayList<>();
    for (RuleText rule : TEXTS) {
      for (MatchResult quoted :
          Pattern.compile("\"([a-z]+(?:-[a-z]+)+)\"").matcher(rule.body()).results().toList()) {
        if (!known.contains(quoted.group(1))) {
          unknown.add(rule.place(quoted.start()) + " " + quoted.group(1));
        }
      }
      assertThat(rule.body())
          .as(rule.place())
          .containsPattern("@source\\(\"(common practice|from memory)");
    }
    assertThat(unknown).isEmpty();
  }

  @Test
  @DisplayName("match no fact whose name crashes the rule compiler")
  void matchNoFactThatCrashes() {
    for (Class<?> fact : CardFacts.class.getDeclaredClasses()) {
      for (RecordComponent component : fact.getRecordComponents()) {
        assertThat("alphaIndexedBy betaIndexedBy").doesNotContain(component.getName());
      }
    }
  }
}
